"""Floor 4: the size of a unit that is a rectangle, so that it can be checked at the ruler."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from booklet.geometry.tiling import Tiling
from booklet.kit.outlines.near import SAME_LENGTH
from booklet.kit.outlines.plane import Point, cross, dot, minus
from booklet.kit.outlines.polygon import area_of, edges


def rectangle(pieces: Iterable[str], tiling: Tiling) -> tuple[float, float] | None:
    """Finished width and height in inches of the unit of these pieces; None if it is no rectangle.

    A turned rectangle is measured along its own sides; its width is the side nearer to level, the longer if neither is. The
    unit is a rectangle if its convex hull is one and no larger than its pieces together.
    """
    outlines = [tiling.piece(id).outline.points for id in pieces]
    corners = hull(p for points in outlines for p in points)
    if len(corners) != 4 or not _square_cornered(corners):
        return None
    covered = sum(abs(area_of(points)) for points in outlines)
    if abs(abs(area_of(corners)) - covered) > SAME_LENGTH * max(1.0, covered):
        return None
    first = minus(corners[1], corners[0])
    second = minus(corners[2], corners[1])
    slant = abs(first[1]) - abs(first[0])
    if abs(slant) <= SAME_LENGTH:
        first, second = sorted((first, second), key=lambda side: -math.hypot(*side))
    elif slant > 0:
        first, second = second, first
    return (math.hypot(*first), math.hypot(*second))


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
        while len(chain) > 1 and _left_of(chain[-2], chain[-1], p) <= SAME_LENGTH:
            chain.pop()
        chain.append(p)
    return chain


def _left_of(a: Point, b: Point, p: Point) -> float:
    """How far p lies to one side of the line from a to b, in inches."""
    length = math.dist(a, b)
    return cross(minus(b, a), minus(p, a)) / length if length > 0 else 0.0


def _square_cornered(corners: Sequence[Point]) -> bool:
    """Whether all four corners are right angles."""
    sides = [minus(b, a) for a, b in edges(corners)]
    return all(
        abs(dot(a, b)) <= SAME_LENGTH * math.hypot(*a) * math.hypot(*b) for a, b in edges(sides)
    )
