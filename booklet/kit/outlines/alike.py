"""Floor 0: what is alike when turned, on the ground that patches, units, regions and cuts share.

Whatever is compared, the floors reduce it to points; which points and labels tell it is theirs to say.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from booklet.kit.outlines.near import SAME_ANGLE, SAME_LENGTH
from booklet.kit.outlines.plane import Point, mean, minus, plus, turn_point
from booklet.kit.records import Record


def rotated(p: Point, cos: float, sin: float) -> Point:
    """The point turned clockwise on the page about the origin, by an angle of which both are known."""
    return (p[0] * cos - p[1] * sin, p[0] * sin + p[1] * cos)


class Turn(Record):
    """A motion of the plane: shift `centre` to the origin, turn, shift to `to`."""

    centre: Point
    cos: float
    sin: float
    to: Point

    def __call__(self, p: Point) -> Point:
        """Where the point comes to lie."""
        return plus(self.to, rotated(minus(p, self.centre), self.cos, self.sin))


def same_angle(a: float, b: float, full: float, within: float = SAME_ANGLE) -> bool:
    """Whether two directions agree modulo `full` degrees."""
    gap = (a - b) % full
    return min(gap, full - gap) <= within


def corner_set(points: Sequence[Point]) -> tuple[Point, ...]:
    """The corners of an outline in an order of their own, rounded, so that equal outlines compare equal from
    whichever corner they begin."""
    return tuple(sorted((round(x, 4) + 0.0, round(y, 4) + 0.0) for x, y in points))


def same_corners(one: Sequence[Point], other: Sequence[Point]) -> bool:
    """Whether two outlines have the same corners, from whichever they begin."""
    return len(one) == len(other) and all(
        abs(a - b) < SAME_LENGTH
        for p, q in zip(corner_set(one), corner_set(other), strict=True)
        for a, b in zip(p, q, strict=True)
    )


def symmetric_turns(points: Sequence[Point]) -> tuple[float, ...]:
    """The turns (degrees, from 0 below 360) that lay an outline on itself."""
    count, centre = len(points), mean(points)
    centred = [minus(p, centre) for p in points]
    found = [0.0]
    for part in range(1, count):
        turn = 360 * part / count
        turned = [turn_point(p, turn) for p in centred]
        if all(any(math.dist(p, q) < SAME_LENGTH for q in centred) for p in turned):
            found.append(turn)
    return tuple(found)
