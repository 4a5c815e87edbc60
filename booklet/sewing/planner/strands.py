"""Floor 4, the planner: the cheapest order of a large region as an integer programme.

Every inner point gets a closing pair of its edges, and an arc to the neighbouring point along each of
the two. An order that closes no ring exists if and only if these arcs form no directed round apart
from going forth and back along one edge: edges linked by their pairs are strands, and a strand can be
sewn when all strands that end at its points are (verified by enumeration; see the tests). The rounds
that a solution has are forbidden one after the other, and every solution on the way is a lower bound.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass

from booklet.sewing.planner.cuts import first_face
from booklet.sewing.planner.improving import contracted, expanded
from booklet.sewing.planner.mosaic import Faces, Mosaic, bits
from booklet.sewing.planner.plain import parted_plainly
from booklet.sewing.planner.trees import Tree, sums
from booklet.solver import Row, Variable, minimise

MOST_ROUNDS = 60
MOST_EFFORT = 10_000_000  # variables times rows, over all rounds: some seconds
MOST_LEFT = 60  # units left apart by a choice that are worth a programme of their own
CLOSE_ENOUGH = 0.03  # a gap below this, as a share of the bound, ends the search
TINY = 1e-6
Arc = tuple[int, int]  # the point it leaves, the edge it takes
Choice = dict[int, tuple[int, int]]  # by point: its closing pair


def programmed(
    mosaic: Mosaic, region: Faces, known: float, follow: bool = True
) -> tuple[Tree | None, float]:
    """An order cheaper than the one known (None if none was found) and a lower bound on the cost of
    every order that closes no ring. With `follow`, solutions that are no order yet are made into one.
    """
    programme = _programme(mosaic, region)
    bound = mosaic.least_cost(region)
    best: Tree | None = None
    effort = 0
    for _ in range(MOST_ROUNDS):
        effort += len(programme.variables) * len(programme.rows)
        if known - bound <= max(TINY, CLOSE_ENOUGH * bound) or effort > MOST_EFFORT:
            break
        solution = minimise(programme.variables, programme.rows, nodes=2000)
        if solution is None:
            break
        bound = max(bound, programme.rounded(solution.bound))
        choice = programme.choice(solution.values)
        rounds = _rounds(mosaic, choice)
        tree = tree_of(mosaic, region, choice)
        if tree is None and follow:
            tree = finished(mosaic, region, choice)
        if tree is not None and sums(mosaic, tree).cost < known - TINY:
            best, known = tree, sums(mosaic, tree).cost
        if not rounds:
            break
        programme.forbid(rounds)
    return best, min(bound, known)


@dataclass(slots=True)
class _Programme:
    """The programme: a variable for every pair of every inner point."""

    mosaic: Mosaic
    keys: list[tuple[int, tuple[int, int]]]
    variables: list[Variable]
    rows: list[Row]
    taking: dict[Arc, list[int]]  # the variables that make an arc

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
            return float(-int(-(bound - TINY) // 1))
        return bound


def _programme(mosaic: Mosaic, region: Faces) -> _Programme:
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
    return _Programme(mosaic, keys, variables, rows, taking)


def _rounds(mosaic: Mosaic, choice: Choice) -> list[list[Arc]]:
    """Directed rounds of a choice: for every arc a shortest one through it, each once; none where
    there is none at all."""
    found: dict[frozenset[Arc], list[Arc]] = {}
    for point, pair in choice.items():
        for e in pair:
            arcs = _round_from(mosaic, choice, (point, e))
            if arcs:
                found.setdefault(frozenset(arcs), arcs)
    return list(found.values())


def _round_from(mosaic: Mosaic, choice: Choice, first: Arc) -> list[Arc]:
    """The arcs of a shortest round that begins with an arc and never goes back along the edge it came."""
    came: dict[Arc, Arc] = {}
    queue = deque([first])
    while queue:
        arc = queue.popleft()
        point = mosaic.far(arc[1], arc[0])
        if point == first[0] and arc[1] != first[1]:
            arcs = [arc]
            while arcs[-1] != first:
                arcs.append(came[arcs[-1]])
            return arcs
        for e in choice.get(point, ()):
            ahead = (point, e)
            if e != arc[1] and ahead not in came and ahead != first:
                came[ahead] = arc
                queue.append(ahead)
    return []


def tree_of(mosaic: Mosaic, region: Faces, choice: Choice) -> Tree | None:
    """The order in which the strands of a choice are sewn; None if they are no order."""
    units = _begun(mosaic, region, choice)
    return units[0] if len(units) == 1 else None


def finished(mosaic: Mosaic, region: Faces, choice: Choice) -> Tree | None:
    """An order that follows a choice as far as it goes; what its rounds leave apart is a smaller
    programme. None where that is still too large."""
    units = _begun(mosaic, region, choice)
    if len(units) > MOST_LEFT:
        return None
    small = contracted(mosaic, [unit.faces for unit in units])
    plain = parted_plainly(small, small.whole)
    found, _ = programmed(small, small.whole, sums(small, plain).cost, follow=False)
    return expanded(found or plain, units)


def _begun(mosaic: Mosaic, region: Faces, choice: Choice) -> list[Tree]:
    """The units made by sewing every strand of a choice that can be sewn, by their first faces."""
    strands = _strands(mosaic, region, choice)
    home = {e: k for k, strand in enumerate(strands) for e in strand}
    waits: list[set[int]] = [set() for _ in strands]
    for point, pair in choice.items():
        waits[home[pair[0]]] |= {home[e] for e in mosaic.rays[point] if e not in pair}
    unit = {f: Tree(1 << f) for f in bits(region)}
    done: set[int] = set()
    while len(done) < len(strands):
        ready = [k for k, before in enumerate(waits) if k not in done and before <= done]
        if not ready:
            break
        for k in ready:
            done.add(k)
            edge = mosaic.edges[strands[k][0]]
            a, b = unit[edge.a], unit[edge.b]
            if a is b:
                continue
            parts = sorted((a, b), key=lambda t: first_face(t.faces))
            whole = Tree(a.faces | b.faces, tuple(parts))
            unit.update(dict.fromkeys(bits(whole.faces), whole))
    return sorted(
        {id(tree): tree for tree in unit.values()}.values(), key=lambda t: first_face(t.faces)
    )


def _strands(mosaic: Mosaic, region: Faces, choice: Choice) -> list[list[int]]:
    """The edges linked by closing pairs, as groups in the order of their first edges."""
    group = {e: {e} for e in mosaic.inner_edges(region)}
    for e, f in choice.values():
        if group[e] is not group[f]:
            group[e] |= group[f]
            for g in group[f]:
                group[g] = group[e]
    return sorted(sorted(there) for there in {id(g): g for g in group.values()}.values())
