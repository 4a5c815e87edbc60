"""Floor 7: the plan of one cloth. Settled strips first, then the shortest plan for the rest, drawn out."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction
from itertools import groupby

from booklet.cutting.columns import Best, best_plan
from booklet.cutting.counting import Enough
from booklet.cutting.cutting_plan import Buy, FabricPlan, Placed, Strip, StripUse
from booklet.cutting.items import Fill, Plan
from booklet.cutting.jobs import Job, LaidStrip, Owner
from booklet.cutting.precuts import Stock, pieces_of_stock, stock_of
from booklet.cutting.yardage import STRAIGHTENING, amount, sold
from booklet.measure import ZERO, Length, Rounding, UnitSystem

Shifted = tuple[tuple[float, float], ...]


def plan_cloth(job: Job, units: UnitSystem, step: Fraction) -> FabricPlan:
    """The cutting plan of one fabric: strips in the order of cutting, the amount to buy, the bound."""
    stock = stock_of(job.fabric)
    width = stock.across if stock else job.fabric.width
    settled = sum((s.height for group in job.settled for s in group), ZERO)
    more = sum((length for _, length in job.more), ZERO)
    straight = STRAIGHTENING.rounded(step, Rounding.UP)
    fixed = settled + more + straight
    best = best_plan(tuple(job.items), steps_in(width, step), _enough(job, fixed, step, stock))
    groups = [*job.settled, *_laid(job, best.plan, step)]
    if stock:
        return _precut(job, groups, best, stock, width, step)
    strips = _strips(groups)
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
        fixed + Length(step * best.bound),
        job.area,
        found.buy,
        found.sum,
        _leftover(groups, width),
        fixed + Length(step * best.first_fit),
    )


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


def _laid(job: Job, plan: Plan, step: Fraction) -> list[tuple[LaidStrip, ...]]:
    """The strips of the plan drawn out, alike heights together, the highest first."""
    left: dict[Owner, int] = {owner: owner.pieces for owner in job.owners}
    groups = []
    for height, fills in groupby(plan, key=lambda fill: fill.height):
        width = Length(step * height)
        fullest = sorted(fills, key=lambda fill: (-_used(job, fill), fill.shares))
        groups.append(tuple(_lay(job, fill, width, float(step), left) for fill in fullest))
    return groups


def _used(job: Job, fill: Fill) -> int:
    """How much of a strip's length is used, in steps."""
    return sum(job.items[s.item].variants[s.variant].lengths[s.count - 1] for s in fill.shares)


def _lay(job: Job, fill: Fill, height: Length, step: float, left: dict[Owner, int]) -> LaidStrip:
    """One strip of the plan: its rows from left to right, the highest pieces first."""
    placed: list[Placed] = []
    gives: dict[str, tuple[int, int]] = {}
    x = 0
    shares = sorted(fill.shares, key=lambda s: (-job.items[s.item].variants[s.variant].height, s))
    for share in shares:
        variant, owner = job.items[share.item].variants[share.variant], job.owners[share.item]
        for index in range(share.count):
            outline = variant.row.outline(index)
            placed.append(Placed(owner.name, _moved(outline, x * step, 0.0)))
        x += variant.lengths[share.count - 1]
        pieces = min(share.count * owner.per_cut, left[owner])
        left[owner] -= pieces
        cuts, so_far = gives.get(owner.name, (0, 0))
        gives[owner.name] = (cuts + share.count, so_far + pieces)
    given = tuple((name, cuts, pieces) for name, (cuts, pieces) in gives.items())
    return LaidStrip(height, tuple(placed), given, x * step)


def _strips(groups: Iterable[tuple[LaidStrip, ...]], start: float = 0.0) -> tuple[Strip, ...]:
    """The groups as strips of the cloth, one below the other."""
    made, y = [], start
    for group in groups:
        for height, alike in groupby(group, key=lambda strip: strip.height):
            some = tuple(alike)
            starts = tuple(y + float(height) * k for k in range(len(some)))
            y += float(height) * len(some)
            made.append(_strip(height, some, starts))
    return tuple(made)


def _strip(height: Length, some: tuple[LaidStrip, ...], starts: tuple[float, ...]) -> Strip:
    uses: dict[str, tuple[int, int]] = {}
    for strip in some:
        for name, cuts, pieces in strip.gives:
            before = uses.get(name, (0, 0))
            uses[name] = (before[0] + cuts, before[1] + pieces)
    layouts = tuple(
        tuple(replace(p, outline=_moved(p.outline, 0.0, y)) for p in strip.placed)
        for strip, y in zip(some, starts, strict=True)
    )
    used = tuple(StripUse(name, cuts, pieces) for name, (cuts, pieces) in uses.items())
    return Strip(height, len(some), used, layouts, starts)


def _moved(outline: Shifted, dx: float, dy: float) -> Shifted:
    return tuple((round(x + dx, 9), round(y + dy, 9)) for x, y in outline)


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
        made += _strips([tuple(each[i] for i in indexes)], number * float(stock.along))
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
