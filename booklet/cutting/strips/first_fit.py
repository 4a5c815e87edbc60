"""Floor 7: the quick plan. First fit by decreasing height: the start and the fallback of the plan."""

from __future__ import annotations

from collections.abc import Callable

from booklet.cutting.strips.items import (
    Item,
    Items,
    ItemShare,
    Plan,
    Remnants,
    StripFill,
    fill_of,
    total_height,
)

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


def first_fit(items: Items, width: int, remnants: Remnants = ()) -> Plan:
    """The best of the first-fit plans with every item laid low, tall or densely."""
    plans = [_Shelves(items, width, remnants).lay(p) for p in (_lowest, _densest, _tallest)]
    return min(plans, key=total_height)


class _Shelves:
    """Strips begun so far: on the cloth, and on remnants as far as those reach."""

    def __init__(self, items: Items, width: int, remnants: Remnants) -> None:
        self.items, self.width = items, width
        self.pieces = [
            (number, r.width, r.height)
            for number, r in enumerate(remnants, start=1)
            for _ in range(r.count)
        ]
        self.shares: list[list[ItemShare]] = []
        self.rooms: list[int] = []
        self.heights: list[int] = []
        self.cloths: list[int] = []

    def lay(self, policy: Policy) -> Plan:
        """Highest items first, each into the first strip with room; else a new strip is begun."""
        laid = [policy(item) for item in self.items]

        def order(index: int) -> tuple[int, int, int]:
            variant = self.items[index].variants[laid[index]]
            return (-variant.height, -variant.lengths[0], index)

        for index in sorted(range(len(self.items)), key=order):
            self._lay(index, laid[index])
        strips = zip(self.shares, self.cloths, strict=True)
        fills: list[StripFill] = [fill_of(self.items, shares, cloth) for shares, cloth in strips]
        return tuple(sorted(fills, key=lambda f: (-f.height, f.shares)))

    def _lay(self, index: int, number: int) -> None:
        variant, left = self.items[index].variants[number], self.items[index].demand
        strip = 0
        while left:
            if strip == len(self.rooms):
                self._begin(variant.height, variant.lengths[0])
            fits = 0
            if variant.height <= self.heights[strip]:
                fits = _fitting(variant.lengths, self.rooms[strip], left)
            if fits:
                self.shares[strip].append(ItemShare(index, number, fits))
                self.rooms[strip] -= variant.lengths[fits - 1]
                left -= fits
            strip += 1

    def _begin(self, height: int, length: int) -> None:
        """Begin a strip on the first remnant that holds it, else on the cloth."""
        cloth, room = 0, self.width
        for n, (number, wide, high) in enumerate(self.pieces):
            if height <= high and length <= wide:
                cloth, room = number, wide
                self.pieces[n] = (number, wide, high - height)
                break
        self.shares.append([])
        self.rooms.append(room)
        self.heights.append(height)
        self.cloths.append(cloth)


def _fitting(lengths: tuple[int, ...], room: int, wanted: int) -> int:
    """How many pieces of a row fit into `room`, at most `wanted`."""
    fits = 0
    while fits < min(wanted, len(lengths)) and lengths[fits] <= room:
        fits += 1
    return fits
