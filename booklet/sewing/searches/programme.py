"""Floor 4, the searches: the cheapest order of a large region as an integer programme, and a bound on all.

Every inner point gets a closing pair of its edges, and an arc to the neighbouring point along each of
the two. An order that closes no ring exists if and only if these arcs form no directed round apart
from going forth and back along one edge: edges linked by their pairs are strands, and a strand can be
sewn when all strands that end at its points are (verified by enumeration; see the tests). The rounds
that a solution has are forbidden one after the other, and every solution on the way is a lower bound.

What it is for: without it no order of a pattern changes, but of 60 random blocks of 17 to 40 pieces 11 are no longer
proven, and of 14 of 100 pieces 8 are not and 5 turn more often (one 38 times in place of 33).
"""

from __future__ import annotations

from booklet.kit.outlines.near import WHOLE
from booklet.kit.records import Mutable
from booklet.kit.solver import Row, Solution, Variable, minimise
from booklet.sewing.mosaic.closing import Choice, tree_of
from booklet.sewing.mosaic.mosaic import Faces, Mosaic
from booklet.sewing.mosaic.trees import Tree
from booklet.sewing.searches.rounds import Arc, rounds_of

MOST_ROUNDS = 200
MOST_EFFORT = 25_000_000  # variables times rows, over all solutions: up to ten seconds
MOST_NODES = 2000
CLOSE_ENOUGH = 0.03  # a gap below this, as a share of the bound, ends the search


def programmed(mosaic: Mosaic, region: Faces, known: float) -> tuple[Tree | None, float]:
    """The cheapest order of a region that closes no ring (None if it was not found, or one that costs what is
    `known` will do), and a lower bound on the cost of every such order."""
    programme = Programme.of(mosaic, region)
    bound = mosaic.least_cost(region)
    for _ in range(MOST_ROUNDS):
        if is_close(known, bound) or programme.spent > MOST_EFFORT:
            break
        solution = programme.solve()
        if solution is None:
            break
        bound = max(bound, programme.rounded(solution.bound))
        choice = programme.choice(solution.values)
        rounds = rounds_of(mosaic, choice)
        if not rounds:
            return tree_of(mosaic, region, choice), min(bound, solution.cost)
        programme.forbid(rounds)
    return None, min(bound, known)


def is_close(cost: float, bound: float) -> bool:
    """Whether a cost is near enough to the bound."""
    return cost - bound <= max(WHOLE, CLOSE_ENOUGH * bound)


class Programme(Mutable, kw_only=True):
    """The programme: a variable for every pair of every inner point, a row for every point and for
    every round met so far."""

    keys: list[tuple[int, tuple[int, int]]]
    variables: list[Variable]
    rows: list[Row]
    taking: dict[Arc, list[int]]  # the variables that make an arc
    spent: int = 0  # variables times rows of all that was solved

    @classmethod
    def of(cls, mosaic: Mosaic, region: Faces) -> Programme:
        """The programme of a region, with no round forbidden."""
        keys: list[tuple[int, tuple[int, int]]] = []
        rows: list[Row] = []
        taking: dict[Arc, list[int]] = {}
        for point in mosaic.inner_points(region):
            first = len(keys)
            for pair in sorted(mosaic.pairs[point]):
                for e in pair:
                    taking.setdefault((point, e), []).append(len(keys))
                keys.append((point, pair))
            rows.append(Row(tuple((k, 1.0) for k in range(first, len(keys))), 1.0, 1.0))
        variables = [Variable(mosaic.pair(p, *pair).cost, 0.0, 1.0, whole=True) for p, pair in keys]
        return cls(keys=keys, variables=variables, rows=rows, taking=taking)

    def solve(self) -> Solution | None:
        """The cheapest choice without the rounds forbidden so far, and what is proven of it."""
        self.spent += len(self.variables) * len(self.rows)
        return minimise(self.variables, self.rows, nodes=MOST_NODES)

    def choice(self, values: tuple[float, ...]) -> Choice:
        """The closing pairs of a solution."""
        return {p: pair for (p, pair), x in zip(self.keys, values, strict=True) if x > 0.5}

    def forbid(self, rounds: list[list[Arc]]) -> None:
        """Add a row for every round: at least one of its arcs must go."""
        for arcs in rounds:
            terms: dict[int, float] = {}
            for arc in arcs:
                for k in self.taking[arc]:
                    terms[k] = terms.get(k, 0.0) + 1.0
            self.rows.append(Row(tuple(sorted(terms.items())), high=len(arcs) - 1.0))

    def rounded(self, bound: float) -> float:
        """The bound, taken up to a whole number where all costs are whole."""
        if all(v.cost == int(v.cost) for v in self.variables):
            return float(-int(-(bound - WHOLE) // 1))
        return bound
