"""Floor 7: the plan of one cloth. Settled strips first, then the shortest plan for the rest, drawn out."""

from __future__ import annotations

import math
from fractions import Fraction

from booklet.cutting.cloth.jobs import Job
from booklet.cutting.cloth.laying import StripLaying, leftovers_of, strips_of
from booklet.cutting.cloth.precuts import Stock, stock_of
from booklet.cutting.cloth.stock_plan import plan_stock
from booklet.cutting.cloth.yardage import amount, sold
from booklet.cutting.cutting_plan import FabricPlan
from booklet.cutting.strips.items import Remnant
from booklet.cutting.strips.shortest import Enough, best_plan
from booklet.kit.measure import ZERO, Length, Rounding, UnitSystem
from booklet.kit.outlines.near import WHOLE
from booklet.kit.records import replace
from booklet.kit.remembered.memory import hands_words_through
from booklet.kit.trade import STRAIGHTENING


@hands_words_through
def plan_cloth(job: Job, units: UnitSystem, step: Fraction) -> FabricPlan:
    """The cutting plan of one fabric: strips in the order of cutting, the amount to buy, the bound."""
    stock = stock_of(job.fabric)
    width = stock.across if stock else job.fabric.width
    settled = sum((s.height for group in job.settled for s in group), ZERO)
    more = sum((length for _, length in job.more), ZERO)
    straight = STRAIGHTENING.said_in(units).rounded(step, Rounding.UP)
    fixed = settled + more + straight
    remnants, places = remnants_of(job, width, step) if stock is None else ((), ())
    enough = _enough(job, fixed, step, stock)
    best = best_plan(tuple(job.items), steps_in(width, step), enough, remnants)
    laying = StripLaying(job, step)
    if stock:
        return plan_stock(job, laying, best, stock, step)
    groups = [*laying.settled(best.plan, remnants, places), *laying.free(best.plan)]
    strips = strips_of(groups)
    total = fixed + Length(step * best.height)
    found = amount(
        tuple((strip.count, strip.width) for strip in strips),
        job.fabric,
        units,
        tuple(job.more),
        straight,
    )
    shrunk = Length(sold(total, job.fabric).inches * (1 - job.fabric.shrinks))
    uncut = (shrunk - total).rounded(step, Rounding.DOWN)
    return FabricPlan(
        fabric=job.fabric.id,
        width=width,
        strips=strips,
        length=total,
        lower_bound=_lower_bound(job, fixed, straight, Length(step * best.bound), step),
        area_used=job.area,
        buy=found.buy,
        sum=found.sum,
        leftovers=leftovers_of(groups, width, step, [uncut]),
        uncut=uncut,
    )


def _lower_bound(
    job: Job, fixed: Length, straight: Length, bound: Length, step: Fraction
) -> Length:
    """The length that no plan of the same parts goes below.

    Of fussy cuts only the motifs they need are sure. Another way to cut them may leave larger remnants
    for the other pieces, so that beside them only the area of those counts.
    """
    if not job.fussy:
        return fixed + bound
    sure = fixed - sum((planned - least for planned, least in job.fussy), ZERO)
    area = Length.of(job.area / float(job.fabric.width)).rounded(step, Rounding.DOWN) + straight
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


_MOST = 8
"""Kinds of remnants used at most, the largest: more would only slow the plan down."""

_Ends = tuple[tuple[int, int], ...]
"""Which strip of which group alike remnants are the ends of, one for each piece."""


def remnants_of(
    job: Job, width: Length, step: Fraction
) -> tuple[tuple[Remnant, ...], tuple[_Ends, ...]]:
    """The ends of settled strips that some item fits in, alike ones as one kind, and for each the groups and strips they
    end."""
    found: dict[Remnant, list[tuple[int, int]]] = {}
    for group, strips in enumerate(job.settled):
        for index, strip in enumerate(strips):
            until = float(width) if strip.until is None else strip.until
            room = math.floor((until - strip.used) / float(step) + WHOLE)
            remnant = Remnant(room, math.floor(strip.height.inches / step))
            if strip.free and _holds_any(job, remnant):
                found.setdefault(remnant, []).append((group, index))
    kinds = [(replace(each, count=len(ends)), tuple(ends)) for each, ends in found.items()]
    largest = sorted(kinds, key=lambda kind: (-_area(kind[0]), kind[1]))[:_MOST]
    in_order = sorted(largest, key=lambda kind: kind[1])
    return tuple(remnant for remnant, _ in in_order), tuple(ends for _, ends in in_order)


def _area(remnant: Remnant) -> int:
    """All pieces of it together, in square steps."""
    return remnant.width * remnant.height * remnant.count


def _holds_any(job: Job, remnant: Remnant) -> bool:
    return any(
        variant.lengths[0] <= remnant.width and variant.height <= remnant.height
        for item in job.items
        for variant in item.variants
    )
