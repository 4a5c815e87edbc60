"""Floor 7: the fillings that may matter. Lists every way to fill a strip that a plan not much longer than the
mixture could hold."""

from __future__ import annotations

from booklet.cutting.strips.items import Items, ItemShare, Remnants, StripFill, fill_of
from booklet.cutting.strips.mixing import Mixture
from booklet.kit.outlines.near import WHOLE

VISITS = 60_000  # steps of one search before it gives up
KEPT = 1_500  # fillings that an integer programme still handles quickly
NARROWER = 0.6  # so much of the slack is tried next where fillings are too many
TRIES = 12


def near_fillings(
    items: Items, width: int, remnants: Remnants, mixture: Mixture, slack: float
) -> tuple[list[StripFill], float]:
    """Every filling that costs at most `slack` more than it is worth, or at most as much of it as the fillings do
    not grow too many; and how much that is, 0 where even then some are left out.

    Only those to which nothing as high can be added, since more of an item does no harm.
    """
    search = _Search(items, width, remnants, mixture)
    for _ in range(TRIES):
        if search.all_within(slack):
            return list(search.found), slack
        slack *= NARROWER
    return list(search.found), 0.0


class _Search:
    """A depth-first search over the fillings of one height after another."""

    def __init__(self, items: Items, width: int, remnants: Remnants, mixture: Mixture) -> None:
        self.items, self.prices = items, mixture.prices
        self.heights = sorted({v.height for item in items for v in item.variants})
        self.cloths = [(width, self.heights[-1], 1.0)]
        ends = zip(remnants, mixture.rents, strict=True)
        self.cloths += [(end.width, end.height, rent) for end, rent in ends]
        self.left = [item.demand for item in items]
        self.found: dict[StripFill, None] = {}
        self.visits = 0

    def all_within(self, slack: float) -> bool:
        """List the fillings of every cloth and height; false when there are too many."""
        self.found, self.visits = {}, 0
        return all(
            self._all_of(cloth, wide, height, rate * height - slack)
            for cloth, (wide, high, rate) in enumerate(self.cloths)
            for height in self.heights
            if height <= high
        )

    def _all_of(self, cloth: int, width: int, height: int, least: float) -> bool:
        """List the fillings of a height that are worth `least`."""
        self.least, self.cloth = least, cloth
        options = [
            (variant.height < height, -self._density(i, n), i, n)
            for i, item in enumerate(self.items)
            for n, variant in enumerate(item.variants)
            if variant.height <= height
        ]
        # the pieces that make it so high come first: without one of them it is a filling of a lower height
        self.options = [(i, n) for _, _, i, n in sorted(options)]
        self.tall = sum(not low for low, *_ in options)
        densities = [-d for _, d, _, _ in sorted(options)]
        self.best = [max(densities[k:], default=0.0) for k in range(len(densities) + 1)]
        return self._extend(0, width, [], 0.0)

    def _density(self, index: int, number: int) -> float:
        """The greatest worth for each step of length in a row of the item."""
        lengths = self.items[index].variants[number].lengths
        return self.prices[index] * max(n / length for n, length in enumerate(lengths, start=1))

    def _extend(self, position: int, room: int, shares: list[ItemShare], worth: float) -> bool:
        self.visits += 1
        if self.visits > VISITS or len(self.found) > KEPT:
            return False
        if worth + room * self.best[position] < self.least - WHOLE:
            return True
        if position == self.tall and not shares:
            return True
        if position == len(self.options):
            self.found[fill_of(self.items, shares, self.cloth)] = None
            return True
        index, number = self.options[position]
        lengths = self.items[index].variants[number].lengths
        fits = 0
        while fits < min(len(lengths), self.left[index]) and lengths[fits] <= room:
            fits += 1
        last = position == len(self.options) - 1
        for count in range(fits, fits - 1 if last else -1, -1):
            more = [*shares, ItemShare(index, number, count)] if count else shares
            rest = room - (lengths[count - 1] if count else 0)
            self.left[index] -= count
            found = self._extend(position + 1, rest, more, worth + count * self.prices[index])
            self.left[index] += count
            if not found:
                return False
        return True
