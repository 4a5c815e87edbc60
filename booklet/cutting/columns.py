"""Floor 7: the shortest plan. Column generation for a two-stage plan: strips, then cross-cuts.

After Gilmore and Gomory (1961, 1965): a linear programme chooses among ways to fill a strip, a knapsack
for every height finds the fillings that would pay, and the prices of the last programme prove how short
no plan can be. Whole strips come from an integer programme over the fillings found.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from booklet.cutting.fillings import near_fillings
from booklet.cutting.first_fit import first_fit
from booklet.cutting.items import (
    Fill,
    Items,
    Plan,
    Share,
    fill_of,
    made,
    total_height,
    without_surplus,
)
from booklet.solver import Row, Solution, Variable, minimise

ROUNDS = 200  # of pricing; the bound holds whenever it ends
DIVE_ROUNDS = 20
NODES = 200  # of the integer search: counted, so that the answer does not depend on the machine

Enough = Callable[[int, int], bool]
"""Whether a plan of the first height (steps) costs no more to buy than one of the second."""


@dataclass(frozen=True, slots=True)
class Best:
    """A plan with its proof, in steps: area <= relaxed <= bound <= height of the plan."""

    plan: Plan
    area: float
    relaxed: float
    bound: int
    first_fit: int

    @property
    def height(self) -> int:
        """The length of cloth of the plan."""
        return total_height(self.plan)


def best_plan(items: Items, width: int, enough: Enough = lambda plan, bound: plan <= bound) -> Best:
    """The shortest plan found for the items on cloth `width` steps wide.

    It stops as soon as `enough` says that the bound would cost as much to buy.
    """
    if not items:
        return Best((), 0.0, 0.0, 0, 0)
    quick = first_fit(items, width)
    area = sum(item.area * item.demand for item in items) / width
    tallest = max(min(v.height for v in item.variants) for item in items)
    bound = max(math.ceil(area - 1e-6), tallest)
    best = Best(quick, area, area, bound, total_height(quick))
    if enough(best.height, best.bound):
        return best
    pool = _Pool(items, width)
    pool.add(quick)
    _, relaxed, prices = pool.relax()
    relaxed = max(relaxed, area)
    best = replace(best, relaxed=relaxed, bound=max(bound, math.ceil(relaxed - 1e-6)))
    if not enough(best.height, best.bound):
        dived = _dive(pool)
        best = replace(best, plan=dived) if total_height(dived) < best.height else best
    if not enough(best.height, best.bound):
        best = _search(pool, best, prices)
    return best


class _Pool:
    """The ways to fill a strip found so far, in the order found."""

    def __init__(self, items: Items, width: int, fills: Plan | None = None) -> None:
        self.items, self.width = items, width
        self.fills: list[Fill] = list(fills or ())
        self.known: set[Fill] = set(self.fills)
        self.demand = [item.demand for item in items]
        if fills is not None:
            return
        for index, item in enumerate(items):
            for number, variant in enumerate(item.variants):
                most = min(variant.most, item.demand)
                if most:
                    self.add((Fill(variant.height, (Share(index, number, most),)),))

    def add(self, fills: Plan) -> bool:
        """Whether any of the fillings is new."""
        fresh = [fill for fill in dict.fromkeys(fills) if fill not in self.known]
        self.fills += fresh
        self.known.update(fresh)
        return bool(fresh)

    def solve(self, whole: bool) -> Solution | None:
        """The cheapest mixture of the fillings that covers the demand, None if none does."""
        terms: list[list[tuple[int, float]]] = [[] for _ in self.items]
        for column, fill in enumerate(self.fills):
            counts: dict[int, int] = {}
            for share in fill.shares:
                counts[share.item] = counts.get(share.item, 0) + share.count
            for item, count in counts.items():
                terms[item].append((column, float(count)))
        variables = [Variable(float(fill.height), whole=whole) for fill in self.fills]
        rows = [Row(tuple(t), low=float(d)) for t, d in zip(terms, self.demand, strict=True)]
        return minimise(variables, rows, NODES, gap=0.999)  # heights are whole steps

    def relax(self, rounds: int = ROUNDS) -> tuple[Solution, float, tuple[float, ...]]:
        """The cheapest mixture with parts of strips allowed, a bound no plan can go below, and the
        prices that prove it: no filling is worth more than its height."""
        bound, proof = -1.0, (0.0,) * len(self.items)
        answer = self._mixture()
        for _ in range(rounds):
            paying, excess = _paying(self.items, self.width, answer.prices)
            fair = tuple(price / max(excess, 1.0) for price in answer.prices)
            worth = sum(p * d for p, d in zip(fair, self.demand, strict=True))
            if worth > bound:
                bound, proof = worth, fair
            if not self.add(paying):
                break
            answer = self._mixture()
        return answer, bound, proof

    def _mixture(self) -> Solution:
        """The cheapest mixture with parts of strips allowed."""
        answer = self.solve(whole=False)
        if answer is None:
            raise RuntimeError("fillings with every item always cover the demand")
        return answer

    def reduced(self, left: list[int]) -> _Pool:
        """The pool of what is left to cut: no filling holds more of an item than that."""
        items = tuple(replace(i, demand=d) for i, d in zip(self.items, left, strict=True))
        pool = _Pool(items, self.width)
        pool.add(tuple(cut for fill in self.fills if (cut := _at_most(items, fill, left))))
        return pool


def _at_most(items: Items, fill: Fill, left: list[int]) -> Fill | None:
    """The filling without what is beyond `left`; None if nothing remains."""
    room, shares = list(left), []
    for share in fill.shares:
        count = min(share.count, room[share.item])
        room[share.item] -= count
        shares.append(Share(share.item, share.variant, count))
    return fill_of(items, shares) if any(share.count for share in shares) else None


def _paying(items: Items, width: int, prices: tuple[float, ...]) -> tuple[Plan, float]:
    """The fillings worth more than their height, the best for each height, and the greatest ratio of
    worth to height. A knapsack over the cloth's width; items enter in order of their height."""
    options = sorted(
        (variant.height, index, number)
        for index, item in enumerate(items)
        for number, variant in enumerate(item.variants)
        if prices[index] > 1e-9 and item.demand
    )
    worth = [0.0] * (width + 1)
    stages: list[tuple[int, int, list[float]]] = []
    found: list[tuple[float, Fill]] = []
    excess = 0.0
    for position, (height, index, number) in enumerate(options):
        lengths = items[index].variants[number].lengths
        before = worth
        for count, length in enumerate(lengths[: items[index].demand], start=1):
            gain = count * prices[index]
            moved = [value + gain for value in before[: width + 1 - length]]
            worth = worth[:length] + list(map(max, worth[length:], moved))
        stages.append((index, number, before))
        if position + 1 < len(options) and options[position + 1][0] == height:
            continue
        excess = max(excess, worth[width] / height)
        if worth[width] > height + 1e-7:
            found.append((worth[width] / height, _traced(items, stages, worth, prices)))
    found.sort(key=lambda pair: (-pair[0], pair[1]))
    return tuple(fill for _, fill in found[:8]), excess


