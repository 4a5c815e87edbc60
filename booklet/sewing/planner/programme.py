"""Floor 4, the planner: the cheapest order of a large region as an integer programme.

Every inner point gets a closing pair of its edges, and an arc to the neighbouring point along each of
the two. An order that closes no ring exists if and only if these arcs form no directed round apart
from going forth and back along one edge: edges linked by their pairs are strands, and a strand can be
sewn when all strands that end at its points are (verified by enumeration; see the tests). The rounds
that a solution has are forbidden one after the other, and every solution on the way is a lower bound:
first with pairs taken in part, as long as that raises the bound, then with whole ones.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from booklet.kit.near import WHOLE
from booklet.sewing.planner.mosaic import Faces, Mosaic
from booklet.sewing.planner.rounds import Arc, Choice, broken_rounds, rounds_of
from booklet.solver import Linear, Row, Solution, Variable, minimise

MOST_RELAXED = 40
MOST_TRIES = 15
MOST_EFFORT_ANEW = 1_500_000  # variables times rows, to choose some pairs anew
MOST_NODES = 2000


@dataclass(slots=True)
class Programme:
    """The programme: a variable for every pair of every inner point, a row for every point and for
    every round met so far."""

    mosaic: Mosaic
    keys: list[tuple[int, tuple[int, int]]]
    variables: list[Variable]
    rows: list[Row]
    taking: dict[Arc, list[int]]  # the variables that make an arc
    effort: int = 0  # variables times rows of all that was solved

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
        return cls(mosaic, keys, variables, rows, taking)

    def solve(self) -> Solution | None:
        """The cheapest choice without the rounds forbidden so far, and what is proven of it."""
        return self._solved(self.variables, self.rows)

    def _solved(self, variables: list[Variable], rows: list[Row]) -> Solution | None:
        self.effort += len(variables) * len(rows)
        return minimise(variables, rows, nodes=MOST_NODES)

    def relaxed(self) -> float:
        """A bound from pairs taken in part; the rounds met on the way are forbidden for good."""
        linear = Linear([(row.low, row.high) for row in self.rows])
        entries: list[list[tuple[int, float]]] = [[] for _ in self.variables]
        for number, row in enumerate(self.rows):
            for k, factor in row.terms:
                entries[k].append((number, factor))
        for variable, terms in zip(self.variables, entries, strict=True):
            linear.add(replace(variable, whole=False), terms)
        bound = 0.0
        for _ in range(MOST_RELAXED):
            solution = linear.solve()
            if solution is None:
                break
            bound = solution.bound
            shares = {arc: sum(solution.values[k] for k in ks) for arc, ks in self.taking.items()}
            rounds = broken_rounds(self.mosaic, shares)
            if not rounds:
                break
            for row in self.forbid(rounds):
                linear.add_row(row)
        return self.rounded(bound)

    def choice(self, values: tuple[float, ...]) -> Choice:
        """The closing pairs of a solution."""
        return {p: pair for (p, pair), x in zip(self.keys, values, strict=True) if x > 0.5}

    def forbid(self, rounds: list[list[Arc]]) -> list[Row]:
        """Add a row for every round: at least one of its arcs must go."""
        made = []
        for arcs in rounds:
            terms: dict[int, float] = {}
            for arc in arcs:
                for k in self.taking[arc]:
                    terms[k] = terms.get(k, 0.0) + 1.0
            made.append(Row(tuple(sorted(terms.items())), high=len(arcs) - 1.0))
        self.rows.extend(made)
        return made

    def rounded(self, bound: float) -> float:
        """The bound, taken up to a whole number where all costs are whole."""
        if all(v.cost == int(v.cost) for v in self.variables):
            return float(-int(-(bound - WHOLE) // 1))
        return bound

    def cost(self, choice: Choice, points: set[int]) -> float:
        """What a choice costs at some points."""
        return sum(self.mosaic.pair(p, *choice[p]).cost for p in points)

    def chosen_anew(self, choice: Choice, free: set[int], below: float) -> Choice | None:
        """The cheapest choice without a round that keeps the pairs of all points but the free ones and
        costs less than `below` at those; None if there is none, or none was found."""
        last = self.effort + MOST_EFFORT_ANEW
        for _ in range(MOST_TRIES):
            if self.effort > last:
                break
            made = self._chosen_once(choice, free)
            if made is None or self.cost(made, free) > below - WHOLE:
                return None
            rounds = rounds_of(self.mosaic, made)
            if not rounds:
                return made
            self.forbid(rounds)
        return None

    def _chosen_once(self, choice: Choice, free: set[int]) -> Choice | None:
        """The same without regard to rounds that are not forbidden yet."""
        place: dict[int, int] = {}
        taken: set[int] = set()
        for k, (point, pair) in enumerate(self.keys):
            if point in free:
                place[k] = len(place)
            elif choice[point] == pair:
                taken.add(k)
        rows = []
        for row in self.rows:
            terms = tuple((place[k], factor) for k, factor in row.terms if k in place)
            if terms:
                kept = sum(factor for k, factor in row.terms if k in taken)
                rows.append(Row(terms, row.low - kept, row.high - kept))
        solution = self._solved([self.variables[k] for k in place], rows)
        if solution is None:
            return None
        there = {self.keys[k]: solution.values[at] for k, at in place.items()}
        return {**choice, **{p: pair for (p, pair), x in there.items() if x > 0.5}}
