"""Floor 7: the stage. A set pattern becomes a cutting plan for every size."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from booklet.crafts.rotary.ruler import Ruler
from booklet.crafts.unit import TogetherUnit
from booklet.cutting.cloth.jobs import Job
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
    narrower_back,
    turned_prints,
)
from booklet.cutting.patches.fitting import fitted
from booklet.cutting.patches.off_ruler import off_the_ruler
from booklet.cutting.units.together import free_units, made_together, offers
from booklet.cutting.units.unit_candidates import Candidate
from booklet.cutting.units.unit_wishes import unkept_wishes
from booklet.cutting.ways import Tried, Worked, best_of, ways_of
from booklet.cutting.work.gather import (
    Gathered,
    back_alone,
    gather,
    gather_anew,
    pieces_of,
    with_grain,
)
from booklet.cutting.work.workbench import CuttingWay
from booklet.geometry.tiling import LaidOut
from booklet.kit.diagnostic import Diagnostic, Outcome, told_once
from booklet.kit.measure import ZERO
from booklet.kit.records import Record, grown, replace
from booklet.kit.remembered.memory import Ask, hands_words_through, plainly
from booklet.kit.trade import SOLD_STEP
from booklet.pattern.reads import plain
from booklet.quilt.quilting import backs_of
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
            quilts[size.id] = replace(quilt, backing=back, other_backs=())
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
    ways = ways_of(quilt, gathered)
    best = {
        job.fabric.id: best_of(_tried(quilt, ruler, gathered, job, ways[job.fabric.id]), ruler, ask)
        for job in gathered.jobs
    }
    back = _back(quilt, best)
    # where a border is left out for a fault the top is another: its measures tell nothing of the one that is meant
    if back is not None and back.fabric in best and laid.pattern.complete:
        faults += _hardly_used(quilt, back, ruler, gathered, best[back.fabric], ask)
    patches = tuple(patch for worked in best.values() for patch in worked.tried.job.patches)
    faults += ask(off_the_ruler, laid, quilt, ruler, tuple(gathered.wants), patches)
    return Cloths(
        ruler=ruler,
        plans=tuple(worked.plan for worked in best.values()),
        patches=patches,
        together=gathered.together,
        joins=tuple(join for worked in best.values() for join in worked.tried.job.joins),
        back=back,
        faults=tuple(faults),
    )


def _back(quilt: SizedQuilt, best: Mapping[str, Worked]) -> BackingPlan | None:
    """The back in the way in which its cloth is cut; as it was where that is not known."""
    if quilt.backing is None or quilt.backing.fabric not in best:
        return quilt.backing
    return quilt.backs[best[quilt.backing.fabric].tried.way.back]


def _hardly_used(
    quilt: SizedQuilt, back: BackingPlan, ruler: Ruler, gathered: Gathered, made: Worked, ask: Ask
) -> Iterator[Diagnostic]:
    """A warning for a back that takes a width more for very little of it: where less is bought with one that is near enough,
    all that is cut beside either counted."""
    near = narrower_back(quilt, back, ruler.units)
    wish = quilt.size.quilt.backing if quilt.size.quilt is not None else None
    if near is None or wish is None or quilt.finished is None:
        return
    asked, fabric = replace(wish, extra=near.extra), back.fabric
    backs = backs_of(quilt.size, quilt.finished, asked, ruler.units, back.allowance)
    other = replace(quilt, backing=backs[0], other_backs=backs[1:])
    plain = gather_anew(other, ruler, gathered, fabric, CuttingWay())
    ways = ways_of(other, gathered)[fabric]
    spared = best_of(_tried(other, ruler, gathered, plain, ways), ruler, ask)
    # of a back with a joined panel any less is worth it, for its joins
    if made.amount - spared.amount > (ZERO if back.strips else SOLD_STEP.inch):
        bought = made.said, spared.said
        yield from hardly_used_width(quilt.size, back, near, bought, ruler.units)


def _tried(
    quilt: SizedQuilt, ruler: Ruler, gathered: Gathered, plain: Job, others: Iterable[CuttingWay]
) -> Iterator[Tried]:
    """The work on a cloth in each of its ways, the `plain` one first. A cloth from which nothing but the back is cut is not
    gathered again."""
    fabric, backs, more = plain.fabric.id, quilt.backs, _holds_more(plain)
    is_back = bool(backs) and backs[0].fabric == fabric
    for way in (CuttingWay(), *others):
        joins = backs[way.back].joins * quilt.size.kits if is_back else 0
        job = plain
        if way.back and not more:
            job = back_alone(quilt, ruler, way)
        elif way != CuttingWay():
            job = gather_anew(quilt, ruler, gathered, fabric, way)
        yield Tried(job, way, joins)


def _holds_more(job: Job) -> bool:
    """Whether anything but the panels of the back is cut from its cloth."""
    return bool(job.items) or any(patch.name not in PANELS for patch in job.patches)
