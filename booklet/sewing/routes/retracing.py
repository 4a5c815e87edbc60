"""Floor 4: where going back over seams already sewn saves a thread.

Instead of knotting off and beginning anew, a thread can run back along sewn seams from where it ends to
where another begins. That is worth while up to the length at which a new thread is reckoned
(`new thread`). Which threads are so joined is an integer programme: the most saved, every thread entered
and left once at most and at different ends, none longer than it is, none a ring of threads. The last two
are added only for choices that break them.
"""

from __future__ import annotations

import heapq
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from booklet.kit.near import NOISE
from booklet.sewing.routes.hand_seams import Work
from booklet.sewing.routes.trails import Edge, Node, Trail
from booklet.solver import Row, Variable, minimise

NODES = 2_000  # of the search; what is found by then is offered


@dataclass(frozen=True, slots=True)
class Passage:
    """Going back from the end of one thread to the beginning of another, both by their numbers from 0,
    over the seams in this order; `length` in inches."""

    first: int
    then: int
    seams: tuple[str, ...]
    length: float


@dataclass(frozen=True, slots=True)
class _Way:
    """A passage that could be chosen: which threads, from and to which point, whether either has to be
    sewn the other way round for it."""

    first: int
    then: int
    start: Node
    end: Node
    flipped: tuple[bool, bool]
    seams: tuple[str, ...]
    length: float


def passages(
    threads: Sequence[Trail], work: Work, reach: float
) -> tuple[tuple[Trail, ...], tuple[Passage, ...]]:
    """The threads, some of them the other way round, and the passages that save the most.

    What a passage saves is `reach` (inches), which a new thread is worth, less its length.
    """
    ways = tuple(_ways(threads, work, reach))
    chosen = _chosen(threads, ways, work.limit, reach)
    flipped = {k for way in chosen for k, turned in _turned(way) if turned}
    turned_threads = tuple(t.reversed() if k in flipped else t for k, t in enumerate(threads))
    found = [Passage(way.first, way.then, way.seams, way.length) for way in chosen]
    return turned_threads, tuple(sorted(found, key=lambda p: (p.first, p.then)))


def _turned(way: _Way) -> tuple[tuple[int, bool], tuple[int, bool]]:
    return (way.first, way.flipped[0]), (way.then, way.flipped[1])


def _ways(threads: Sequence[Trail], work: Work, reach: float) -> list[_Way]:
    """Every passage short enough to save something."""
    at: dict[Node, list[Edge]] = {}
    for edge in work.edges:
        at.setdefault(edge.a, []).append(edge)
        at.setdefault(edge.b, []).append(edge)
    begins: dict[Node, list[tuple[int, bool]]] = {}
    ends: list[list[tuple[Node, bool]]] = []
    for k, trail in enumerate(threads):
        begins.setdefault(trail.nodes[0], []).append((k, False))
        ends.append([(trail.nodes[-1], False)])
        if work.in_one_step(trail) and not trail.closed:
            begins.setdefault(trail.nodes[-1], []).append((k, True))
            ends[k].append((trail.nodes[0], True))
    found: list[_Way] = []
    for k, trail in enumerate(threads):
        for start, back in ends[k]:
            last = trail.edges[0] if back else trail.edges[-1]
            reached = _reached(start, at, reach)
            for node, there in begins.items():
                for other, turned in there if node in reached else ():
                    then = threads[other]
                    first = then.edges[-1] if turned else then.edges[0]
                    length, seams = reached[node]
                    if (
                        other != k
                        and seams
                        and work.leads(last, first)
                        and trail.length + length + then.length <= work.limit + NOISE
                        and all(work.step[s] <= work.step[first.id] for s in seams)
                    ):
                        found.append(_Way(k, other, start, node, (back, turned), seams, length))
    return found


def _reached(
    start: Node, at: Mapping[Node, Sequence[Edge]], reach: float
) -> dict[Node, tuple[float, tuple[str, ...]]]:
    """The points within reach of one, with the shortest way there (Dijkstra 1959)."""
    done: dict[Node, tuple[float, tuple[str, ...]]] = {}
    ahead: list[tuple[float, int, Node, tuple[str, ...]]] = [(0.0, 0, start, ())]
    pushed = 0
    while ahead:
        length, _, node, seams = heapq.heappop(ahead)
        if node in done:
            continue
        done[node] = (length, seams)
        for edge in at[node]:
            if length + edge.length < reach - NOISE and edge.other(node) not in done:
                pushed += 1
                more = (length + edge.length, pushed, edge.other(node), (*seams, edge.id))
                heapq.heappush(ahead, more)
    return done


def _chosen(
    threads: Sequence[Trail], ways: Sequence[_Way], limit: float, reach: float
) -> tuple[_Way, ...]:
    """The passages that save the most together."""
    variables = [Variable(way.length - reach, 0.0, 1.0, whole=True) for way in ways]
    rows = _at_most_once(ways)
    while ways:
        answer = minimise(variables, rows, NODES)
        if answer is None:
            return ()
        chosen = [k for k, value in enumerate(answer.values) if value > 0.5]
        broken = [chain for chain in _chains(ways, chosen) if _breaks(chain, threads, ways, limit)]
        if not broken:
            return tuple(ways[k] for k in chosen)
        rows += [Row(tuple((k, 1.0) for k in c), high=len(c) - 1.0) for c in broken]
    return ()


def _at_most_once(ways: Sequence[_Way]) -> list[Row]:
    """Every thread is left once at most, entered once at most, and not at one and the same end."""
    groups: dict[tuple[str, int, bool], list[int]] = {}
    for k, way in enumerate(ways):
        groups.setdefault(("left", way.first, False), []).append(k)
        groups.setdefault(("entered", way.then, False), []).append(k)
        # sewn the right way round or the other, but not both
        groups.setdefault(("end", way.first, not way.flipped[0]), []).append(k)
        groups.setdefault(("end", way.then, way.flipped[1]), []).append(k)
    return [Row(tuple((k, 1.0) for k in sorted(set(g))), high=1.0) for g in groups.values()]


def _chains(ways: Sequence[_Way], chosen: Sequence[int]) -> list[tuple[int, ...]]:
    """The chosen passages in the rows in which they join threads; a ring begins anywhere."""
    leaving = {ways[k].first: k for k in chosen}
    entered = {ways[k].then for k in chosen}
    starts = [n for n in leaving if n not in entered]
    seen: set[int] = set()
    chains: list[tuple[int, ...]] = []
    for start in [*starts, *leaving]:
        row: list[int] = []
        here = start
        while here in leaving and leaving[here] not in seen:
            row.append(leaving[here])
            seen.add(leaving[here])
            here = ways[row[-1]].then
        if row:
            chains.append(tuple(row))
    return chains


def _breaks(
    chain: Sequence[int], threads: Sequence[Trail], ways: Sequence[_Way], limit: float
) -> bool:
    """Whether a row of passages comes back to where it began, or makes too long a thread."""
    passed = [ways[chain[0]].first, *(ways[k].then for k in chain)]
    if len(set(passed)) < len(passed):
        return True
    length = sum(threads[n].length for n in passed) + sum(ways[k].length for k in chain)
    return length > limit + NOISE
