"""Floor 7: the plan of one cloth. Settled strips first, then the shortest plan for the rest, drawn out."""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import groupby

from booklet.cutting.columns import Best, best_plan
from booklet.cutting.counting import Enough
from booklet.cutting.cutting_plan import Buy, FabricPlan, Strip
from booklet.cutting.jobs import Job, LaidStrip
from booklet.cutting.laying import Laying, strips_of
from booklet.cutting.precuts import Stock, pieces_of_stock, stock_of
from booklet.cutting.remnants import remnants_of
from booklet.cutting.yardage import STRAIGHTENING, amount, sold
from booklet.measure import ZERO, Length, Rounding, UnitSystem


def plan_cloth(job: Job, units: UnitSystem, step: Fraction) -> FabricPlan:
    """The cutting plan of one fabric: strips in the order of cutting, the amount to buy, the bound."""
    stock = stock_of(job.fabric)
    width = stock.across if stock else job.fabric.width
    settled = sum((s.height for group in job.settled for s in group), ZERO)
    more = sum((length for _, length in job.more), ZERO)
    straight = STRAIGHTENING.rounded(step, Rounding.UP)
    fixed = settled + more + straight
    remnants, places = remnants_of(job, width, step) if stock is None else ((), ())
    enough = _enough(job, fixed, step, stock)
    best = best_plan(tuple(job.items), steps_in(width, step), enough, remnants)
    laying = Laying(job, step)
    groups = [*laying.settled(best.plan, places), *laying.free(best.plan)]
    if stock:
        return _precut(job, groups, best, stock, width, step)
    strips = strips_of(groups)
    total = fixed + Length(step * best.height)
    found = amount(
        tuple((strip.count, strip.width) for strip in strips),
        job.fabric,
        units,
        tuple(job.more),
        straight,
    )
    return FabricPlan(
        job.fabric.id,
        width,
        strips,
        total,
        _lower_bound(job, fixed, Length(step * best.bound), width, step),
        job.area,
        found.buy,
        found.sum,
        _leftover(groups, width),
        fixed + Length(step * best.first_fit),
    )


def _lower_bound(job: Job, fixed: Length, bound: Length, width: Length, step: Fraction) -> Length:
    """The length that no plan of the same parts goes below.

    Of fussy cuts only the motifs they need are sure. Another way to cut them may leave larger remnants
    for the other pieces, so that beside them only the area of those counts.
    """
    if not job.fussy:
        return fixed + bound
    sure = fixed - sum((planned - least for planned, least in job.fussy), ZERO)
    straight = STRAIGHTENING.rounded(step, Rounding.UP)
    area = Length.of(job.area / float(width)).rounded(step, Rounding.DOWN) + straight
    return min(fixed + bound, max(sure, area))


def steps_in(width: Length, step: Fraction) -> int:
    """How many whole steps the cloth is wide."""
    return math.floor(width.inches / step)


def _enough(job: Job, fixed: Length, step: Fraction, stock: Stock | None) -> Enough:
    """Whether a plan costs no more to buy than its bound would."""

    def enough(plan: int, bound: int) -> bool:
        if plan <= bound:
            return True
        if stock is not None:
            return False
        amounts = (sold(fixed + Length(step * height), job.fabric) for height in (plan, bound))
        return next(amounts) <= next(amounts)

    return enough


def _leftover(groups: list[tuple[LaidStrip, ...]], width: Length) -> tuple[float, float] | None:
    """What is left at the end of the last strip: its width and its length, inches."""
    last = groups[-1][-1]
    rest = float(width) - last.used
    return (float(last.height), round(rest, 6)) if rest > 1e-6 else None


def _precut(
    job: Job,
    groups: list[tuple[LaidStrip, ...]],
    best: Best,
    stock: Stock,
    width: Length,
    step: Fraction,
) -> FabricPlan:
    """The plan of cloth sold ready cut: the strips shared out over pieces of stock."""
    each = sorted((s for group in groups for s in group), key=lambda s: -s.height.inches)
    along = steps_in(stock.along, step)
    heights = tuple(math.ceil(s.height.inches / step) for s in each)
    taken = pieces_of_stock(heights, along)
    count = max(taken) + 1
    made: list[Strip] = []
    order = sorted(range(len(each)), key=lambda i: (taken[i], i))
    for number, indexes in groupby(order, key=lambda i: taken[i]):
        made += strips_of([tuple(each[i] for i in indexes)], number * float(stock.along))
    least = math.ceil(float(best.bound) / along) if along else count
    name = stock.one if count == 1 else stock.many
    yards = Fraction(count, 4) if stock.one == "fat quarter" else Fraction(0)
    length = count * stock.along
    metres = Fraction(0)
    buy = Buy(yards, metres, f"{count} {name}", count, stock.one)
    lines = (
        f"{len(each)} strips, {stock.along} in of cloth in each {stock.one}",
        f"{count} {name}",
    )
    bound = max(1, least) * stock.along
    leftover = _leftover([tuple(each)], width)
    return FabricPlan(
        job.fabric.id, width, tuple(made), length, bound, job.area, buy, lines, leftover, length
    )
