"""Floor 7: the best filling of a strip. A knapsack over the cloth's width, for every height at once."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from booklet.cutting.strips.items import Items, ItemShare, StripFill
from booklet.kit.outlines.near import NOISE
from booklet.kit.records import Record

Worths = np.ndarray[Any, np.dtype[np.float64]]


class Priced(Record):
    """The filling worth most among those of strips so high, and its worth."""

    height: int
    worth: float
    fill: StripFill


class Knapsack:
    """Fills strips of one width. `work` counts the cells filled in, to limit effort without a clock."""

    def __init__(
        self, items: Items, width: int, tallest: int | None = None, cloth: int = 0
    ) -> None:
        self.items, self.width, self.cloth = items, width, cloth
        self.work = 0
        self.options = sorted(
            (variant.height, index, number)
            for index, item in enumerate(items)
            for number, variant in enumerate(item.variants)
            if variant.lengths[0] <= width and (tallest is None or variant.height <= tallest)
        )

    def best(self, prices: Sequence[float], left: Sequence[int]) -> list[Priced]:
        """The filling worth most for each height at which a higher strip holds more, lowest first.

        No more than `left` of an item is laid in one way. Items enter in order of their height.
        """
        worth: Worths = np.zeros(self.width + 1)
        stages: list[tuple[int, int, Worths]] = []
        found: list[Priced] = []
        best = 0.0
        for position, (height, index, number) in enumerate(self.options):
            if prices[index] > NOISE and left[index] > 0:
                stages.append((index, number, worth))
                worth = self._with(worth, index, number, prices[index], left[index])
            if position + 1 < len(self.options) and self.options[position + 1][0] == height:
                continue
            if worth[self.width] > best + NOISE:
                best = float(worth[self.width])
                fill = self._traced(height, stages, worth, prices, left)
                found.append(Priced(height, best, fill))
        return found

    def _with(self, before: Worths, index: int, number: int, price: float, left: int) -> Worths:
        """The worths when rows of one more item may be laid."""
        worth = before.copy()
        for count, length in enumerate(self.items[index].variants[number].lengths[:left], start=1):
            if length > self.width:
                break
            np.maximum(
                worth[length:],
                before[: self.width + 1 - length] + count * price,
                out=worth[length:],
            )
            self.work += self.width + 1 - length
        return worth

    def _traced(
        self,
        height: int,
        stages: list[tuple[int, int, Worths]],
        worth: Worths,
        prices: Sequence[float],
        left: Sequence[int],
    ) -> StripFill:
        """The filling that the knapsack's best value stands for."""
        room, shares = self.width, []
        after = worth
        for index, number, before in reversed(stages):
            taken = 0
            if after[room] != before[room]:
                lengths = self.items[index].variants[number].lengths
                for count, length in enumerate(lengths[: left[index]], start=1):
                    if length > room:
                        break
                    if before[room - length] + count * prices[index] == after[room]:
                        taken = count
                        break
                shares.append(ItemShare(index, number, taken))
                room -= lengths[taken - 1]
            after = before
        return StripFill(height, tuple(sorted(shares)), self.cloth)
