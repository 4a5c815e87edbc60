"""Floor 7: cloth sold ready cut. Strips laid into one piece of stock after another, so that few are needed."""

from __future__ import annotations

import math
from collections.abc import Sequence

from booklet.cutting.strips.items import Item, Items, Plan, StripFill, without_surplus
from booklet.cutting.strips.pricing import Knapsack, Priced
from booklet.kit.outlines.near import NOISE, WHOLE
from booklet.kit.records import Record


class Stocked(Record):
    """What each piece of stock holds: the numbers of settled strips and the fillings cut from it; and how
    many pieces of stock are needed at least."""

    pieces: tuple[tuple[tuple[int, ...], Plan], ...]
    least: int


def stocked(
    items: Items, settled: Sequence[int], width: int, along: int, plan: Plan, bound: int
) -> Stocked:
    """The fewest pieces of stock (`width` across, `along` high, in steps) found for the items and for the
    settled strips of these heights.

    `plan` is the shortest plan in strips and `bound` what no such plan goes below. Its strips are shared
    out over the stock; and every piece of stock in turn is filled with what is worth most, worth being
    area, or more than area for large pieces. Every plan in pieces of stock is one in strips, so that
    neither `bound` nor the area nor pieces too large to lie two in one can be undercut.
    """
    least = least_stock(items, settled, width, along, bound)
    ways = [_shared_out(settled, plan, along)]
    for power in (1.0, 1.15, 1.4):
        if len(ways[0]) > least:
            ways.append(_one_by_one(items, settled, width, along, power))
    best = min(ways, key=len)
    return Stocked(tuple(best), least)


def least_stock(items: Items, settled: Sequence[int], width: int, along: int, bound: int) -> int:
    """How many pieces of stock are needed at least: by area, by the bound for strips, for pieces too large
    to lie two in one, and for every item alone."""
    area = sum(item.area * item.demand for item in items) / width + sum(settled)
    large = sum(item.demand for item in items if _is_large(item, width, along))
    large += sum(1 for height in settled if 2 * height > along)
    alone = [math.ceil(item.demand / max(1, _most(item, along))) for item in items]
    by_length = math.ceil((bound + sum(settled)) / along)
    return max(1, math.ceil(area / along - WHOLE), by_length, large, *alone)


def _most(item: Item, along: int) -> int:
    """How many of an item one piece of stock holds, nothing else cut from it."""
    most = [0] * (along + 1)
    for high in range(1, along + 1):
        fits = [v.most + most[high - v.height] for v in item.variants if v.height <= high]
        most[high] = max([most[high - 1], *fits])
    return most[along]


def _is_large(item: Item, width: int, along: int) -> bool:
    """Whether no two so large lie in one piece of stock."""
    return all(
        2 * variant.height > along
        and 2 * variant.lengths[0] > width
        and (variant.most < 2 or variant.lengths[1] > width)
        for variant in item.variants
    )


Pieces = list[tuple[tuple[int, ...], Plan]]


def _shared_out(settled: Sequence[int], plan: Plan, along: int) -> Pieces:
    """The strips of a plan shared out: each piece of stock takes the strips that fill it best."""
    left = [(height, number) for number, height in enumerate(settled)]
    strips: list[tuple[int, int | StripFill]] = [*left]
    strips += [(fill.height, fill) for fill in plan]
    strips.sort(key=lambda strip: -strip[0])
    pieces: Pieces = []
    while strips:
        first, *rest = range(len(strips))
        chosen = {first, *_fullest([strips[i][0] for i in rest], along - strips[0][0], 1)}
        taken = [strips[i] for i in sorted(chosen)]
        strips = [strip for i, strip in enumerate(strips) if i not in chosen]
        numbers = tuple(strip for _, strip in taken if isinstance(strip, int))
        pieces.append((numbers, tuple(s for _, s in taken if not isinstance(s, int))))
    return pieces


def _fullest(heights: Sequence[int], room: int, shift: int) -> tuple[int, ...]:
    """The numbers (plus `shift`) of heights whose sum comes nearest to a room from below, high ones first."""
    reached: dict[int, tuple[int, ...]] = {0: ()}
    for number, height in enumerate(heights):
        for total, chosen in list(reached.items()):
            if total + height <= room and total + height not in reached:
                reached[total + height] = (*chosen, number + shift)
    return reached[max(reached)]


def _one_by_one(
    items: Items, settled: Sequence[int], width: int, along: int, power: float
) -> Pieces:
    """One piece of stock after another, filled with what is worth most.

    What it is for: without it no cloth of the test patterns takes a piece more, but 1 of 90 random jobs does.
    """
    prices = [item.area**power for item in items]
    left = [item.demand for item in items]
    waiting = sorted(range(len(settled)), key=lambda number: (-settled[number], number))
    knapsack = Knapsack(items, width, along)
    pieces: Pieces = []
    while waiting or any(left):
        room, numbers, fills = along, [], []
        for number in list(waiting):
            if settled[number] <= room:
                room -= settled[number]
                numbers.append(number)
                waiting.remove(number)
        while any(left):
            best = _highest_of_best(knapsack.best(prices, left), room)
            if best is None:
                break
            fill = _within(items, best.fill, left)
            fills.append(fill)
            room -= fill.height
        pieces.append((tuple(numbers), tuple(fills)))
    return pieces


def _within(items: Items, fill: StripFill, left: list[int]) -> StripFill:
    """The filling without what is not wanted; what it gives is taken off `left`."""
    wanted = tuple(
        Item(item.name, count, item.variants, item.area)
        for item, count in zip(items, left, strict=True)
    )
    (kept,) = without_surplus(wanted, (fill,))
    for share in kept.shares:
        left[share.item] -= share.count
    return kept


def _highest_of_best(strips: Sequence[Priced], room: int) -> Priced | None:
    """Of the strips that together are worth most in a room, the highest."""
    worth = [0.0] * (room + 1)
    chosen: list[int | None] = [None] * (room + 1)
    for high in range(1, room + 1):
        worth[high], chosen[high] = worth[high - 1], chosen[high - 1]
        for number, strip in enumerate(strips):
            if strip.height <= high:
                value = worth[high - strip.height] + strip.worth
                last = chosen[high - strip.height]
                if value > worth[high] + NOISE:
                    worth[high] = value
                    chosen[high] = number if last is None else max(number, last)
    best = chosen[room]
    return None if best is None else strips[best]
