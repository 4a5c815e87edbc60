"""Floor 1, crafts: pieces side by side in a strip. How close two outlines may lie, and how long a row becomes."""

from __future__ import annotations

import math
from collections.abc import Sequence

from booklet.kit.outlines.near import NOISE, ONE_POINT
from booklet.kit.outlines.plane import Point, extent
from booklet.kit.outlines.polygon import at_origin, edges, half_turned
from booklet.kit.records import Record, replace


class NestedRow(Record, kw_only=True):
    """A row of like pieces along a strip: their outlines in turn (one, or one and its half turn), the
    pitch from each to the next, and the width of a piece; inches."""

    shapes: tuple[tuple[Point, ...], ...]
    pitches: tuple[float, ...]
    width: float
    height: float
    turned: bool = False  # a quarter turn from the way its cut is described

    def length(self, count: int) -> float:
        """The length of a row of `count` pieces."""
        return self.offset(count - 1) + self.width if count else 0.0

    def offset(self, index: int) -> float:
        """Where piece `index` (from 0) begins."""
        turns, rest = divmod(index, len(self.pitches))
        return turns * sum(self.pitches) + sum(self.pitches[:rest])

    def widened(self, wider: float) -> NestedRow:
        """The row of pieces that are each cut so much wider than their outline."""
        pitches = tuple(pitch + wider for pitch in self.pitches)
        return replace(self, pitches=pitches, width=self.width + wider)

    @property
    def begun_otherwise(self) -> NestedRow:
        """The row of pieces by turns that begins with the other one."""
        return replace(self, shapes=self.shapes[::-1], pitches=self.pitches[::-1])

    def outline(self, index: int) -> tuple[Point, ...]:
        """The outline of piece `index` in its place of the row, which begins at (0, 0)."""
        dx = self.offset(index)
        return tuple((x + dx, y) for x, y in self.shapes[index % len(self.shapes)])


def row_of(points: Sequence[Point], may_turn: bool) -> NestedRow:
    """The closest row of pieces of this outline; half-turned alternately where that is closer."""
    one = at_origin(points)
    width, height = extent(one)
    plain = pitch(one, one)
    if may_turn:
        other = half_turned(one)
        there, back = pitch(one, other), pitch(other, one)
        if there + back < 2 * plain - ONE_POINT:
            return NestedRow(shapes=(one, other), pitches=(there, back), width=width, height=height)
    return NestedRow(shapes=(one,), pitches=(plain,), width=width, height=height)


def pitch(first: Sequence[Point], second: Sequence[Point]) -> float:
    """How far `second` must begin after `first` begins, both in one strip from its upper edge down.

    The greatest over y of (right edge of the first - left edge of the second); both are straight between
    corners, so it is reached at the height of a corner. They then touch and do not overlap.
    """
    levels = sorted({y for _, y in (*first, *second)})
    best = -math.inf
    for level in levels:
        right, left = _edge(first, level, True), _edge(second, level, False)
        if right is not None and left is not None:
            best = max(best, right - left)
    return max(best, 0.0) if best > -math.inf else 0.0


def _edge(points: Sequence[Point], level: float, rightmost: bool) -> float | None:
    """The farthest x of an outline at a height, on the right hand or on the left."""
    found: list[float] = []
    for (ax, ay), (bx, by) in edges(points):
        low, high = min(ay, by), max(ay, by)
        if not low - NOISE <= level <= high + NOISE:
            continue
        if high - low < NOISE:
            found += [ax, bx]
        else:
            share = min(max((level - ay) / (by - ay), 0.0), 1.0)
            found.append(ax + share * (bx - ax))
    return (max(found) if rightmost else min(found)) if found else None
