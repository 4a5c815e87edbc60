"""Floor 4: threads that go on from step to step, as few as can be over the whole order.

A thread that has sewn seams of a step hangs from the unit made; it can go on into any later step that
takes this unit in, from the point where it ends. Every seam has two ends, and at each point the ends of
seams are paired, one going on from the other: the more pairs, the fewer threads. What keeps them from
being paired at will is that a thread never goes back to an earlier step, that it has a length, and that
a round needs a beginning. `pairing.py` finds the most pairs where threads have no length; its threads
are cut where they are too long. Then pairs are chosen anew point by point, one after the other as the lot has it, from
a fixed seed; that lets the end of a thread wander until it meets the beginning of another. It is begun with those
threads and with single seams in turn. A lower bound tells when no fewer threads are possible.

What choosing anew is for: without it one of the 80 blocks of the test patterns that are sewn by hand takes 9 threads in
place of 7, and of random blocks those whose threads are short.
"""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterator, Mapping, Sequence

from booklet.kit.records import Record
from booklet.sewing.routes.hand_seams import Work
from booklet.sewing.routes.pairing import Paired, paired
from booklet.sewing.routes.trails import Node, Trail, cut_at, fewest

STARTS = 8  # how often the search is begun anew
EFFORT = 4_000  # points at which pairs are chosen anew, over all starts
FEWEST_SWEEPS, MOST_SWEEPS = 8, 50


class _Web:
    """The threads while they are improved, found by the points they pass."""

    def __init__(self, threads: Sequence[Trail], work: Work, chance: random.Random) -> None:
        self.work, self.chance = work, chance
        self.threads: dict[int, Trail] = {}
        self.at: dict[Node, set[int]] = {}
        self.last = 0
        for trail in threads:
            self.add(trail)

    def add(self, trail: Trail) -> None:
        """One more thread."""
        self.last += 1
        self.threads[self.last] = trail
        for node in trail.nodes:
            self.at.setdefault(node, set()).add(self.last)

    def drop(self, number: int) -> None:
        """One thread less."""
        for node in self.threads.pop(number).nodes:
            self.at[node].discard(number)

    def pair_anew(self, node: Node, keep_runs: bool) -> None:
        """Cut all threads at a point and join as many of their ends as can be."""
        numbers = sorted(self.at.get(node, ()))
        if not numbers:
            return
        ends = [end for n in numbers for end in self.cut(self.threads[n], node)]
        for n in numbers:
            self.drop(n)
        joined = set[int]()
        for i, j in _most_pairs(ends, self.work, self.chance, keep_runs):
            joined |= {i, j}
            self.add(_as_one(ends[i].into, ends[j].out))
        for k, end in enumerate(ends):
            trail = end.out or end.into
            if k not in joined and trail is not None:
                self.add(trail)

    def cut(self, trail: Trail, node: Node) -> Iterator[ThreadEnd]:
        """The parts of a thread on either side of a point; where it comes by twice, at one of the times."""
        if trail.closed and self.work.in_one_step(trail):
            round_ = trail.from_node(node)
            yield ThreadEnd(round_, round_)
            return
        k = self.chance.choice([k for k, n in enumerate(trail.nodes) if n == node])
        if k > 0:
            before = Trail(trail.edges[:k], trail.nodes[: k + 1])
            yield ThreadEnd(before, before.reversed() if self.work.in_one_step(before) else None)
        if k < len(trail.edges):
            after = Trail(trail.edges[k:], trail.nodes[k:])
            yield ThreadEnd(after.reversed() if self.work.in_one_step(after) else None, after)


def linked(work: Work) -> tuple[Trail, ...]:
    """The threads in the order in which they are begun, as few as are found; the same each time."""
    if not work.edges:
        return ()
    found = paired(work)
    bound = fewest_linked(work, found)
    chance = random.Random(1)
    alone = tuple(Trail((edge,), (edge.a, edge.b)) for edge in work.edges)
    first = tuple(cut for t in found.threads for cut in cut_at(t, work.limit)) if found else alone
    best = _fewest(work, (first, alone), bound, chance)
    if found is None or len(best) < len(first):
        best = _with_whole_runs(best, work, chance)
    place = {edge.id: k for k, edge in enumerate(work.edges)}
    onward = [_onward(trail, work, place) for trail in best]
    return tuple(sorted(onward, key=lambda trail: place[trail.edges[0].id]))


