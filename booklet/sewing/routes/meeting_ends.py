"""Floor 4: the ends of threads that meet at a point: which of them go on from one another."""

from __future__ import annotations

import itertools
import random
from collections.abc import Mapping, Sequence

from booklet.kit.outlines.near import NOISE
from booklet.kit.records import Record
from booklet.sewing.routes.hand_seams import Work
from booklet.sewing.routes.trails import Trail

ALL_WAYS = 8  # with so many ends at a point, or fewer, every way to pair them is tried
TOGETHER = 1e-3  # what a run left on one thread is worth, beside a pair of ends more
LOTS = 24  # with more, so many ways drawn by lot


class ThreadEnd(Record):
    """A part of a thread with an end at a point: as a trail that arrives there and as one that leaves,
    None where it cannot be sewn that way."""

    into: Trail | None
    out: Trail | None


def most_pairs(
    ends: Sequence[ThreadEnd], work: Work, chance: random.Random, keep_runs: bool
) -> tuple[tuple[int, int], ...]:
    """The most pairs of ends that go on from one another, each as (arriving, leaving).

    Among as many, those that part the fewest runs where these are to be kept, else drawn by lot.
    """
    ways: dict[tuple[int, int], tuple[int, int]] = {}
    for i, j in itertools.permutations(range(len(ends)), 2):
        into, out = ends[i].into, ends[j].out
        if into is not None and out is not None and work.goes_on(into, out):
            ways.setdefault((min(i, j), max(i, j)), (i, j))
    worth = {
        way: 1 + (TOGETHER if keep_runs and _in_run(ends, *way, work) else 0.0)
        for way in ways.values()
    }
    order = list(range(len(ends)))
    if len(ends) <= ALL_WAYS:
        chance.shuffle(order)
        return _best_of_all(tuple(order), ways, worth)[1]
    found: list[tuple[float, tuple[tuple[int, int], ...]]] = []
    for _ in range(LOTS):
        lots = sorted(ways.values(), key=lambda way: (-worth[way], chance.random()))
        found.append(_taken(lots, worth))
    return max(found, key=lambda entry: entry[0])[1]


def _in_run(ends: Sequence[ThreadEnd], i: int, j: int, work: Work) -> bool:
    """Whether the pair are seams that follow each other in a run."""
    into, out = ends[i].into, ends[j].out
    assert into is not None and out is not None
    return frozenset((into.edges[-1].id, out.edges[0].id)) in work.beside


def _best_of_all(
    left: tuple[int, ...],
    ways: Mapping[tuple[int, int], tuple[int, int]],
    worth: Mapping[tuple[int, int], float],
) -> tuple[float, tuple[tuple[int, int], ...]]:
    """The best pairing of the ends left, of all pairings; of equal ones the first in their order."""
    if len(left) < 2:
        return 0.0, ()
    first, rest = left[0], left[1:]
    best: tuple[float, tuple[tuple[int, int], ...]] = (-1.0, ())
    for k, other in enumerate(rest):
        way = ways.get((min(first, other), max(first, other)))
        if way is None:
            continue
        value, more = _best_of_all(rest[:k] + rest[k + 1 :], ways, worth)
        if value + worth[way] > best[0] + NOISE:
            best = value + worth[way], (way, *more)
    if best[0] < len(left) // 2:
        alone = _best_of_all(rest, ways, worth)
        if alone[0] > best[0] + NOISE:
            best = alone
    return best


def _taken(
    ways: Sequence[tuple[int, int]], worth: Mapping[tuple[int, int], float]
) -> tuple[float, tuple[tuple[int, int], ...]]:
    """The pairs taken one after the other as long as their ends are free."""
    used: set[int] = set()
    pairs: list[tuple[int, int]] = []
    for i, j in ways:
        if i not in used and j not in used:
            used |= {i, j}
            pairs.append((i, j))
    return sum(worth[pair] for pair in pairs), tuple(pairs)


def as_one(first: Trail | None, then: Trail | None) -> Trail:
    """Two trails as one."""
    assert first is not None and then is not None
    return Trail(first.edges + then.edges, first.nodes + then.nodes[1:])
