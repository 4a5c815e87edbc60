"""Floor 5: the fewest things asked that must be given up, where not everything can hold together.

Terms and unknowns form a graph; a set of terms can hold together if and only if no cycle of the graph
is odd (parity). So what is given up meets every odd cycle, and the least that does is an integer
programme: one row for each odd cycle, added as they turn up. Every programme on the way bounds the
answer from below. What it leaves standing is then made to hold, and given-up terms that fit in all the
same are taken back. Effort is counted in points visited, rounds and nodes of the search.
"""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Iterator

from booklet.kit.outlines.near import WHOLE
from booklet.kit.records import Record
from booklet.kit.solver import Row, Variable, minimise
from booklet.pressing.equations.model import Assignment, Literal, Model, holds
from booklet.pressing.equations.parity import Parity

ROUNDS = 40
NODES = 200  # of one integer search
VISITS = 1_000_000  # points of the graph looked at in search of odd cycles: about half a second
Near = list[list[tuple[int, bool]]]


class Cover(Record):
    """The terms given up, an assignment in which all others hold, and a proven lower bound of the
    weight to be given up. `cycle` is one of the shortest odd cycles found; empty where all hold."""

    broken: frozenset[int]
    values: tuple[bool, ...]
    bound: int
    cycle: OddWay


class OddWay(Record):
    """An odd cycle: its terms in order, and after each the unknown that leads to the next."""

    terms: tuple[int, ...] = ()
    unknowns: tuple[int, ...] = ()


def cover(model: Model, rank: int = 1) -> Cover:
    """The least to be given up of the terms that weigh `rank` or more; the lighter ones are left out
    of account. Unknowns whose preference outweighs all terms count as fixed."""
    graph = _Graph(model, rank)
    cycles: dict[frozenset[int], None] = {}
    first = OddWay()
    left: frozenset[int] = frozenset()
    bound = 0
    unit = math.gcd(*(model.terms[t].weight for t in graph.asked)) if graph.asked else 1
    for _ in range(ROUNDS):
        new = [way for way in graph.odd_cycles(left) if frozenset(way.terms) not in cycles]
        if not cycles and new:
            first = min(new, key=lambda way: len(way.terms))
        if not new or graph.visits > VISITS:
            break
        cycles.update((frozenset(way.terms), None) for way in new)
        left, least = _fewest(model, list(cycles), unit)
        bound = max(bound, least)
    broken, values = _mended(model, graph, left)
    return Cover(broken, values, bound, first)


def covered(model: Model) -> Assignment:
    """A cover as an assignment of the whole model, with a lower bound of its cost."""
    found = cover(model, rank_of(model))
    floor = sum(min(costs) for costs in model.prefer)
    return Assignment(found.values, model.cost(found.values), floor + found.bound)


def rank_of(model: Model) -> int:
    """The least weight that no lighter terms and preferences together outweigh; 1 where none is."""
    firm = _firm(model)
    below = sum(abs(a - b) for a, b in model.prefer if abs(a - b) < firm)
    for weight in sorted({term.weight for term in model.terms}):
        if weight > below + sum(t.weight for t in model.terms if t.weight < weight):
            return weight
    return 1


def _firm(model: Model) -> int:
    """More than all terms together: a preference this strong is as good as fixed."""
    return 1 + sum(term.weight for term in model.terms)


def _fewest(model: Model, cycles: list[frozenset[int]], unit: int) -> tuple[frozenset[int], int]:
    """(the lightest terms found that meet all cycles, a lower bound of their weight)."""
    terms = sorted(set().union(*cycles))
    index = {t: k for k, t in enumerate(terms)}
    variables = [Variable(model.terms[t].weight / unit, 0.0, 1.0, whole=True) for t in terms]
    rows = [Row(tuple((index[t], 1.0) for t in sorted(cycle)), low=1.0) for cycle in cycles]
    found = minimise(variables, rows, NODES, start=[1.0] * len(terms))
    if found is None:
        return frozenset(terms), 0
    left = frozenset(terms[k] for k, value in enumerate(found.values) if value > 0.5)
    return left, max(0, math.ceil(found.bound - WHOLE)) * unit


