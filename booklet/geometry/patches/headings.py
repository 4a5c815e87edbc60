"""Floor 3: which way a seam runs at its ends, and whether sewing on from one to the next turns.

A turn is a change of direction at a matching point; going on along a smooth curve is none. Directions
are never compared exactly: points that were drawn by hand or rounded are a little off the line.
"""

from __future__ import annotations

import math

from booklet.geometry.tiling import Seam
from booklet.kit.outlines.plane import Point

STRAIGHT_WITHIN = math.radians(1.0)  # nobody pivots for less than a degree
SMOOTH_WITHIN = math.radians(5.0)  # a curve is a chain of chords, so its end direction is a guess


def walked(seam: Seam, start: Point) -> tuple[Point, ...]:
    """The points of the seam in the order met when sewing it from `start`, one of its ends."""
    return seam.path if seam.start == start else tuple(reversed(seam.path))


def other_end(seam: Seam, end: Point) -> Point:
    """The matching point at the other end of the seam."""
    return seam.end if seam.start == end else seam.start


def leaving(points: tuple[Point, ...]) -> float:
    """The direction in radians in which a line of points leaves its first point.

    Of three points or more it is the tangent of the circle through the first three: with chord
    directions a01, a02, a12 that tangent is a01 + a02 - a12 (inscribed angles), exact for an arc.
    """
    first = _angle(points[0], points[1])
    if len(points) < 3:
        return first
    across = first + _bent(first, _angle(points[0], points[2]))
    second = first + _bent(first, _angle(points[1], points[2]))
    return first + across - second


def change(arriving: Seam, departing: Seam, at: Point) -> float:
    """The change of direction in radians (0 to pi) when sewing goes from one seam to the next at `at`."""
    came = leaving(walked(arriving, at)) + math.pi
    goes = leaving(walked(departing, at))
    return abs(_bent(came, goes))


def turns(arriving: Seam, departing: Seam, at: Point) -> bool:
    """Whether sewing from one seam on to the next turns at the matching point `at`."""
    return bends(arriving, departing, change(arriving, departing, at))


def bends(one: Seam, other: Seam, bent: float) -> bool:
    """Whether a change of direction between two seams is a turn."""
    curved = len(one.path) > 2 or len(other.path) > 2
    return bent > (SMOOTH_WITHIN if curved else STRAIGHT_WITHIN)


def _angle(a: Point, b: Point) -> float:
    """The direction from a to b in radians."""
    return math.atan2(b[1] - a[1], b[0] - a[0])


def _bent(a: float, b: float) -> float:
    """The signed difference b - a of two directions, between -pi and pi."""
    return math.remainder(b - a, math.tau)
