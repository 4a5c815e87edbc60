"""Floor 7: the shortest plan. A two-stage plan, strips and then cross-cuts, with a bound that proves it.

Quick plan first; then mixtures of strips (a linear programme), whole counts of strips, and last an integer
programme over the fillings found or, where they are few, over all that matter.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from booklet.cutting.counting import Counting, Enough
from booklet.cutting.first_fit import first_fit
from booklet.cutting.items import Items, Plan, Remnants, total_height
from booklet.cutting.master import NEAR, Master
from booklet.cutting.relaying import relaid
from booklet.cutting.whole import whole_strips


@dataclass(frozen=True, slots=True)
class Effort:
    """How long to search, in counts, so that the answer does not depend on the machine: divisions of
    counts, dives, strips laid anew together and how often, nodes of the integer search."""

    counts: int
    dives: int
    together: tuple[int, ...]
    rounds: int
    whole: int


FULL = Effort(60, 6, (4, 8), 30, 400)
WORTH_MORE = 0.01
"""The gap between plan and bound above which strips are laid anew."""
LITTLE = Effort(4, 1, (), 0, 0)


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


def best_plan(
    items: Items,
    width: int,
    enough: Enough = lambda plan, bound: plan <= bound,
    remnants: Remnants = (),
    effort: Effort = FULL,
) -> Best:
    """The shortest plan found for the items on cloth `width` steps wide, remnants used first.

    It stops as soon as `enough` says that the bound would cost as much to buy.
    """
    if not items:
        return Best((), 0.0, 0.0, 0, 0)
    quick = first_fit(items, width, remnants)
    spare = sum(r.width * r.height for r in remnants)
    area = max(0.0, (sum(item.area * item.demand for item in items) - spare) / width)
    tallest = 0 if remnants else max(min(v.height for v in item.variants) for item in items)
    best = Best(quick, area, area, max(math.ceil(area - NEAR), tallest), total_height(quick))
    if enough(best.height, best.bound):
        return best
    search = _search_for(items, width, remnants, best, enough)
    relaxed = max(search.root.cost if search.root.proven else 0.0, area)
    search.run(effort.counts, effort.dives)
    best = replace(best, plan=search.plan, relaxed=relaxed, bound=search.bound)
    if effort.whole and not enough(best.height, best.bound):
        best = _whole(search, best, effort.whole)
    if effort.together and best.height > best.bound * (1 + WORTH_MORE):
        for together in effort.together:
            best = replace(best, plan=_relaid(search, best, enough, effort.rounds, together))
        search.master.add(best.plan)
        if not enough(best.height, best.bound):
            best = _whole(search, best, effort.whole)
    return best


def _relaid(search: Counting, best: Best, enough: Enough, rounds: int, together: int) -> Plan:
    """The plan with a few strips at a time laid anew."""
    master = search.master

    def solve(items: Items) -> Plan:
        return best_plan(items, master.width, effort=LITTLE).plan

    def is_done(plan: Plan) -> bool:
        return enough(total_height(plan), best.bound)

    prices = search.mixture.prices
    return relaid(master.items, best.plan, prices, solve, is_done, rounds, together)


def _search_for(
    items: Items, width: int, remnants: Remnants, best: Best, enough: Enough
) -> Counting:
    master = Master(items, width, remnants, float(best.height + 1))
    master.add(best.plan)
    return Counting(master, best.plan, best.bound, enough)


def _whole(search: Counting, best: Best, nodes: int) -> Best:
    """The plan improved by whole strips, its bound raised where that proves more."""
    search.plan = best.plan
    found = whole_strips(search, nodes)
    if found.plan is not None and total_height(found.plan) < best.height:
        best = replace(best, plan=found.plan)
    search.plan, search.bound = best.plan, max(best.bound, min(found.bound, best.height))
    return replace(best, bound=search.bound)