def _mended(
    model: Model, graph: _Graph, left: frozenset[int]
) -> tuple[frozenset[int], tuple[bool, ...]]:
    """(the terms that do not hold, the values): terms are made to hold one after the other, those
    `left` out last, the weighty before the light; what is still free follows the preferences."""
    n = len(model.prefer)
    links = Parity(n + 1)
    for x, value in graph.fixed.items():
        links.join(n, x, not value)
    order = sorted(graph.asked, key=lambda t: (t in left, -model.terms[t].weight, t))
    for t in order:
        _hold(links, model.terms[t].literals)
    gain: dict[int, int] = {}
    for x, costs in enumerate(model.prefer):
        root, odd = links.find(x)
        gain[root] = gain.get(root, 0) + (costs[odd] - costs[not odd])  # of the root being True
    ground, odd = links.find(n)
    values = tuple(
        odd_x != ((not odd) if root == ground else gain[root] > 0)
        for root, odd_x in (links.find(x) for x in range(n))
    )
    broken = frozenset(t for t in graph.asked if not holds(model.terms[t], values))
    return broken, values


def _hold(links: Parity, literals: tuple[Literal, ...]) -> None:
    """Make a term hold if nothing that holds already speaks against it."""
    truth: dict[int, bool] = {}
    for x, positive in literals:
        root, odd = links.find(x)
        if truth.setdefault(root, odd == positive) != (odd == positive):
            return
    first, sign = literals[0]
    for x, positive in literals[1:]:
        links.join(first, x, positive != sign)


class _Graph:
    """Terms (points 0 ..), unknowns, and one point for what is fixed; a line differs or not."""

    def __init__(self, model: Model, rank: int) -> None:
        firm = _firm(model)
        self.asked = tuple(t for t, term in enumerate(model.terms) if term.weight >= rank)
        self.fixed = {x: b < a for x, (a, b) in enumerate(model.prefer) if abs(a - b) >= firm}
        self.terms = len(model.terms)
        self.near: Near = [[] for _ in range(self.terms + len(model.prefer) + 1)]
        self.visits = 0
        self._leads: list[list[int]] | None = None
        for t in self.asked:
            for x, positive in model.terms[t].literals:
                self._line(t, self.terms + x, not positive)
        for x, value in self.fixed.items():
            self._line(len(self.near) - 1, self.terms + x, not value)

    def _line(self, a: int, b: int, differ: bool) -> None:
        self.near[a].append((b, differ))
        self.near[b].append((a, differ))

    def odd_cycles(self, left: frozenset[int]) -> Iterator[OddWay]:
        """Odd cycles that avoid the terms in `left`: of each of the other terms the
        shortest odd way back to it, where that meets no point twice."""
        for t in self.asked:
            if t not in left and self.visits <= VISITS:
                way = self._round(t, left)
                if way is not None:
                    yield way

    def _ahead(self) -> list[list[int]]:
        """Where each point leads, come to on an even way and on an odd one."""
        if self._leads is None:
            self._leads = [
                [2 * other + (odd != differ) for other, differ in near]
                for near in self.near
                for odd in (False, True)
            ]
        return self._leads

    def _round(self, start: int, left: frozenset[int]) -> OddWay | None:
        """The shortest odd way from a term back to itself, if it is simple."""
        begin, goal = (
            2 * start,
            2 * start + 1,
        )  # each point twice: come to on an even way, and on an odd one
        before = [-1] * (2 * len(self.near))
        for place in (begin, *(2 * t for t in left), *(2 * t + 1 for t in left)):
            before[place] = begin
        ahead, queue = self._ahead(), deque([begin])
        while queue and before[goal] < 0:
            here = queue.popleft()
            self.visits += 1
            for there in ahead[here]:
                if before[there] < 0:
                    before[there] = here
                    queue.append(there)
        if before[goal] < 0:
            return None
        way = [goal]
        while way[-1] != begin:
            way.append(before[way[-1]])
        points = [place // 2 for place in way[:-1]]
        if len(set(points)) < len(points):
            return None
        ground = len(self.near) - 1
        return OddWay(
            tuple(point for point in points if point < self.terms),
            tuple(point - self.terms for point in points if self.terms <= point < ground),
        )
