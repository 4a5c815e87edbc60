"""Floor 3: joins directed edges that bound a region into its closed loops.

The region lies to the right of every edge, as seen on the page. Pure Python, exact: points are compared
as they are, so they must have been clustered.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from booklet.kit.outlines.plane import Point

Edge = tuple[Point, Point]


def trace_loops(edges: Iterable[Edge]) -> tuple[tuple[Point, ...], ...]:
    """The closed loops of edges with the region on their right; each loop passes a point once.

    Parts that touch at one point become loops of their own; so does a hole that touches the rim.
    Clockwise loops go around the region, the others around its holes. Loops start at their top left
    point and come sorted by it. An edge that cannot be followed to a close is left out.
    """
    leaving: dict[Point, list[Point]] = {}
    for start, end in edges:
        leaving.setdefault(start, []).append(end)
    for ends in leaving.values():
        ends.sort()
    loops: list[tuple[Point, ...]] = []
    for start in sorted(leaving):
        while leaving[start]:
            walk = _walk(start, leaving)
            if walk is not None:
                loops.extend(_started_top_left(loop) for loop in _split_at_repeats(walk))
    return tuple(sorted(loops, key=lambda loop: (loop[0][1], loop[0][0], loop)))


def _walk(start: Point, leaving: dict[Point, list[Point]]) -> list[Point] | None:
    """The points of one walk that uses up edges until it closes at its first edge, or None."""
    walk = [start, leaving[start].pop(0)]
    while walk[-1] != start:
        ends = leaving.get(walk[-1])
        if not ends:
            return None
        chosen = _next_end(walk[-2], walk[-1], ends)
        ends.remove(chosen)
        walk.append(chosen)
    return walk[:-1]


def _next_end(before: Point, at: Point, ends: Sequence[Point]) -> Point:
    """The end that keeps to the same wedge of the region: the sharpest turn to the right."""
    if len(ends) == 1:
        return ends[0]
    back = math.atan2(before[1] - at[1], before[0] - at[0])

    def wedge(end: Point) -> float:
        # the region lies on the right of before -> at: that is the angle run through from the way
        # back, against the clock on the page, to the edge that leaves
        return (back - math.atan2(end[1] - at[1], end[0] - at[0])) % (2 * math.pi)

    return min(ends, key=wedge)


def _split_at_repeats(walk: Sequence[Point]) -> list[tuple[Point, ...]]:
    """A closed walk cut into loops that pass each point once."""
    loops: list[tuple[Point, ...]] = []
    stack: list[Point] = []
    place: dict[Point, int] = {}
    for point in walk:
        if point in place:
            first = place[point]
            loops.append(tuple(stack[first:]))
            for gone in stack[first:]:
                del place[gone]
            del stack[first:]
        place[point] = len(stack)
        stack.append(point)
    loops.append(tuple(stack))
    return loops


def _started_top_left(loop: tuple[Point, ...]) -> tuple[Point, ...]:
    first = min(range(len(loop)), key=lambda i: (loop[i][1], loop[i][0]))
    return loop[first:] + loop[:first]
