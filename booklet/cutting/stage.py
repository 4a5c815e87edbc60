"""Floor 7: the stage. A set pattern becomes a cutting plan for every size."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from itertools import product

from booklet.crafts.rotary.ruler import Ruler
from booklet.crafts.unit import TogetherUnit
from booklet.cutting.cloth.jobs import Job
from booklet.cutting.cloth.one_cloth import plan_cloth
from booklet.cutting.cutting_plan import (
    PANELS,
    CutPatch,
    CutPattern,
    CuttingPlan,
    FabricPlan,
    StripJoin,
)
from booklet.cutting.faults import (
    bias_on_rim,
    grain_conflicts,
    hardly_used_width,
    motif_without_repeat,
    turned_prints,
)
from booklet.cutting.patches.fitting import fitted
from booklet.cutting.patches.off_ruler import off_the_ruler
from booklet.cutting.units.together import free_units, made_together, offers
from booklet.cutting.units.unit_candidates import Candidate
from booklet.cutting.units.unit_wishes import unkept_wishes
from booklet.cutting.work.folded_pairs import pairs_of
from booklet.cutting.work.gather import Gathered, back_alone, gather, pieces_of, with_grain
from booklet.cutting.work.lengthwise import (
    binding_may_lie_beside,
    may_be_lengthwise,
    parts_may_lie_beside,
)
from booklet.cutting.work.long_work import with_short_strips
from booklet.cutting.work.workbench import CuttingWay
from booklet.geometry.tiling import LaidOut
from booklet.kit.diagnostic import Diagnostic, Outcome, told_once
from booklet.kit.measure import INCHES_PER_METRE, INCHES_PER_YARD
from booklet.kit.records import Record, grown, replace
from booklet.kit.remembered.memory import Ask, hands_words_through, plainly
from booklet.kit.trade import JOIN_WORTH
from booklet.pattern.reads import plain
from booklet.quilt.sized import BackingPlan, SetPattern, SizedQuilt
from booklet.sewing.assembly import Assembled, alone


def cut(set_pattern: SetPattern, ask: Ask = plainly) -> Outcome[CutPattern]:
    """The cutting plan of every size, with what cannot be cut as asked (errors) or is unwise (warnings)."""
    plans: dict[str, CuttingPlan] = {}
    quilts, written = dict(set_pattern.quilts), set_pattern.pattern
    faults: list[Diagnostic] = []
    for size in written.sizes:
        quilt = quilts.get(size.id)
        if quilt is not None:
            asked = replace(quilt, size=plain(size))
            plans[size.id], back, found = ask(cut_size, alone(set_pattern, size), asked, ask)
            faults += found
            quilts[size.id] = quilt = replace(quilt, backing=back, other_backs=())
            # where a border is left out for a fault the top is another: its measures tell nothing of the one that is meant
            faults += hardly_used_width(quilt, written.units) if written.complete else ()
    faults += unkept_wishes(set_pattern, plans)
    set_pattern = replace(set_pattern, quilts=quilts)
    return Outcome(grown(CutPattern, set_pattern, cuts=plans), told_once(faults))


@hands_words_through
def cut_size(
    sewn: Assembled, quilt: SizedQuilt, ask: Ask = plainly
) -> tuple[CuttingPlan, BackingPlan | None, tuple[Diagnostic, ...]]:
    """The plan of one size, the back as it is cut, and its faults."""
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
    return plan, cloths.back, cloths.faults


class Cloths(Record, kw_only=True):
    """All cloths of a size as they are cut."""

    ruler: Ruler
    plans: tuple[FabricPlan, ...]
    patches: tuple[CutPatch, ...]
    together: tuple[TogetherUnit, ...]
    joins: tuple[StripJoin, ...]
    back: BackingPlan | None
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
    best = {job.fabric.id: _worked(job, quilt, ruler, ask) for job in gathered.jobs}
    for way, fabrics in _other_ways(quilt, gathered):
        for job in _tried(laid, quilt, ruler, wished, gathered, way, fabrics):
            worked = _worked(job, quilt, ruler, ask, way)
            best[job.fabric.id] = _better(best[job.fabric.id], worked)
    patches = tuple(patch for worked in best.values() for patch in worked.job.patches)
    faults += off_the_ruler(laid, quilt, ruler, gathered.wants, patches)
    return Cloths(
        ruler=ruler,
        plans=tuple(worked.plan for worked in best.values()),
        patches=patches,
        together=gathered.together,
        joins=tuple(join for worked in best.values() for join in worked.job.joins),
        back=_back(quilt, best),
        faults=tuple(faults),
    )


class _Worked(Record):
    """A job, its plan, the way it was gathered, and how many seams the backs have that are cut from that
    cloth."""

    job: Job
    plan: FabricPlan
    way: CuttingWay
    joins: int

    @property
    def cost(self) -> tuple[Fraction, int, bool, bool, bool, bool, int]:
        """What is bought, in inches of cloth, and what a seam of the back is worth for each it has; of equal amounts the back
        of fewest seams, borders, binding and other long parts across the cloth, and pairs from folded cloth."""
        buy, way, metric = self.plan.buy, self.way, self.job.fabric.sold.metric
        if buy.count is not None:
            bought = self.plan.length.inches  # of cloth sold ready cut: as long as its pieces
        else:
            bought = buy.metres * INCHES_PER_METRE if metric else buy.yards * INCHES_PER_YARD
        seam = JOIN_WORTH.cm if metric else JOIN_WORTH.inch
        return (
            bought + self.joins * seam.inches,
            self.joins,
            way.lengthwise,
            way.beside,
            way.parts,
            not way.folded,
            way.back,
        )


def _worked(
    job: Job, quilt: SizedQuilt, ruler: Ruler, ask: Ask, way: CuttingWay | None = None
) -> _Worked:
    way, backs = way or CuttingWay(), quilt.backs
    is_back = bool(backs) and backs[0].fabric == job.fabric.id
    plan = ask(plan_cloth, job, ruler.units, ruler.planned)
    return _Worked(job, plan, way, backs[way.back].joins * quilt.size.kits if is_back else 0)


def _back(quilt: SizedQuilt, best: Mapping[str, _Worked]) -> BackingPlan | None:
    """The back in the way in which its cloth is cut; as it was where that is not known."""
    if quilt.backing is None or quilt.backing.fabric not in best:
        return quilt.backing
    return quilt.backs[best[quilt.backing.fabric].way.back]


def _better(one: _Worked, other: _Worked) -> _Worked:
    """The one that takes less to buy; its bound holds for either way."""
    best = min(one, other, key=lambda worked: worked.cost)
    bound = min(one.plan.lower_bound, other.plan.lower_bound)
    return replace(best, plan=replace(best.plan, lower_bound=bound))


def _other_ways(quilt: SizedQuilt, gathered: Gathered) -> list[tuple[CuttingWay, frozenset[str]]]:
    """The ways to try beside the plain one, each with the fabrics that have the choice."""
    lengthwise = may_be_lengthwise(quilt)
    folded = {gathered.wants[number][0].fabric.id for number in pairs_of(gathered.wants)}
    back = quilt.backing.fabric if quilt.backing is not None else None
    short = with_short_strips(quilt)
    found: dict[CuttingWay, set[str]] = {}
    for fabric in (job.fabric.id for job in gathered.jobs):
        is_back = fabric == back
        choices = product(
            _either(fabric in lengthwise),
            _either(fabric in folded),
            range(len(quilt.backs)) if is_back else (0,),
            _either(is_back and binding_may_lie_beside(quilt)),
            _either(is_back and parts_may_lie_beside(quilt)),
            _either(fabric in short),
        )
        for along, fold, way_of_back, beside, parts, ends in choices:
            way = CuttingWay(
                lengthwise=along,
                folded=fold,
                back=way_of_back,
                beside=beside,
                parts=parts,
                ends=ends,
            )
            found.setdefault(way, set()).add(fabric)
    found.pop(CuttingWay(), None)  # the plain one
    return [(way, frozenset(fabrics)) for way, fabrics in found.items()]


def _either(may: bool) -> tuple[bool, ...]:
    """The plain way, and the other where there is one."""
    return (False, True) if may else (False,)


def _tried(
    laid: LaidOut,
    quilt: SizedQuilt,
    ruler: Ruler,
    wished: tuple[Candidate, ...],
    gathered: Gathered,
    way: CuttingWay,
    fabrics: frozenset[str],
) -> list[Job]:
    """The work on some cloths in another way; a cloth from which nothing but the back is cut is not worth gathering all
    others for."""
    if way.back and not any(job.fabric.id in fabrics and _holds_more(job) for job in gathered.jobs):
        return [back_alone(quilt, ruler, way)]
    tried = gather(laid, quilt, ruler, wished, dict.fromkeys(fabrics, way), gathered)
    return [job for job in tried.jobs if job.fabric.id in fabrics]


def _holds_more(job: Job) -> bool:
    """Whether anything but the panels of the back is cut from its cloth."""
    return bool(job.items) or any(patch.name not in PANELS for patch in job.patches)
