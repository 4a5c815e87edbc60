"""Floor 7: the plan of one cloth. Settled strips first, then the shortest plan for the rest, drawn out."""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction
from functools import cached_property

from booklet.cutting.cloth.jobs import Job
from booklet.cutting.cloth.laying import StripLaying, leftovers_of, strips_of
from booklet.cutting.cloth.precuts import Stock, stock_of
from booklet.cutting.cloth.stock_plan import plan_stock, settled_heights
from booklet.cutting.cloth.stocking import least_stock
from booklet.cutting.cloth.yardage import amount, sold
from booklet.cutting.cutting_plan import FabricPlan
from booklet.cutting.strips.items import Remnant
from booklet.cutting.strips.shortest import Enough, best_plan, least_height
from booklet.kit.measure import ZERO, Length, Rounding, UnitSystem
from booklet.kit.outlines.near import WHOLE
from booklet.kit.records import Record, replace
from booklet.kit.remembered.memory import hands_words_through
from booklet.kit.trade import STRAIGHTENING


class Bounds(Record):
    """What no plan of a cloth goes below: what is bought of it, and the length that its plan is proven against."""

    bought: Length
    length: Length


class Rival(Record):
    """Another way to cut the same parts, whose plan is known: what a plan must buy less of, or as much where it `wins_ties`,
    to be taken in its place; and the bound that it would have to lower to be told."""

    bought: Length
    wins_ties: bool
    bound: Length

    def is_beaten_by(self, bounds: Bounds) -> bool:
        """Whether a plan with these bounds may still be of use."""
        less = bounds.bought < self.bought or (self.wins_ties and bounds.bought == self.bought)
        return less or bounds.length < self.bound


@hands_words_through
def plan_cloth(job: Job, units: UnitSystem, step: Fraction) -> FabricPlan:
    """The cutting plan of one fabric: strips in the order of cutting, the amount to buy, the bound."""
    plan = _planned(_Laid(job, units, step), None)
    assert plan is not None  # nothing beats it
    return plan


@hands_words_through
def plan_if_better(
    job: Job, units: UnitSystem, step: Fraction, rival: Rival | None
) -> FabricPlan | None:
    """The plan of a fabric, cut in one of its ways; None as soon as it is sure that it is of no use beside a rival."""
    return _planned(_Laid(job, units, step), rival)


def bounds_of(job: Job, units: UnitSystem, step: Fraction) -> Bounds:
    """What no plan of the fabric goes below, by the area of its pieces: nothing is planned."""
    laid = _Laid(job, units, step)
    items = tuple(job.items)
    return laid.bounds(least_height(items, steps_in(laid.width, step), laid.ends[0]))


class _Laid(Record, dict=True):
    """What lies on a cloth before its plan: the settled lengths, and their ends."""

    job: Job
    units: UnitSystem
    step: Fraction

    @cached_property
    def stock(self) -> Stock | None:
        """The piece it is sold in."""
        return stock_of(self.job.fabric)

    @property
    def width(self) -> Length:
        """How wide the cloth is."""
        return self.stock.across if self.stock else self.job.fabric.width

    @cached_property
    def straight(self) -> Length:
        """What straightening its edge takes."""
        return STRAIGHTENING.said_in(self.units).rounded(self.step, Rounding.UP)

    @cached_property
    def fixed(self) -> Length:
        """The length of all that is settled."""
        settled = sum((s.height for group in self.job.settled for s in group), ZERO)
        return settled + sum((length for _, length in self.job.more), ZERO) + self.straight

    @cached_property
    def ends(self) -> tuple[tuple[Remnant, ...], tuple[_Ends, ...]]:
        """The ends of settled strips, and which they are."""
        return remnants_of(self.job, self.width, self.step) if self.stock is None else ((), ())

    def bounds(self, height: int) -> Bounds:
        """What no plan goes below whose free strips are at least so high together, in steps."""
        free = Length(self.step * height)
        if self.stock is not None:
            return self._bounds_of_stock(self.stock, height)
        length = _lower_bound(self.job, self.fixed, self.straight, free, self.step)
        return Bounds(sold(self.fixed + free, self.job.fabric), length)

    def _bounds_of_stock(self, stock: Stock, height: int) -> Bounds:
        along, across = (steps_in(side, self.step) for side in (stock.along, stock.across))
        settled = settled_heights(self.job, self.step)
        least = least_stock(tuple(self.job.items), settled, across, along, height)
        return Bounds(least * stock.along, least * stock.along)


def _planned(laid: _Laid, rival: Rival | None) -> FabricPlan | None:
    """The plan of a cloth; None where it is sure that it is of no use beside a rival."""
    job, step, width, fixed = laid.job, laid.step, laid.width, laid.fixed
    remnants, places = laid.ends

    def is_of_use(bound: int) -> bool:
        return rival is None or rival.is_beaten_by(laid.bounds(bound))

    enough = _enough(job, fixed, step, laid.stock, is_of_use)
    best = best_plan(tuple(job.items), steps_in(width, step), enough, remnants)
    if not is_of_use(best.bound):
        return None
    laying = StripLaying(job, step)
    if laid.stock:
        return plan_stock(job, laying, best, laid.stock, step)
    groups = [*laying.settled(best.plan, remnants, places), *laying.free(best.plan)]
    strips = strips_of(groups)
    total = fixed + Length(step * best.height)
    found = amount(
        tuple((strip.count, strip.width) for strip in strips),
        job.fabric,
        laid.units,
        tuple(job.more),
        laid.straight,
    )
    shrunk = Length(sold(total, job.fabric).inches * (1 - job.fabric.shrinks))
    uncut = (shrunk - total).rounded(step, Rounding.DOWN)
    return FabricPlan(
        fabric=job.fabric.id,
        width=width,
        strips=strips,
        length=total,
        lower_bound=laid.bounds(best.bound).length,
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


def _enough(
    job: Job, fixed: Length, step: Fraction, stock: Stock | None, is_of_use: Callable[[int], bool]
) -> Enough:
    """Whether a plan costs no more to buy than its bound would, or none of that bound is of use."""

    def enough(plan: int, bound: int) -> bool:
        if plan <= bound or not is_of_use(bound):
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
