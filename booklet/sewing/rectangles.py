"""Floor 4: the size of a unit that is a rectangle, so that it can be checked at the ruler."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from booklet.geometry.tiling import Tiling
from booklet.kit.plane import Point

SLACK = 1e-4  # inches, and radians


def rectangle(pieces: Iterable[str], tiling: Tiling) -> tuple[float, float] | None:
    """Finished width and height in inches of the unit of these pieces; None if it is no rectangle.

    A turned rectangle is measured along its own sides; its width is the side nearer to level, the longer if neither is. The
    unit is a rectangle if its convex hull is one and no larger than its pieces together.
    """
    outlines = [tiling.piece(id).outline.points for id in pieces]
    corners = hull(p for points in outlines for p in points)
    if len(corners) != 4 or not _square_cornered(corners):
        return None
    covered = sum(abs(area(points)) for points in outlines)
    if abs(abs(area(corners)) - covered) > SLACK * max(1.0, covered):
        return None
    first = _vector(corners[0], corners[1])
    second = _vector(corners[1], corners[2])
    slant = abs(first[1]) - abs(first[0])
    if abs(slant) <= SLACK:
        first, second = sorted((first, second), key=lambda side: -math.hypot(*side))
    elif slant > 0:
        first, second = second, first
    return (math.hypot(*first), math.hypot(*second))


def area(points: Sequence[Point]) -> float:
    """The area inside a closed line of points, positive if it runs clockwise on the page."""
    pairs = zip(points, (*points[1:], points[0]), strict=True)
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs) / 2


def hull(points: Iterable[Point]) -> tuple[Point, ...]:
    """The corners of the convex hull, without points that lie on a straight side (monotone chain)."""
    ordered = sorted(set(points))
    lower = _half(ordered)
    upper = _half(ordered[::-1])
    return (*lower[:-1], *upper[:-1])


def _half(points: Sequence[Point]) -> list[Point]:
    """One half of the hull."""
    chain: list[Point] = []
    for p in points:
        while len(chain) > 1 and _left_of(chain[-2], chain[-1], p) <= SLACK:
            chain.pop()
        chain.append(p)
    return chain


def _left_of(a: Point, b: Point, p: Point) -> float:
    """How far p lies to one side of the line from a to b, in inches."""
    length = math.dist(a, b)
    cross = (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
    return cross / length if length > 0 else 0.0


def _square_cornered(corners: Sequence[Point]) -> bool:
    """Whether all four corners are right angles."""
    sides = [_vector(a, b) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)]
    return all(
        abs(a[0] * b[0] + a[1] * b[1]) <= SLACK * math.hypot(*a) * math.hypot(*b)
        for a, b in zip(sides, (*sides[1:], sides[0]), strict=True)
    )


def _vector(a: Point, b: Point) -> Point:
    return (b[0] - a[0], b[1] - a[1])
