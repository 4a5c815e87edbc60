"""Floor 3: sums with points and outlines. Angles are degrees clockwise from straight up; y runs down.

No outside library; every function returns new values. Lengths are inches.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterable, Sequence

from booklet.geometry.loops import trace_loops
from booklet.geometry.tiling import Outline, Point, Side, Tiling

EPSILON = 1e-6  # inches: nearer points are one point
ORIGIN: Point = (0.0, 0.0)
_ROOT_2, _ROOT_3, _ROOT_6 = math.sqrt(2), math.sqrt(3), math.sqrt(6)
# cosines of 0, 15, … 90 degrees in closed form
_COSINES = (
    1.0, (_ROOT_6 + _ROOT_2) / 4, _ROOT_3 / 2, _ROOT_2 / 2, 0.5, (_ROOT_6 - _ROOT_2) / 4, 0.0,
)  # fmt: skip


def cosine(degrees: float) -> float:
    """The cosine; multiples of 15 degrees from closed forms, so that opposite angles agree exactly."""
    steps = degrees / 15
    if abs(steps - round(steps)) > 1e-12:
        return math.cos(math.radians(degrees))
    step = round(steps) % 24
    if step > 12:
        step = 24 - step
    return _COSINES[step] if step <= 6 else -_COSINES[12 - step]


def sine(degrees: float) -> float:
    """The sine; multiples of 15 degrees from closed forms."""
    return cosine(degrees - 90)


def turn_point(point: Point, degrees: float, about: Point = ORIGIN) -> Point:
    """`point` turned clockwise on the page about a centre."""
    c, s = cosine(degrees), sine(degrees)
    x, y = point[0] - about[0], point[1] - about[1]
    return (about[0] + x * c - y * s, about[1] + x * s + y * c)


def shift_point(point: Point, by: Point) -> Point:
    """`point` moved by a vector."""
    return (point[0] + by[0], point[1] + by[1])


def minus(a: Point, b: Point) -> Point:
    """The vector from b to a."""
    return (a[0] - b[0], a[1] - b[1])


def midpoint(a: Point, b: Point) -> Point:
    """The point half way between two."""
    return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)


def distance(a: Point, b: Point) -> float:
    """The distance of two points."""
    return math.hypot(a[0] - b[0], a[1] - b[1])


def angle_up(start: Point, end: Point) -> float:
    """The direction from start to end, degrees clockwise from straight up, in [0, 360)."""
    degrees = math.degrees(math.atan2(end[0] - start[0], start[1] - end[1]))
    return tidy_angle(degrees)


def tidy_angle(degrees: float, full: float = 360.0) -> float:
    """An angle in [0, full), with float noise near whole thousandths taken away."""
    near = round(degrees, 3)
    value = (near if abs(near - degrees) < 1e-6 else degrees) % full
    return 0.0 if full - value < 1e-9 else value


def turning(a: Point, b: Point, c: Point) -> float:
    """The change of direction at b on the way a, b, c: degrees, positive to the right, (-180, 180]."""
    first, second = minus(b, a), minus(c, b)
    cross = first[0] * second[1] - first[1] * second[0]
    dot = first[0] * second[0] + first[1] * second[1]
    return math.degrees(math.atan2(cross, dot))


def off_line(point: Point, a: Point, b: Point) -> float:
    """The distance of a point from the line through a and b (from a, if they are one)."""
    dx, dy = minus(b, a)
    length = math.hypot(dx, dy)
    if length == 0:
        return distance(point, a)
    return abs(dx * (point[1] - a[1]) - dy * (point[0] - a[0])) / length


def is_straight(a: Point, b: Point, c: Point, tolerance: float = EPSILON) -> bool:
    """Whether a, b, c go straight on: b lies on the line from a to c, within the tolerance, between them."""
    if off_line(b, a, c) > tolerance:
        return False
    return (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1]) > 0


def polygon_area(points: Sequence[Point]) -> float:
    """The area by the shoelace formula: positive where the points run clockwise on the page."""
    total = 0.0
    ox, oy = points[0]
    for (ax, ay), (bx, by) in zip(points, (*points[1:], points[0]), strict=True):
        total += (ax - ox) * (by - oy) - (bx - ox) * (ay - oy)
    return total / 2


def path_length(points: Sequence[Point]) -> float:
    """The length of an open path."""
    return sum(distance(a, b) for a, b in itertools.pairwise(points))


def bounding_box(points: Iterable[Point]) -> tuple[float, float, float, float]:
    """(left, top, right, bottom)."""
    listed = list(points)
    xs, ys = [p[0] for p in listed], [p[1] for p in listed]
    return (min(xs), min(ys), max(xs), max(ys))


def without_straight_points(points: Sequence[Point]) -> tuple[Point, ...]:
    """A closed outline without the points at which it goes straight on."""
    kept = list(points)
    i = 0
    while len(kept) > 3 and i < len(kept):
        if is_straight(kept[i - 1], kept[i], kept[(i + 1) % len(kept)]):
            del kept[i]
            i = max(i - 1, 0)
        else:
            i += 1
    return tuple(kept)


def outline_of(corners: Sequence[Point]) -> Outline:
    """The straight-sided outline of corners in order."""
    return Outline(
        tuple(Side(a, b) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True))
    )


def turned(outline: Outline, degrees: float, about: Point = ORIGIN) -> Outline:
    """The outline turned clockwise about a point."""
    if degrees % 360 == 0:
        return outline
    return _mapped(outline, lambda p: turn_point(p, degrees, about))


def shifted(outline: Outline, by: Point) -> Outline:
    """The outline moved by a vector."""
    return _mapped(outline, lambda p: shift_point(p, by))


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
    edges: set[tuple[Point, Point]] = set()
    for piece in tiling.pieces:
        if piece.id in wanted:
            points = tiling.noded.get(piece.id, piece.outline.points)
            for a, b in zip(points, (*points[1:], points[0]), strict=True):
                if (b, a) in edges:
                    edges.remove((b, a))
                else:
                    edges.add((a, b))
    return tuple(without_straight_points(loop) for loop in trace_loops(edges))


def as_rectangle(points: Sequence[Point]) -> tuple[float, float] | None:
    """The (first side, second side) lengths if the closed outline is a rectangle, at any turn, else None."""
    corners = without_straight_points(points)
    if len(corners) != 4:
        return None
    a, b, c, d = corners
    if (
        distance(midpoint(a, c), midpoint(b, d)) > 1e-5
        or abs(distance(a, c) - distance(b, d)) > 1e-5
    ):
        return None
    return (distance(a, b), distance(b, c))
