"""Floor 7: the plan of cloth sold ready cut: which strips are cut from which piece of stock."""

from __future__ import annotations

import math
from fractions import Fraction

from booklet.crafts.rotary.sums import SumLine
from booklet.cutting.cloth.jobs import Job, LaidStrip
from booklet.cutting.cloth.laying import StripLaying, leftovers_of, strips_of
from booklet.cutting.cloth.precuts import Stock
from booklet.cutting.cloth.stocking import Stocked, stocked
from booklet.cutting.cutting_plan import Buy, FabricPlan, Strip
from booklet.cutting.strips.shortest import Best
from booklet.kit.measure import ZERO, Length
from booklet.kit.words import phrase, plural_phrase


def plan_stock(
    job: Job, laying: StripLaying, best: Best, stock: Stock, step: Fraction
) -> FabricPlan:
    """The strips piece of stock by piece of stock, how many of those to buy, how many are sure to be
    needed. `best` is the shortest plan in strips."""
    along, across = (math.floor(side.inches / step) for side in (stock.along, stock.across))
    settled = [strip for group in job.settled for strip in group]
    heights = settled_heights(job, step)
    found = stocked(tuple(job.items), heights, across, along, best.plan, best.bound)
    strips: list[Strip] = []
    groups: list[tuple[LaidStrip, ...]] = []
    for number, (fixed, plan) in enumerate(found.pieces):
        laid = (*(settled[i] for i in fixed), *(laying.lay(fill) for fill in plan))
        groups.append(laid)
        strips += strips_of([laid], number * float(stock.along), number + 1)
    count = len(found.pieces)
    name = stock.one if count == 1 else stock.many
    buy = Buy(
        yards=count * stock.yards,
        metres=Fraction(0),
        yards_text=phrase("{n} {unit}", n=count, unit=name),
        count=count,
        unit=stock.one,
    )
    return FabricPlan(
        fabric=job.fabric.id,
        width=stock.across,
        strips=tuple(strips),
        length=count * stock.along,
        lower_bound=found.least * stock.along,
        area_used=job.area,
        buy=buy,
        sum=_sum(found, name, sum(strip.count for strip in strips)),
        leftovers=leftovers_of(
            groups, stock.across, step, [_below(laid, stock) for laid in groups]
        ),
        stock=(stock.across, stock.along),
        least_stock=found.least,
    )


def settled_heights(job: Job, step: Fraction) -> tuple[int, ...]:
    """The heights of the settled strips of a cloth, in steps."""
    return tuple(math.ceil(s.height.inches / step) for group in job.settled for s in group)


def _below(laid: tuple[LaidStrip, ...], stock: Stock) -> Length:
    """What is left of a piece of stock below its strips."""
    return stock.along - sum((strip.height for strip in laid), ZERO)


def _sum(found: Stocked, name: str, strips: int) -> tuple[SumLine, ...]:
    """How many pieces of stock it takes, in words."""
    laid = plural_phrase(
        "{n} strip, laid into as few pieces as will hold it",
        "{n} strips, laid into as few pieces as will hold them",
        strips,
    )
    return (
        SumLine(laid, "", ""),
        SumLine(phrase("needed at least"), ": ", str(found.least)),
        SumLine(phrase("{n} {unit}", n=len(found.pieces), unit=name), "", ""),
    )
