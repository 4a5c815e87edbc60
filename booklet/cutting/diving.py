"""Floor 7: from a mixture to a plan. Whole strips are taken out of it, then one more at a time, and what is
left is mixed anew."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.cutting.items import Fill, Plan, without_surplus
from booklet.cutting.master import Limits, Master, Mixture

DIVE_ROUNDS = 8


def dive(master: Master, limits: Limits) -> Iterator[Plan]:
    """A plan for each way to choose the next strip: the one nearest to whole, the highest."""
    for highest in (False, True):
        yield _dive(master, limits, highest)
    master.require(master.demand, [r.height for r in master.remnants])


def _dive(master: Master, limits: Limits, highest: bool) -> Plan:
    left = list(master.demand)
    rooms = [r.height for r in master.remnants]
    chosen: list[Fill] = []
    while any(left):
        master.require(left, rooms)
        master.limit(_remaining(master, limits, chosen))
        mixture = master.mix(DIVE_ROUNDS)
        whole = [fill for fill, n in master.floor_of(mixture.values) for _ in range(n)]
        if not _take(whole, left, rooms, chosen):
            _take([_next(master, mixture, highest, rooms)], left, rooms, chosen)
    return without_surplus(master.items, tuple(chosen))


def _take(fills: list[Fill], left: list[int], rooms: list[int], chosen: list[Fill]) -> bool:
    """Take those of the strips that serve and fit; whether any was taken."""
    before = len(chosen)
    for fill in fills:
        if not (_serves(fill, left) and _fits(fill, rooms)):
            continue
        chosen.append(fill)
        for share in fill.shares:
            left[share.item] = max(0, left[share.item] - share.count)
        if fill.cloth:
            rooms[fill.cloth - 1] -= fill.height
    return len(chosen) > before


def _serves(fill: Fill, left: list[int]) -> bool:
    return any(left[share.item] for share in fill.shares)


def _fits(fill: Fill, rooms: list[int]) -> bool:
    return not fill.cloth or rooms[fill.cloth - 1] >= fill.height


def _next(master: Master, mixture: Mixture, highest: bool, rooms: list[int]) -> Fill:
    """The strip to take where none is whole in the mixture; any that serves where nothing is mixed."""
    useful = [
        (value, -column)
        for column, (value, fill) in enumerate(zip(mixture.values, master.fills, strict=True))
        if _serves(fill, master.left) and _fits(fill, rooms)
    ]
    mixed = [pair for pair in useful if pair[0] > 1e-6] or useful
    if highest:
        top = max(master.fills[-column].height for _, column in mixed)
        mixed = [pair for pair in mixed if master.fills[-pair[1]].height == top]
    return master.fills[-max(mixed)[1]]


def _remaining(master: Master, limits: Limits, chosen: list[Fill]) -> Limits:
    """The limits less the strips chosen."""
    made = []
    for height, (low, high) in zip(master.heights, limits, strict=True):
        used = sum(1 for fill in chosen if not fill.cloth and fill.height >= height)
        made.append((max(low - used, 0.0), max(high - used, 0.0)))
    return tuple(made)
