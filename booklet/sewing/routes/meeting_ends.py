"""Floor 4: the ends of threads that meet at a point: which of them go on from one another."""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterator, Sequence

from booklet.kit.records import Record
from booklet.sewing.routes.hand_seams import Work
from booklet.sewing.routes.trails import Trail


class ThreadEnd(Record):
    """A part of a thread with an end at a point: as a trail that arrives there and as one that leaves,
    None where it cannot be sewn that way."""

    into: Trail | None
    out: Trail | None


def most_pairs(
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


def as_one(first: Trail | None, then: Trail | None) -> Trail:
    """Two trails as one."""
    assert first is not None and then is not None
    return Trail(first.edges + then.edges, first.nodes + then.nodes[1:])
