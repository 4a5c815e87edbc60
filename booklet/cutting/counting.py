"""Floor 7: how many strips of each height. A search over whole numbers of them raises the bound and leads
to plans: where they are whole, whole strips are seldom far."""

from __future__ import annotations

import heapq
import math
from collections.abc import Callable
from dataclasses import dataclass

from booklet.cutting.diving import dive
from booklet.cutting.items import Plan, total_height
from booklet.cutting.master import NEAR, Limits, Master, Mixture
from booklet.solver import INFINITY

WORK = 150_000_000  # cells of knapsacks: counted, so that the answer does not depend on the machine

Enough = Callable[[int, int], bool]
"""Whether a plan of the first height (steps) costs no more to buy than one of the second."""


@dataclass(frozen=True, slots=True, order=True)
class _Node:
    cost: float
    depth: int
    number: int
    limits: Limits
    mixture: Mixture


class Counting:
    """A best-first search: the mixture that costs least is divided where a count is not whole."""

    def __init__(self, master: Master, plan: Plan, bound: int, enough: Enough) -> None:
        self.master, self.plan, self.enough = master, plan, enough
        self.limits: Limits = ((0.0, INFINITY),) * len(master.heights)
        self.bound = bound
        self.root = self.mixture = master.mix()
        self._open: list[_Node] = []
        self._leaves: list[float] = []
        self._nodes = 0
        if self.root.proven:
            self._raise(self.root.cost)

    @property
    def height(self) -> int:
        """The length of the best plan so far."""
        return total_height(self.plan)

    @property
    def is_done(self) -> bool:
        """Whether the plan is good enough."""
        return self.enough(self.height, self.bound)

    def run(self, nodes: int, dives: int) -> None:
        """Search until the plan is good enough or the effort is spent: so many divisions, dives."""
        if self.is_done:
            return
        self._try(self.limits)
        self._push(self.limits, self.root, 0, float(self.bound))
        while self._open and not self.is_done and self._may_go_on(nodes, dives):
            node = heapq.heappop(self._open)
            if self._reached(node.cost):
                self._open.clear()
                break
            if not self._open and not self._leaves:  # all else is ruled out: what holds here holds
                self.limits, self.mixture = node.limits, node.mixture
            place = self._fractional(node.mixture)
            if place is None:
                self._leaves.append(node.cost)
                self._try(node.limits)
            else:
                self._divide(node, place)
            self._settle()
        self._settle()

    def _may_go_on(self, nodes: int, dives: int) -> bool:
        return self._nodes < nodes and self.master.work < WORK and len(self._leaves) < dives

    def _reached(self, cost: float) -> bool:
        """Whether no plan shorter than the best so far can cost so much."""
        return math.ceil(cost - NEAR) >= self.height

    def _divide(self, node: _Node, place: int) -> None:
        count = node.mixture.counts[place]
        low, high = node.limits[place]
        halves = ((low, float(math.floor(count))), (float(math.floor(count) + 1), high))
        for half in halves:
            limits = (*node.limits[:place], half, *node.limits[place + 1 :])
            self._nodes += 1
            self.master.limit(limits)
            mixture = self.master.mix()
            self._push(limits, mixture, 1 - node.depth, node.cost)

    def _push(self, limits: Limits, mixture: Mixture, depth: int, least: float) -> None:
        """Keep a part of the search unless no shorter plan lies in it; it costs `least` at least."""
        cost = mixture.cost if mixture.proven else least
        if not self._reached(cost):
            node = _Node(cost, -depth, self._nodes, limits, mixture)
            heapq.heappush(self._open, node)

    def _fractional(self, mixture: Mixture) -> int | None:
        """The height whose count of strips is farthest from whole, its step of height counted."""
        best, found = NEAR, None
        below = 0
        for place, (height, count) in enumerate(
            zip(self.master.heights, mixture.counts, strict=True)
        ):
            off = (math.ceil(count - NEAR) - count) * (height - below)
            if off > best and abs(count - round(count)) > NEAR:
                best, found = off, place
            below = height
        return found

    def _try(self, limits: Limits) -> None:
        for plan in dive(self.master, limits):
            if total_height(plan) < self.height:
                self.plan = plan

    def _settle(self) -> None:
        """Raise the bound to what every mixture still open costs."""
        costs = [*self._leaves, *(node.cost for node in self._open)]
        self._raise(min(costs) if costs else float(self.height))

    def _raise(self, cost: float) -> None:
        self.bound = max(self.bound, min(math.ceil(cost - NEAR), self.height))
