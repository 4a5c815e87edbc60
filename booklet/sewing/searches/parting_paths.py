"""Floor 4, the searches: a region without a straight line is parted along a path with few needless turns.

A turn is needless where the point also has two edges that go straight on; where it has none, every
order turns there once. Shortest paths from rim to rim (Dijkstra 1959) by needless cost, then by turns.

What they are for: without them no order of a pattern changes, but of 60 random blocks of 17 to 40 pieces 37 have more
cards before parts are moved, and blocks of 300 pieces turn half as often again (115 times in place of 74).
"""

from __future__ import annotations

import heapq
from collections.abc import Iterator

from booklet.kit.records import Record
from booklet.sewing.mosaic.mosaic import Faces, Mosaic
from booklet.sewing.mosaic.straight_lines import parted

MOST_STARTS = 24
MOST_FACES_ALL = 60  # up to here every start on the rim is tried
Step = tuple[int, int]  # an edge and the point it leads to


class PartingPath(Record):
    """A path of edges from rim to rim: its needless cost, its turns, and one of the sides it parts."""

    needless: float
    turns: int
    length: int
    side: Faces


def parting_paths(mosaic: Mosaic, region: Faces) -> Iterator[PartingPath]:
    """Paths that part a region in two, the best between every two ends that were tried; of those with
    more needless cost than a path before, none."""
    inside = set(mosaic.inner_points(region))
    edges = set(mosaic.inner_edges(region))
    starts = sorted((e, p) for e in edges for p in mosaic.ends(e) if p not in inside)
    if region.bit_count() > MOST_FACES_ALL and len(starts) > MOST_STARTS:
        starts = [starts[k * len(starts) // MOST_STARTS] for k in range(MOST_STARTS)]
    begun = set(starts)
    most = float("inf")
    for start in starts:
        e, p = start
        came, ends = _shortest(mosaic, e, mosaic.far(e, p), inside, most)
        for end in ends:
            cost, turned, length = came[end][:3]
            if cost > most:
                break
            if end <= start and end in begun:
                continue  # found from its other end
            side = parted(mosaic, region, _line(came, end))
            if side:
                most = cost
                yield PartingPath(cost, turned, length, side)


Came = dict[Step, tuple[float, int, int, Step | None]]


def _shortest(
    mosaic: Mosaic, e: int, point: int, inside: set[int], most: float
) -> tuple[Came, list[Step]]:
    """The best way to every step from a first edge, and the steps that reach the rim, as far as their
    needless cost is no more than `most`."""
    first: Step = (e, point)
    came: Came = {}
    ends: list[Step] = []
    queue: list[tuple[float, int, int, Step, Step | None]] = [
        (0.0, 0, mosaic.edges[e].weight, first, None)
    ]
    while queue:
        cost, turned, length, step, before = heapq.heappop(queue)
        if step in came:
            continue
        came[step] = (cost, turned, length, before)
        e, point = step
        if point not in inside:
            ends.append(step)
            continue
        for f in mosaic.rays[point]:
            ahead = (f, mosaic.far(f, point))
            if f != e and ahead not in came:
                pair = mosaic.pair(point, e, f)
                more = round(cost + pair.cost - mosaic.least[point], 9)
                if more <= most:
                    longer = length + mosaic.edges[f].weight
                    heapq.heappush(queue, (more, turned + pair.turns, longer, ahead, step))
    return came, ends


def _line(came: Came, end: Step) -> tuple[int, ...]:
    """The edges of the way to a step."""
    line = []
    step: Step | None = end
    while step is not None:
        line.append(step[0])
        step = came[step][3]
    return tuple(line)
