"""Floor 4: how threads go on from seam to seam, by an integer programme, lengths left out.

Every seam is sewn one way or the other; at its end at most one seam follows it, of its own step or of a
later one that takes its unit in, and at most one precedes it. The most such pairs make the fewest threads.
The programme leaves out that a round must begin somewhere and that threads have a length, so that what
it finds is a lower bound, and a good drawing to begin with.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

from booklet.kit.outlines.near import NOISE
from booklet.kit.records import Record
from booklet.kit.solver import Row, Variable, minimise
from booklet.sewing.routes.hand_seams import Work
from booklet.sewing.routes.trails import Node, Trail

NODES = 20  # of the search
LOOSE = 1e-4  # what the rows of the programme, each kept to within WHOLE, may add up to
MOST = 1_000  # seams: of more the programme would take too long


class Paired(Record):
    """Threads that may be too long, and a lower bound on their number."""

    threads: tuple[Trail, ...]
    fewest: int


def paired(work: Work) -> Paired | None:
    """The fewest threads, lengths left out, of them those that part the fewest runs; None of very many
    seams, or where the search gives up."""
    count = len(work.edges)
    if count > MOST:
        return None
    together = 0.5 / (count + 1)  # what a run left on one thread is worth, beside a pair more
    variables = [Variable(0.0, 0.0, 1.0, whole=True) for _ in work.edges]  # 1: sewn from a to b
    follows: list[tuple[int, int]] = []
    rows: list[Row] = []
    for node, there in _around(work).items():
        after: dict[int, list[int]] = {k: [] for k in there}
        before: dict[int, list[int]] = {k: [] for k in there}
        for i, j in ((i, j) for i in there for j in there if i != j and _may_follow(work, i, j)):
            place = len(variables)
            cost = -1.0 - (together if _in_run(work, i, j) else 0.0)
            variables.append(Variable(cost, 0.0, 1.0, whole=True))
            follows.append((i, j))
            after[i].append(place)
            before[j].append(place)
        for k in there:
            if work.edges[k].a == work.edges[k].b:  # arrives here and leaves from here, either way
                rows += [
                    Row(tuple((p, 1.0) for p in places), high=1.0)
                    for places in (after[k], before[k])
                ]
                continue
            arrives = work.edges[k].b == node
            rows += _only_if(after[k], k, sewn_forward=arrives)
            rows += _only_if(before[k], k, sewn_forward=not arrives)
    answer = minimise(variables, rows, NODES)
    if answer is None:
        return None
    chosen = [pair for pair, x in zip(follows, answer.values[count:], strict=True) if x > 0.5]
    ahead = [x > 0.5 for x in answer.values[:count]]
    most = math.floor(-answer.bound + LOOSE)  # pairs: what runs are worth is less than one of them
    return Paired(_trails(work, chosen, ahead), max(1, count - most))


def _around(work: Work) -> Mapping[Node, list[int]]:
    """The seams at each point; a seam that comes back to where it began is there once."""
    at: dict[Node, list[int]] = {}
    for k, edge in enumerate(work.edges):
        for node in dict.fromkeys((edge.a, edge.b)):
            at.setdefault(node, []).append(k)
    return at


def _may_follow(work: Work, i: int, j: int) -> bool:
    """Whether a thread that has sewn one seam may sew the other next."""
    first, then = work.edges[i], work.edges[j]
    return work.leads(first, then) and first.length + then.length <= work.limit + NOISE


def _in_run(work: Work, i: int, j: int) -> bool:
    return frozenset((work.edges[i].id, work.edges[j].id)) in work.beside


def _only_if(places: list[int], seam: int, *, sewn_forward: bool) -> list[Row]:
    """At most one of the pairs, and only if the seam is sewn that way."""
    if not places:
        return []
    terms = tuple((place, 1.0) for place in places)
    if sewn_forward:
        return [Row((*terms, (seam, -1.0)), high=0.0)]
    return [Row((*terms, (seam, 1.0)), high=1.0)]


def _trails(work: Work, pairs: list[tuple[int, int]], ahead: list[bool]) -> tuple[Trail, ...]:
    """The pairs as trails; a round begins with its first seam."""
    then = dict(pairs)
    starts = [k for k in range(len(work.edges)) if k not in set(then.values())]
    seen: set[int] = set()
    found: list[Trail] = []
    for start in [*starts, *range(len(work.edges))]:
        here: int | None = start
        seams: list[int] = []
        while here is not None and here not in seen:
            seen.add(here)
            seams.append(here)
            here = then.get(here)
        if seams:
            edges = [work.edges[k] for k in seams]
            nodes = [e.a if ahead[k] else e.b for k, e in zip(seams, edges, strict=True)]
            found.append(Trail(tuple(edges), (*nodes, edges[-1].other(nodes[-1]))))
    return tuple(found)
