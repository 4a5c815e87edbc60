"""Floor 7: the stage. A set pattern becomes a cutting plan for every size."""

from __future__ import annotations

from fractions import Fraction

from booklet.crafts.rotary.ruler import Ruler
from booklet.crafts.unit import TogetherUnit
from booklet.cutting.cloth.jobs import Job
from booklet.cutting.cloth.one_cloth import plan_cloth
from booklet.cutting.cutting_plan import CutPatch, CutPattern, CuttingPlan, FabricPlan, StripJoin
from booklet.cutting.faults import (
    bias_on_rim,
    grain_conflicts,
    motif_without_repeat,
    turned_prints,
)
from booklet.cutting.patches.fitting import fitted
from booklet.cutting.patches.off_ruler import off_the_ruler
from booklet.cutting.units.together import free_units, made_together, offers
from booklet.cutting.units.unit_candidates import Candidate
from booklet.cutting.units.unit_wishes import unkept_wishes
from booklet.cutting.work.folded_pairs import pairs_of
from booklet.cutting.work.gather import Gathered, gather, pieces_of, with_grain
from booklet.cutting.work.lengthwise import may_be_lengthwise
from booklet.cutting.work.workbench import CuttingWay
from booklet.geometry.tiling import LaidOut
from booklet.kit.diagnostic import Diagnostic, Outcome, told_once
from booklet.kit.records import Record, grown, replace
from booklet.kit.remembered.memory import Ask, hands_words_through, plainly
from booklet.pattern.reads import plain
from booklet.quilt.sized import SetPattern, SizedQuilt
from booklet.sewing.assembly import Assembled, alone


def cut(set_pattern: SetPattern, ask: Ask = plainly) -> Outcome[CutPattern]:
    """The cutting plan of every size, with what cannot be cut as asked (errors) or is unwise (warnings)."""
    plans: dict[str, CuttingPlan] = {}
    faults: list[Diagnostic] = []
    for size in set_pattern.pattern.sizes:
        quilt = set_pattern.quilts.get(size.id)
        if quilt is not None:
            asked = replace(quilt, size=plain(size))
            plans[size.id], found = ask(cut_size, alone(set_pattern, size), asked, ask)
            faults += found
    faults += unkept_wishes(set_pattern, plans)
    return Outcome(grown(CutPattern, set_pattern, cuts=plans), told_once(faults))


@hands_words_through
def cut_size(
    sewn: Assembled, quilt: SizedQuilt, ask: Ask = plainly
) -> tuple[CuttingPlan, tuple[Diagnostic, ...]]:
    """The plan of one size, and its faults."""
    written, wish = sewn.pattern, quilt.size.cutting
    ruler = Ruler(
        allowance=written.allowance,
        units=written.units,
        trim=wish.trim,
        asked=wish.ruler,
        papers=quilt.size.sewing.papers,
    )
    free = free_units(sewn, quilt)
    wished = free if wish.wishes else ()
    found = fitted(sewn, quilt, ruler, pieces_of(made_together(wished, quilt, ruler)))
    cloths = ask(cut_cloths, LaidOut(written, sewn.tilings), quilt, found.ruler, ruler, wished, ask)
    plan = CuttingPlan(
        patches=cloths.patches,
        fabrics=cloths.plans,
        together=cloths.together,
        offers=offers(free, quilt, cloths.ruler, cloths.together),
        joins=cloths.joins,
        trims={block: steps for block, steps in found.trims.items() if steps},
    )
    return plan, cloths.faults


class Cloths(Record, kw_only=True):
    """All cloths of a size as they are cut."""

    ruler: Ruler
    plans: tuple[FabricPlan, ...]
    patches: tuple[CutPatch, ...]
    together: tuple[TogetherUnit, ...]
    joins: tuple[StripJoin, ...]
    faults: tuple[Diagnostic, ...]


@hands_words_through
def cut_cloths(
    laid: LaidOut,
    quilt: SizedQuilt,
    ruler: Ruler,
    plain: Ruler,
    wished: tuple[Candidate, ...],
    ask: Ask,
) -> Cloths:
    """How the pieces of a size are cut, whatever the order in which they are sewn: with a ruler by which all fit, and
    those of `wished` units, which the `plain` ruler gives, together."""
    ruler = with_grain(laid, quilt, ruler, made_together(wished, quilt, plain))
    gathered = gather(laid, quilt, ruler, wished)
    faults = list(gathered.faults)
    for want, made in gathered.wants:
        faults += grain_conflicts(want)
        faults += bias_on_rim(want, made.grain)
        faults += motif_without_repeat(want)
    faults += turned_prints(quilt, tuple(want for want, _ in gathered.wants))
    best = {job.fabric.id: _worked(job, ruler, ask) for job in gathered.jobs}
    for way, fabrics in _other_ways(quilt, gathered):
        tried = gather(laid, quilt, ruler, wished, dict.fromkeys(fabrics, way))
        for job in tried.jobs:
            if job.fabric.id in fabrics:
                best[job.fabric.id] = _better(best[job.fabric.id], _worked(job, ruler, ask, way))
    patches = tuple(patch for worked in best.values() for patch in worked.job.patches)
    faults += off_the_ruler(laid, quilt, ruler, gathered.wants, patches)
    return Cloths(
        ruler=ruler,
        plans=tuple(worked.plan for worked in best.values()),
        patches=patches,
        together=gathered.together,
        joins=tuple(join for worked in best.values() for join in worked.job.joins),
        faults=tuple(faults),
    )


class _Worked(Record):
    """A job, its plan, and the way it was gathered."""

    job: Job
    plan: FabricPlan
    way: CuttingWay

    @property
    def cost(self) -> tuple[Fraction, Fraction, bool, bool]:
        """What is bought; of equal amounts borders across the cloth, and pairs from folded cloth."""
        buy = self.plan.buy
        return buy.yards, buy.metres, self.way.lengthwise, not self.way.folded


def _worked(job: Job, ruler: Ruler, ask: Ask, way: CuttingWay | None = None) -> _Worked:
    return _Worked(job, ask(plan_cloth, job, ruler.units, ruler.planned), way or CuttingWay())


def _better(one: _Worked, other: _Worked) -> _Worked:
    """The one that takes less to buy; its bound holds for either way."""
    best = min(one, other, key=lambda worked: worked.cost)
    bound = min(one.plan.lower_bound, other.plan.lower_bound)
    return replace(best, plan=replace(best.plan, lower_bound=bound))


def _other_ways(quilt: SizedQuilt, gathered: Gathered) -> list[tuple[CuttingWay, frozenset[str]]]:
    """The ways to try beside the plain one, each with the fabrics that have the choice."""
    lengthwise = frozenset(may_be_lengthwise(quilt))
    pairs = pairs_of(gathered.wants)
    folded = frozenset(gathered.wants[number][0].fabric.id for number in pairs)
    ways = [
        (CuttingWay(lengthwise=True), lengthwise),
        (CuttingWay(folded=True), folded),
        (CuttingWay(True, True), lengthwise & folded),
    ]
    return [(way, fabrics) for way, fabrics in ways if fabrics]