def _traced(
    items: Items,
    stages: list[tuple[int, int, list[float]]],
    worth: list[float],
    prices: tuple[float, ...],
) -> Fill:
    """The filling that the knapsack's best value stands for."""
    room, shares = len(worth) - 1, []
    after = worth
    for index, number, before in reversed(stages):
        lengths = items[index].variants[number].lengths
        taken = 0
        if after[room] != before[room]:
            for count, length in enumerate(lengths[: items[index].demand], start=1):
                if length <= room and before[room - length] + count * prices[index] == after[room]:
                    taken = count
                    break
        if taken:
            shares.append(Share(index, number, taken))
            room -= lengths[taken - 1]
        after = before
    return fill_of(items, shares)


def _dive(pool: _Pool) -> Plan:
    """A plan by rounding down, then fixing one more strip at a time, pricing anew for what is left."""
    left = list(pool.demand)
    chosen: list[Fill] = []
    rest = pool
    while any(left):
        answer, _, _ = rest.relax(rounds=DIVE_ROUNDS)
        pool.add(tuple(rest.fills))
        values = answer.values
        whole = [(c, math.floor(v + 1e-6)) for c, v in enumerate(values) if v > 1 - 1e-6]
        if not whole:
            whole = [(max(range(len(values)), key=lambda c: (values[c], -c)), 1)]
        for column, times in whole:
            chosen += [rest.fills[column]] * times
            for share in rest.fills[column].shares:
                left[share.item] = max(0, left[share.item] - share.count * times)
        rest = rest.reduced(left)
    return without_surplus(pool.items, tuple(chosen))


def _search(pool: _Pool, best: Best, prices: tuple[float, ...]) -> Best:
    """The plan improved by an integer programme, its bound raised where that proves more.

    A filling whose height exceeds the worth of what it holds by more than the gap between plan and bound
    is in no shorter plan. Where the others are few enough all of them are listed, and the answer is the
    shortest two-stage plan there is; else those found so far have to do.
    """
    slack = best.height - 1 - best.relaxed
    every = near_fillings(pool.items, pool.width, prices, slack)
    fills = every if every is not None else _near(pool, prices, slack)
    small = _Pool(pool.items, pool.width, fills)
    answer = small.solve(whole=True)
    if answer is None:
        return replace(best, bound=best.height) if every is not None else best
    plan = [fill for fill, v in zip(fills, answer.values, strict=True) for _ in range(round(v))]
    if any(m < d for m, d in zip(made(pool.items, tuple(plan)), pool.demand, strict=True)):
        raise RuntimeError("the solver's strips do not cover the demand")
    found = without_surplus(pool.items, tuple(plan))
    if total_height(found) < best.height:
        best = replace(best, plan=found)
    if every is not None:
        proven = best.height if answer.optimal else math.ceil(answer.bound - 1e-6)
        best = replace(best, bound=max(best.bound, min(proven, best.height)))
    return best


def _near(pool: _Pool, prices: tuple[float, ...], slack: float) -> Plan:
    """The fillings found so far that a shorter plan may hold."""

    def beyond(fill: Fill) -> float:
        return fill.height - sum(share.count * prices[share.item] for share in fill.shares)

    return tuple(fill for fill in pool.fills if beyond(fill) <= slack + 1e-6)
