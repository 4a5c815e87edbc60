"""Floor 7: the ways of a cloth. Which there are where it can be cut in several, and the one that buys least."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from functools import cached_property
from itertools import combinations, product

from booklet.crafts.rotary.ruler import Ruler
from booklet.cutting.cloth.jobs import Job
from booklet.cutting.cloth.one_cloth import Rival, bounds_of, plan_cloth, plan_if_better
from booklet.cutting.cutting_plan import LAST_WIDTH, FabricPlan
from booklet.cutting.work.folded_pairs import pairs_of
from booklet.cutting.work.gather import Gathered
from booklet.cutting.work.lengthwise import binding_may_lie_beside, may_be_lengthwise, parts_beside
from booklet.cutting.work.long_work import with_short_strips
from booklet.cutting.work.workbench import CuttingWay
from booklet.kit.measure import INCHES_PER_METRE, INCHES_PER_YARD, ZERO, Length
from booklet.kit.records import Record, replace
from booklet.kit.remembered.memory import Ask
from booklet.kit.trade import JOIN_WORTH
from booklet.quilt.sized import SizedQuilt

Cost = tuple[Fraction, tuple[object, ...]]
"""What is bought, in inches of cloth, and what a seam of the back is worth for each it has; of equal amounts what is nicer."""


class Tried(Record, dict=True):
    """The work on a cloth in one of its ways, and how many seams the backs have that are cut from it."""

    job: Job
    way: CuttingWay
    joins: int

    def cost(self, bought: Length) -> Cost:
        """The cost where so much is bought; of equal amounts the fewest joins, of the back first of all, then borders, binding and
        other long parts across the cloth, and pairs from folded cloth."""
        way = self.way
        nicer = (
            self.joins + self._other_joins,
            self.joins,
            way.lengthwise,
            way.beside,
            len(way.parts),
            way.parts,
            not way.folded,
            way.back,
            way.ends,
        )
        return bought.inches + self.seams.inches, nicer

    @cached_property
    def _other_joins(self) -> int:
        """How many joins borders, a sleeve, long sashes and the binding have, each of which has one less than strips."""
        parts = (part for join in self.job.joins for part in join.parts if part.name != LAST_WIDTH)
        binding = sum(patch.pieces for patch in self.job.patches if patch.name == "binding")
        return sum(len(part.stretches) - 1 for part in parts) + binding

    @property
    def seams(self) -> Length:
        """What the seams of the back are worth."""
        metric = self.job.fabric.sold.metric
        return self.joins * (JOIN_WORTH.cm if metric else JOIN_WORTH.inch)


class Worked(Record):
    """A cloth in the way it is tried, and its plan."""

    tried: Tried
    plan: FabricPlan

    @property
    def amount(self) -> Length:
        """How much is bought; of cloth sold ready cut so much as its pieces are long."""
        buy, sold = self.plan.buy, self.tried.job.fabric.sold
        if buy.count is not None:
            return self.plan.length
        return Length(buy.metres * INCHES_PER_METRE if sold.metric else buy.yards * INCHES_PER_YARD)

    @property
    def cost(self) -> Cost:
        """What it costs."""
        return self.tried.cost(self.amount)

    @property
    def said(self) -> str:
        """What is bought, with its unit."""
        buy = self.plan.buy
        if buy.count is not None:
            return str(buy.yards_text)
        metric = self.tried.job.fabric.sold.metric
        return f"{float(buy.metres):g} m" if metric else f"{buy.yards_text} yd"

    def rival_of(self, other: Tried) -> Rival:
        """What another way must beat."""
        most, nicer = self.cost
        bought = Length(most - other.seams.inches)
        return Rival(bought, other.cost(bought)[1] < nicer, self.plan.lower_bound)


def best_of(ways: Iterable[Tried], ruler: Ruler, ask: Ask) -> Worked:
    """The way that takes least to buy, with a bound that holds for all of them.

    The way whose pieces have least area is planned first, and of the others only those that may be of use beside it.
    """
    step, units = ruler.planned, ruler.units
    found = _unlike(ways)
    if len(found) == 1:
        return Worked(found[0], ask(plan_cloth, found[0].job, units, step))
    bounds = [(bounds_of(tried.job, units, step), tried) for tried in found]
    bounds.sort(key=lambda pair: pair[1].cost(pair[0].bought))
    best: Worked | None = None
    for least, tried in bounds:
        rival = best.rival_of(tried) if best is not None else None
        if rival is not None and not rival.is_beaten_by(least):
            continue
        plan = ask(plan_if_better, tried.job, units, step, rival)
        if plan is not None:
            best = _better(best, Worked(tried, plan))
    assert best is not None  # the first has no rival
    return best


def _unlike(ways: Iterable[Tried]) -> list[Tried]:
    """The ways without those in which the cloth is cut just as in a nicer one, as where nothing finds room beside the back."""
    found: dict[object, Tried] = {}
    for tried in ways:
        job = tried.job
        cut = tuple(job.settled), tuple(job.items), tuple(job.more)
        found[cut] = min(found.get(cut, tried), tried, key=lambda way: way.cost(ZERO))
    return list(found.values())


def _better(one: Worked | None, other: Worked) -> Worked:
    """The one that takes less to buy; its bound holds for either way."""
    if one is None:
        return other
    best = min(one, other, key=lambda worked: worked.cost)
    bound = min(one.plan.lower_bound, other.plan.lower_bound)
    return replace(best, plan=replace(best.plan, lower_bound=bound))


def ways_of(quilt: SizedQuilt, gathered: Gathered) -> dict[str, list[CuttingWay]]:
    """The ways to try of each cloth beside the plain one."""
    lengthwise = may_be_lengthwise(quilt)
    folded = {gathered.wants[number][0].fabric.id for number in pairs_of(gathered.wants)}
    back = quilt.backing.fabric if quilt.backing is not None else None
    short = with_short_strips(quilt)
    found = {}
    for fabric in (job.fabric.id for job in gathered.jobs):
        is_back = fabric == back
        choices = product(
            _either(fabric in lengthwise),
            _either(fabric in folded),
            range(len(quilt.backs)) if is_back else (0,),
            _either(is_back and binding_may_lie_beside(quilt)),
            _some_of(parts_beside(quilt)) if is_back else ((),),
            _either(fabric in short),
        )
        _, *others = (
            CuttingWay(
                lengthwise=along, folded=fold, back=way, beside=beside, parts=parts, ends=ends
            )
            for along, fold, way, beside, parts, ends in choices
        )
        found[fabric] = others
    return found


def _either(may: bool) -> tuple[bool, ...]:
    """The plain way, and the other where there is one."""
    return (False, True) if may else (False,)


def _some_of(names: tuple[str, ...]) -> tuple[tuple[str, ...], ...]:
    """None of them, each, and so on up to all."""
    return tuple(some for n in range(len(names) + 1) for some in combinations(names, n))