def _onward(trail: Trail, work: Work, place: Mapping[str, int]) -> Trail:
    """A thread that may be sewn either way, the way in which its seams are written down."""
    if not work.in_one_step(trail) or trail.closed:
        return trail
    first, last = place[trail.edges[0].id], place[trail.edges[-1].id]
    back = last < first if first != last else trail.nodes[0] != trail.edges[0].a
    return trail.reversed() if back else trail


def _fewest(
    work: Work, begun: Sequence[tuple[Trail, ...]], bound: int, chance: random.Random
) -> tuple[Trail, ...]:
    """The fewest threads found, begun with each of those given in turn."""
    nodes = _nodes(work)
    sweeps = max(FEWEST_SWEEPS, min(MOST_SWEEPS, EFFORT // (STARTS * len(nodes))))
    starts = max(1, min(STARTS, EFFORT // (sweeps * len(nodes))))
    best = begun[0]
    for start in range(starts):
        if len(best) <= bound:
            break
        web = _Web(begun[start % len(begun)], work, chance)
        for _ in range(sweeps):
            if len(web.threads) <= bound:
                break
            _sweep(web, nodes)
            if len(web.threads) < len(best):
                best = tuple(web.threads.values())
    return best


def _with_whole_runs(
    best: tuple[Trail, ...], work: Work, chance: random.Random
) -> tuple[Trail, ...]:
    """As few threads, of which fewer part a run where that is found."""
    web = _Web(best, work, chance)
    for _ in range(3):
        _sweep(web, _nodes(work), keep_runs=True)
        if len(web.threads) <= len(best):
            best = tuple(web.threads.values())
    return best


def _nodes(work: Work) -> list[Node]:
    """All points, in the order first met."""
    return list(dict.fromkeys(n for edge in work.edges for n in (edge.a, edge.b)))


def _sweep(web: _Web, nodes: list[Node], keep_runs: bool = False) -> None:
    """Choose the pairs anew at every point, in an order drawn by lot."""
    order = list(nodes)
    web.chance.shuffle(order)
    for node in order:
        web.pair_anew(node, keep_runs)


def fewest_linked(work: Work, found: Paired | None) -> int:
    """A lower bound on the threads: those of the pairing, and those that the seams would take if they
    could be sewn in any order."""
    return max(fewest(work.edges, work.limit), found.fewest if found else 0)


class ThreadEnd(Record):
    """A part of a thread with an end at a point: as a trail that arrives there and as one that leaves,
    None where it cannot be sewn that way."""

    into: Trail | None
    out: Trail | None


def _most_pairs(
    ends: Sequence[ThreadEnd], work: Work, chance: random.Random, keep_runs: bool
) -> Iterator[tuple[int, int]]:
    """Pairs of ends that go on from one another, each as (arriving, leaving), until no more go together.

    As the lot has it, but those first that leave a run on one thread where these are to be kept.
    """
    ways: dict[tuple[int, int], tuple[int, int]] = {}
    for i, j in itertools.permutations(range(len(ends)), 2):
        into, out = ends[i].into, ends[j].out
        if into is not None and out is not None and work.goes_on(into, out):
            ways.setdefault((min(i, j), max(i, j)), (i, j))
    lots = sorted(
        (not (keep_runs and _in_run(ends, i, j, work)), chance.random(), i, j)
        for i, j in ways.values()
    )
    used: set[int] = set()
    for _, _, i, j in lots:
        if i not in used and j not in used:
            used |= {i, j}
            yield i, j


def _in_run(ends: Sequence[ThreadEnd], i: int, j: int, work: Work) -> bool:
    """Whether the pair are seams that follow each other in a run."""
    into, out = ends[i].into, ends[j].out
    assert into is not None and out is not None
    return frozenset((into.edges[-1].id, out.edges[0].id)) in work.beside


def _as_one(first: Trail | None, then: Trail | None) -> Trail:
    """Two trails as one."""
    assert first is not None and then is not None
    return Trail(first.edges + then.edges, first.nodes + then.nodes[1:])
