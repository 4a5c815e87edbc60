"""Floor 7: the fillings that may matter. Lists every way to fill a strip that a shorter plan could hold."""

from __future__ import annotations

from collections.abc import Mapping

from booklet.cutting.items import Fill, Items, Plan, Share, fill_of

VISITS = 60_000  # steps of the search before it gives up
KEPT = 4_000  # fillings that an integer programme still handles quickly


def near_fillings(
    items: Items,
    width: int,
    prices: tuple[float, ...],
    rewards: Mapping[int, float],
    slack: float,
) -> Plan | None:
    """Every filling whose height is at most `slack` more than what it is worth: the prices of what it
    holds and the reward for a strip of its height.

    Only those to which nothing as high can be added, since more of an item does no harm; prices
    and rewards are those of a linear programme. None where there are too many.
    """
    heights = sorted({v.height for item in items for v in item.variants})
    search = _Search(items, prices)
    for height in heights:
        if not search.fill(height, width, slack + rewards[height]):
            return None
    return tuple(search.found)


class _Search:
    """A depth-first search over the fillings of one height after another."""

    def __init__(self, items: Items, prices: tuple[float, ...]) -> None:
        self.items, self.prices, self.slack = items, prices, 0.0
        self.found: dict[Fill, None] = {}
        self.visits = 0
        self.options: list[tuple[int, int]] = []
        self.densities: list[float] = []

    def fill(self, height: int, width: int, slack: float) -> bool:
        """List the fillings of a height; false when there are too many."""
        self.slack = slack
        options = [
            (-self._density(i, n), i, n)
            for i, item in enumerate(self.items)
            for n, variant in enumerate(item.variants)
            if variant.height <= height and item.demand
        ]
        self.options = [(i, n) for _, i, n in sorted(options)]
        self.densities = [self._density(i, n) for i, n in self.options] + [0.0]
        return self._extend(0, width, [], 0.0, height)

    def _density(self, index: int, number: int) -> float:
        """The greatest worth for each step of length in a row of the item."""
        lengths = self.items[index].variants[number].lengths
        best = max(count / length for count, length in enumerate(lengths, start=1))
        return best * self.prices[index]

    def _extend(
        self, position: int, room: int, shares: list[Share], worth: float, height: int
    ) -> bool:
        self.visits += 1
        if self.visits > VISITS or len(self.found) > KEPT:
            return False
        if worth + room * self.densities[position] < height - self.slack - 1e-6:
            return True
        if position == len(self.options):
            if shares:
                filling = fill_of(self.items, shares)
                if filling.height == height:
                    self.found[filling] = None
            return True
        index, number = self.options[position]
        used = sum(share.count for share in shares if share.item == index)
        lengths = self.items[index].variants[number].lengths
        fits = 0
        while fits < min(len(lengths), self.items[index].demand - used) and lengths[fits] <= room:
            fits += 1
        for count in range(fits, -1, -1):
            more = [*shares, Share(index, number, count)] if count else shares
            rest = room - (lengths[count - 1] if count else 0)
            gain = count * self.prices[index]
            if not self._extend(position + 1, rest, more, worth + gain, height):
                return False
            if position == len(self.options) - 1:
                break
        return True
