"""Floor 7: whole strips. An integer programme over the fillings found or, where they are few, over all that
a shorter plan could hold: its answer is then the shortest two-stage plan there is."""

from __future__ import annotations

import math
from dataclasses import dataclass

from booklet.cutting.counting import Counting
from booklet.cutting.fillings import near_fillings
from booklet.cutting.items import Fill, Plan, made, without_surplus
from booklet.cutting.master import NEAR
from booklet.solver import Row, Variable, minimise

Terms = list[list[tuple[int, float]]]


@dataclass(frozen=True, slots=True)
class Whole:
    """The plan found, None if none is shorter, and the length that no plan goes below."""

    plan: Plan | None
    bound: int


def whole_strips(search: Counting, nodes: int) -> Whole:
    """The shortest plan from few fillings, sought through so many nodes.

    A filling that costs more than it is worth by the gap between plan and bound is in no shorter plan
    (its worth: the prices of what it holds and the reward for its height, in the mixture that proves the
    bound); so only the others count.
    """
    slack = search.height - 1 - search.mixture.cost
    every = _every(search, slack)
    fills = every if every is not None else _near(search, slack)
    variables = [Variable(0.0 if f.cloth else float(f.height), whole=True) for f in fills]
    answer = minimise(variables, _rows(search, fills), nodes, gap=0.999)  # heights are whole steps
    if answer is None:
        return Whole(None, search.height if every is not None else search.bound)
    strips = tuple(f for f, v in zip(fills, answer.values, strict=True) for _ in range(round(v)))
    items, demand = search.master.items, search.master.demand
    if any(m < d for m, d in zip(made(items, strips), demand, strict=True)):
        raise RuntimeError("the solver's strips do not cover the demand")
    bound = search.bound
    if every is not None:
        # a solution within the gap of 0.999 steps is the best in whole steps
        proven = math.ceil((answer.cost if answer.optimal else answer.bound) - NEAR)
        bound = max(bound, min(proven, search.height))
    return Whole(without_surplus(items, strips), bound)


def _every(search: Counting, slack: float) -> Plan | None:
    """Every filling that a shorter plan may hold; None where they are many or remnants are used."""
    master, mixture = search.master, search.mixture
    if master.remnants or not mixture.proven:
        return None
    rewards = dict(zip(master.heights, mixture.rewards, strict=True))
    return near_fillings(master.items, master.width, mixture.prices, rewards, slack)


def _near(search: Counting, slack: float) -> Plan:
    """The fillings found so far that a shorter plan may hold."""
    master, mixture = search.master, search.mixture
    rewards = dict(zip(master.heights, mixture.rewards, strict=True))

    def beyond(fill: Fill) -> float:
        worth = sum(share.count * mixture.prices[share.item] for share in fill.shares)
        return fill.height - rewards[fill.height] - worth

    return tuple(fill for fill in master.fills if fill.cloth or beyond(fill) <= slack + NEAR)


def _rows(search: Counting, fills: Plan) -> list[Row]:
    """The demands, the room of the remnants, and how many strips are at least as high as each height."""
    master = search.master
    demands: Terms = [[] for _ in master.items]
    rooms: Terms = [[] for _ in master.remnants]
    counts: Terms = [[] for _ in master.heights]
    for column, fill in enumerate(fills):
        held: dict[int, int] = {}
        for share in fill.shares:
            held[share.item] = held.get(share.item, 0) + share.count
        for item, count in held.items():
            demands[item].append((column, float(count)))
        if fill.cloth:
            rooms[fill.cloth - 1].append((column, float(fill.height)))
            continue
        for place, height in enumerate(master.heights):
            if fill.height >= height:
                counts[place].append((column, 1.0))
    rows = [Row(tuple(t), low=float(d)) for t, d in zip(demands, master.demand, strict=True)]
    rows += [
        Row(tuple(t), high=float(r.height)) for t, r in zip(rooms, master.remnants, strict=True)
    ]
    limits = zip(counts, search.limits, strict=True)
    return rows + [Row(tuple(t), low=low, high=high) for t, (low, high) in limits]
