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
        taken = master.floor_of(mixture.values) or [(_next(master, mixture, highest), 1)]
        for fill, times in taken:
            for _ in range(times):
                if not _serves(fill, left):
                    break
                if fill.cloth and rooms[fill.cloth - 1] < fill.height:
                    break
                chosen.append(fill)
                for share in fill.shares:
                    left[share.item] = max(0, left[share.item] - share.count)
                if fill.cloth:
                    rooms[fill.cloth - 1] -= fill.height
    return without_surplus(master.items, tuple(chosen))


def _serves(fill: Fill, left: list[int]) -> bool:
    return any(left[share.item] for share in fill.shares)


def _next(master: Master, mixture: Mixture, highest: bool) -> Fill:
    """The strip to take where none is whole in the mixture."""
    pairs = [(v, c) for c, v in enumerate(mixture.values) if v > 1e-6]
    if not pairs:  # pieces are left uncut: the limits allow nothing
        pairs = [(1.0, c) for c, f in enumerate(master.fills) if _fits(master, f)]
    if highest:
        top = max(master.fills[c].height for _, c in pairs)
        pairs = [pair for pair in pairs if master.fills[pair[1]].height == top]
    return master.fills[max(pairs, key=lambda pair: (pair[0], -pair[1]))[1]]


def _fits(master: Master, fill: Fill) -> bool:
    return not fill.cloth and _serves(fill, master.left)


def _remaining(master: Master, limits: Limits, chosen: list[Fill]) -> Limits:
    """The limits less the strips chosen."""
    made = []
    for height, (low, high) in zip(master.heights, limits, strict=True):
        used = sum(1 for fill in chosen if not fill.cloth and fill.height >= height)
        made.append((max(low - used, 0.0), max(high - used, 0.0)))
    return tuple(made)
