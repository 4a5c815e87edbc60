"""Floor 4: what routes cost at least, whatever the order of joining.

Threads sew every seam once and go back over some. At a point where an odd number of seams ends, a thread begins or
ends, or comes by on the way back or loose: so of each way back and each thread there are enough to make every point even
(Edmonds and Johnson 1973). That is an integer programme; its bound is a lower bound for every order and every route.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from booklet.kit.groups import tied_groups
from booklet.kit.outlines.near import NOISE
from booklet.kit.solver import Row, Variable, minimise
from booklet.sewing.routes.hanging import Rates
from booklet.sewing.routes.trails import Edge, Node

NODES = 40  # of the search
MOST = 400  # seams: of more the programme takes too long, and their number of threads alone is told


def fewest_by_length(edges: Sequence[Edge], limit: float) -> int:
    """How many threads their length alone asks for; a seam longer than a thread counts as one."""
    if not edges or math.isinf(limit):
        return min(1, len(edges))
    return max(1, math.ceil(sum(min(e.length, limit) for e in edges) / limit - NOISE))


def least_cost(edges: Sequence[Edge], rates: Rates) -> float:
    """A lower bound in inches on what the routes of these seams cost, the sewing itself left out."""
    floor = rates.new * fewest_by_length(edges, rates.limit)
    if not edges or len(edges) > MOST or rates.new <= NOISE:
        return floor
    nodes = list(dict.fromkeys(node for edge in edges for node in (edge.a, edge.b)))
    loose = _loose_ways(nodes, rates)
    if len(loose) > MOST:
        return floor  # where loose thread costs next to nothing, nearly every point leads to every other
    moves = [(e.a, e.b, e.length * rates.back) for e in edges if e.a != e.b] + loose
    count = len(moves)
    variables = [Variable(cost, 0.0, 1.0, whole=True) for _, _, cost in moves]
    variables += [
        Variable(rates.new / 2, 0.0, 1.0, whole=True) for _ in nodes
    ]  # a thread has an end
    odd = _odd(edges)
    touching: dict[Node, list[int]] = {node: [] for node in nodes}
    for k, (a, b, _) in enumerate(moves):
        touching[a].append(k)
        touching[b].append(k)
    rows = []
    end_of = {node: count + k for k, node in enumerate(nodes)}
    for node in nodes:
        half = len(variables)
        variables.append(Variable(0.0, 0.0, float(len(touching[node])), whole=True))
        there = [*touching[node], end_of[node]]
        parity = float(node in odd)
        rows.append(Row((*((k, 1.0) for k in there), (half, -2.0)), low=parity, high=parity))
    place = {node: k for k, node in enumerate(nodes)}
    closed = []  # threads that end where they began
    for part in tied_groups(len(nodes), ((place[e.a], place[e.b]) for e in edges)):
        mine = {nodes[k] for k in part}
        closed.append(len(variables))
        variables.append(Variable(rates.new, 0.0, math.inf, whole=True))
        crossing = [k for k, (a, b, _) in enumerate(moves) if (a in mine) != (b in mine)]
        terms = [*((end_of[node], 0.5) for node in mine), (closed[-1], 1.0), *((k, 1.0) for k in crossing)]  # fmt: skip
        rows.append(Row(tuple(terms), low=1.0))
    whole = [*((end, 0.5) for end in end_of.values()), *((round_, 1.0) for round_ in closed)]
    rows.append(Row(tuple(whole), low=float(fewest_by_length(edges, rates.limit))))
    answer = minimise(variables, rows, NODES)
    return max(floor, answer.bound) if answer is not None else floor


def _odd(edges: Sequence[Edge]) -> set[Node]:
    """The points at which an odd number of seams ends."""
    odd: set[Node] = set()
    for edge in edges:
        odd ^= {edge.a}
        odd ^= {edge.b}
    return odd


def _loose_ways(nodes: Sequence[Node], rates: Rates) -> list[tuple[Node, Node, float]]:
    """The ways across the patches that cost less than a new thread."""
    far = rates.new / rates.loose if rates.loose else math.inf
    found: list[tuple[Node, Node, float]] = []
    for a, b in itertools.combinations(nodes, 2):
        if isinstance(a, tuple) and isinstance(b, tuple) and math.dist(a, b) < far:
            found.append((a, b, math.dist(a, b) * rates.loose))
    return found
