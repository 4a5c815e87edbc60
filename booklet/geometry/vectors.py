"""Floor 3: outlines turned, moved, mirrored and united. Lengths are inches."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence

from booklet.geometry.loops import trace_loops
from booklet.geometry.tiling import Outline, Side, Tiling
from booklet.kit.outlines.near import TOUCH
from booklet.kit.outlines.plane import ORIGIN, Point, midpoint, plus, turn_point
from booklet.kit.outlines.polygon import edges, without_straight_points


def outline_of(corners: Sequence[Point]) -> Outline:
    """The straight-sided outline of corners in order."""
    return Outline(tuple(Side(a, b) for a, b in edges(corners)))


def turned(outline: Outline, degrees: float, about: Point = ORIGIN) -> Outline:
    """The outline turned clockwise about a point."""
    if degrees % 360 == 0:
        return outline
    return _mapped(outline, lambda p: turn_point(p, degrees, about))


def shifted(outline: Outline, by: Point) -> Outline:
    """The outline moved by a vector."""
    return _mapped(outline, lambda p: plus(p, by))


def mirrored(outline: Outline) -> Outline:
    """The outline mirrored left-right about x = 0, clockwise again from the image of its first corner."""
    return backwards(_mapped(outline, lambda p: (-p[0], p[1])))


def backwards(outline: Outline) -> Outline:
    """The outline run through the other way round, from the same first corner."""
    return Outline(tuple(Side(s.end, s.start, s.via[::-1]) for s in reversed(outline.sides)))


def _mapped(outline: Outline, move: Callable[[Point], Point]) -> Outline:
    return Outline(
        tuple(Side(move(s.start), move(s.end), tuple(map(move, s.via))) for s in outline.sides)
    )


def map_outline(outline: Outline, points: dict[Point, Point]) -> Outline:
    """The outline with every point replaced by what the table says."""
    return Outline(
        tuple(
            Side(points[s.start], points[s.end], tuple(points[p] for p in s.via))
            for s in outline.sides
        )
    )


def union_outline(tiling: Tiling, pieces: Iterable[str]) -> tuple[tuple[Point, ...], ...]:
    """The boundary loops of a unit made of these pieces, points on straight stretches removed.

    Clockwise loops go around parts of the unit (one if it hangs together), the others around holes. Exact:
    edges shared by two pieces cancel. Each loop starts at its top left point.
    """
    wanted = set(pieces)
    rim: set[tuple[Point, Point]] = set()
    for piece in tiling.pieces:
        if piece.id in wanted:
            points = tiling.noded.get(piece.id, piece.outline.points)
            for a, b in edges(points):
                if (b, a) in rim:
                    rim.remove((b, a))
                else:
                    rim.add((a, b))
    return tuple(without_straight_points(loop) for loop in trace_loops(rim))


def as_rectangle(points: Sequence[Point]) -> tuple[float, float] | None:
    """The (first side, second side) lengths if the closed outline is a rectangle, at any turn, else None."""
    corners = without_straight_points(points)
    if len(corners) != 4:
        return None
    a, b, c, d = corners
    if (
        math.dist(midpoint(a, c), midpoint(b, d)) > TOUCH
        or abs(math.dist(a, c) - math.dist(b, d)) > TOUCH
    ):
        return None
    return (math.dist(a, b), math.dist(b, c))
