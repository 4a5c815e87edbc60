"""Floor 7: the quick plan. First fit by decreasing height: the start and the fallback of the plan."""

from __future__ import annotations

from collections.abc import Callable

from booklet.cutting.items import Fill, Item, Items, Plan, Share, fill_of, total_height

Policy = Callable[[Item], int]  # which variant of an item is laid


def _lowest(item: Item) -> int:
    return min(range(len(item.variants)), key=lambda v: (item.variants[v].height, v))


def _tallest(item: Item) -> int:
    return max(range(len(item.variants)), key=lambda v: (item.variants[v].height, -v))


def _densest(item: Item) -> int:
    """The variant that wastes least cloth when a strip is filled with it."""

    def spent(number: int) -> float:
        variant = item.variants[number]
        return variant.height / min(variant.most, item.demand)

    return min(range(len(item.variants)), key=lambda v: (spent(v), v))


def first_fit(items: Items, width: int) -> Plan:
    """The best of the first-fit plans with every item laid low, tall or densely."""
    plans = [_decreasing(items, width, policy) for policy in (_lowest, _densest, _tallest)]
    return min(plans, key=total_height)


def _decreasing(items: Items, width: int, policy: Policy) -> Plan:
    """Highest items first, each into the first strip with room; else a new strip is begun."""
    laid = [policy(item) for item in items]

    def order(index: int) -> tuple[int, int, int]:
        variant = items[index].variants[laid[index]]
        return (-variant.height, -variant.lengths[0], index)

    strips: list[list[Share]] = []
    rooms: list[int] = []
    for index in sorted(range(len(items)), key=order):
        lengths = items[index].variants[laid[index]].lengths
        left = items[index].demand
        for strip, room in enumerate(rooms):
            if not left:
                break
            fits = _fitting(lengths, room, left)
            if fits:
                strips[strip].append(Share(index, laid[index], fits))
                rooms[strip] -= lengths[fits - 1]
                left -= fits
        while left:
            fits = _fitting(lengths, width, left)
            strips.append([Share(index, laid[index], fits)])
            rooms.append(width - lengths[fits - 1])
            left -= fits
    fills: list[Fill] = [fill_of(items, shares) for shares in strips]
    return tuple(sorted(fills, key=lambda f: (-f.height, f.shares)))


def _fitting(lengths: tuple[int, ...], room: int, wanted: int) -> int:
    """How many pieces of a row fit into `room`, at most `wanted`."""
    fits = 0
    while fits < min(wanted, len(lengths)) and lengths[fits] <= room:
        fits += 1
    return fits
