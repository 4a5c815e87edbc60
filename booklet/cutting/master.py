"""Floor 7: the linear programme of a plan, its columns found as they are needed.

After Gilmore and Gomory (1961, 1965): a linear programme mixes ways to fill a strip, a knapsack for every
height finds those that would pay, until none does. Beside the demands it holds, for every height, how
many strips are at least so high: whole numbers in every plan, so that limits on them cut off mixtures
without cutting off plans, and the knapsack stays what it is.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from booklet.cutting.items import Fill, Items, Remnants, Share
from booklet.cutting.pricing import Knapsack, Priced
from booklet.solver import INFINITY, Linear, Solution, Variable

ROUNDS = 300
PER_ROUND = 12  # fillings added at a time
NEAR = 1e-6

Limits = tuple[tuple[float, float], ...]
"""For every height, the least and the greatest number of strips at least so high."""


@dataclass(frozen=True, slots=True)
class Mixture:
    """The cheapest mixture of strips: its cost in steps, how much of each filling, how many strips
    are at least as high as each height, and the prices of items and of heights that prove the cost:
    that no mixture costs less, unless `proven` is false."""

    cost: float
    values: tuple[float, ...]
    counts: tuple[float, ...]
    prices: tuple[float, ...]
    rewards: tuple[float, ...]
    proven: bool


class Master:
    """The fillings found so far, in the order found, and the programme that mixes them."""

    def __init__(self, items: Items, width: int, remnants: Remnants, dear: float) -> None:
        """`dear` is a cost that no plan reaches: what an uncut piece costs."""
        self.items, self.width, self.remnants = items, width, remnants
        self.demand = [item.demand for item in items]
        self.left = list(self.demand)
        self.heights = sorted({v.height for item in items for v in item.variants})
        self.cloths = [Knapsack(items, width)]
        self.cloths += [
            Knapsack(items, r.width, r.height, n) for n, r in enumerate(remnants, start=1)
        ]
        self._place = {height: i for i, height in enumerate(self.heights)}
        self._first = len(items) + len(remnants)  # the row of the lowest height
        rows = [(float(d), INFINITY) for d in self.demand]
        rows += [(-INFINITY, float(r.height)) for r in remnants]
        rows += [(0.0, 0.0)] * len(self.heights)
        self._linear = Linear(rows)
        for index in range(len(items)):
            self._linear.add(Variable(dear), [(index, 1.0)])
        for place in range(len(self.heights)):
            row = self._first + place
            terms = [(row, -1.0)] if place == 0 else [(row, -1.0), (row - 1, 1.0)]
            self._linear.add(Variable(0.0), terms)
        self._columns = len(items) + len(self.heights)  # the number of the first filling
        self.fills: list[Fill] = []
        self._known: set[Fill] = set()
        self._begin()

    @property
    def work(self) -> int:
        """The effort spent on finding fillings."""
        return sum(cloth.work for cloth in self.cloths)

    def _begin(self) -> None:
        """A strip full of each item in each way, so that every demand can be met."""
        for index, item in enumerate(self.items):
            for number, variant in enumerate(item.variants):
                most = min(variant.most, item.demand)
                if most:
                    self.add([Fill(variant.height, (Share(index, number, most),))])

    def add(self, fills: Sequence[Fill]) -> bool:
        """Whether any of the fillings is new."""
        fresh = [fill for fill in dict.fromkeys(fills) if fill not in self._known]
        for fill in fresh:
            cost = 0.0 if fill.cloth else float(fill.height)
            self._linear.add(Variable(cost), self._entries(fill))
        self.fills += fresh
        self._known.update(fresh)
        return bool(fresh)

    def _entries(self, fill: Fill) -> list[tuple[int, float]]:
        counts: dict[int, float] = {}
        for share in fill.shares:
            counts[share.item] = counts.get(share.item, 0.0) + share.count
        if fill.cloth:
            counts[len(self.items) + fill.cloth - 1] = float(fill.height)
        else:
            counts[self._first + self._place[fill.height]] = 1.0
        return sorted(counts.items())

    def limit(self, limits: Limits) -> None:
        """Set the least and the greatest number of strips at least as high as each height."""
        for place, (low, high) in enumerate(limits):
            self._linear.bound(len(self.items) + place, low, high)

    def require(self, left: Sequence[int], rooms: Sequence[int]) -> None:
        """Set what is left to cut of each item and what is left of the length of each remnant."""
        self.left = list(left)
        for row, count in enumerate(left):
            self._linear.limit(row, float(count), INFINITY)
        for number, room in enumerate(rooms):
            self._linear.limit(len(self.items) + number, -INFINITY, float(room))

    def mix(self, rounds: int = ROUNDS) -> Mixture:
        """The cheapest mixture; proven where after at most so many rounds no filling pays."""
        for _ in range(rounds):
            answer = self._solved()
            if not self.add(self._paying(answer)):
                return self._mixture(answer, True)
        return self._mixture(self._solved(), False)

    def _solved(self) -> Solution:
        answer = self._linear.solve()
        if answer is None:
            raise RuntimeError("uncut pieces always make up the demand")
        return answer

    def _mixture(self, answer: Solution, proven: bool) -> Mixture:
        count, first = len(self.items), self._columns
        return Mixture(
            answer.cost,
            answer.values[first:],
            answer.values[count:first],
            answer.prices[:count],
            answer.prices[self._first :],
            proven,
        )

    def _paying(self, answer: Solution) -> list[Fill]:
        """The fillings worth more than they cost at these prices, best first, a few of each cloth."""
        prices = [max(price, 0.0) for price in answer.prices[: len(self.items)]]
        rewards = answer.prices[self._first :]
        found: list[Fill] = []
        for cloth in self.cloths:
            best = cloth.best(prices, self.left)
            if cloth.cloth:
                rent = -answer.prices[len(self.items) + cloth.cloth - 1]
                gains = [(p.worth - rent * p.height, p) for p in best]
            else:
                gains = self._gains(best, rewards)
            gains = [(gain, p) for gain, p in gains if gain > NEAR]
            gains.sort(key=lambda pair: (-pair[0] / pair[1].height, pair[1].fill))
            found += [p.fill for _, p in gains[:PER_ROUND]]
        return found

    def _gains(self, best: list[Priced], rewards: Sequence[float]) -> list[tuple[float, Priced]]:
        """What strips of the cloth are worth beyond their height, their height's reward counted.

        A strip may be higher than what lies in it where a height is rewarded.
        """
        gains, upto = [], 0
        for place, height in enumerate(self.heights):
            while upto < len(best) and best[upto].height <= height:
                upto += 1
            if not upto:
                continue
            priced = best[upto - 1]
            if priced.height < height and rewards[place] <= NEAR:
                continue
            fill = Fill(height, priced.fill.shares)
            gain = priced.worth + rewards[place] - height
            gains.append((gain, Priced(height, priced.worth, fill)))
        return gains

    def floor_of(self, values: Sequence[float]) -> list[tuple[Fill, int]]:
        """The whole strips in a mixture."""
        pairs = zip(self.fills, values, strict=True)
        return [(fill, whole) for fill, v in pairs if (whole := math.floor(v + NEAR))]
