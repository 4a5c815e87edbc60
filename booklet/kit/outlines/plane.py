"""Floor 0: sums with points, directions, lines and boxes. x runs right, y down.

Angles are degrees clockwise from straight up. No outside library; every function returns new values. What a
length is in (inches of cloth, millimetres of paper) is the caller's affair.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple

from booklet.kit.outlines.near import DRAWN, NO_LENGTH, NOISE, NOTHING, ONE_POINT, WHOLE

Point = tuple[float, float]
Box = tuple[float, float, float, float]  # left, top, right, bottom

ORIGIN: Point = (0.0, 0.0)
_ROOT_2, _ROOT_3, _ROOT_6 = math.sqrt(2), math.sqrt(3), math.sqrt(6)
# cosines of 0, 15, … 90 degrees in closed form
_COSINES = (
    1.0, (_ROOT_6 + _ROOT_2) / 4, _ROOT_3 / 2, _ROOT_2 / 2, 0.5, (_ROOT_6 - _ROOT_2) / 4, 0.0,
)  # fmt: skip


@lru_cache(maxsize=1024)
def cosine(degrees: float) -> float:
    """The cosine; multiples of 15 degrees from closed forms, so that opposite angles agree exactly."""
    steps = degrees / 15
    if abs(steps - round(steps)) > NOTHING:
        return math.cos(math.radians(degrees))
    step = round(steps) % 24
    if step > 12:
        step = 24 - step
    return _COSINES[step] if step <= 6 else -_COSINES[12 - step]


def sine(degrees: float) -> float:
    """The sine; multiples of 15 degrees from closed forms."""
    return cosine(degrees - 90)


def plus(a: Point, b: Point, times: float = 1.0) -> Point:
    """a + b · times."""
    return (a[0] + b[0] * times, a[1] + b[1] * times)


def minus(a: Point, b: Point) -> Point:
    """The vector from b to a."""
    return (a[0] - b[0], a[1] - b[1])


def dot(a: Point, b: Point) -> float:
    """The scalar product."""
    return a[0] * b[0] + a[1] * b[1]


def cross(a: Point, b: Point) -> float:
    """Positive where b lies clockwise of a on the page."""
    return a[0] * b[1] - a[1] * b[0]


def same_place(a: Point, b: Point) -> bool:
    """Whether two points are one as an author writes them, rounded to three decimals."""
    return abs(a[0] - b[0]) <= DRAWN and abs(a[1] - b[1]) <= DRAWN


def midpoint(a: Point, b: Point) -> Point:
    """The point half way between two."""
    return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)


def mean(points: Sequence[Point]) -> Point:
    """The mean of at least one point."""
    return (sum(p[0] for p in points) / len(points), sum(p[1] for p in points) / len(points))


def turn_point(point: Point, degrees: float, about: Point = ORIGIN) -> Point:
    """`point` turned clockwise on the page about a centre; quarter turns about the origin are exact."""
    c, s = cosine(degrees), sine(degrees)
    x, y = point[0] - about[0], point[1] - about[1]
    return (about[0] + x * c - y * s, about[1] + x * s + y * c)


def direction(a: Point, b: Point) -> Point:
    """The unit vector from a to b; (0, 0) where they are one point."""
    length = math.dist(a, b)
    return ((b[0] - a[0]) / length, (b[1] - a[1]) / length) if length > NO_LENGTH else (0.0, 0.0)


def unit(a: Point) -> Point:
    """The vector of length 1 that way; (0, 0) for none."""
    return direction(ORIGIN, a)


def right_of(d: Point) -> Point:
    """The unit vector to the right hand of direction d, as seen on the page."""
    return (-d[1], d[0])


def vector(angle: float) -> Point:
    """The unit vector `angle` degrees clockwise from straight up."""
    return (sine(angle), -cosine(angle))


def bearing(d: Point) -> float:
    """The degrees clockwise from straight up of a direction, 0 to 360."""
    return math.degrees(math.atan2(d[0], -d[1])) % 360


def angle_up(start: Point, end: Point) -> float:
    """The direction from start to end, degrees clockwise from straight up, in [0, 360)."""
    return tidy_angle(bearing(minus(end, start)))


def tidy_angle(degrees: float, full: float = 360.0) -> float:
    """An angle in [0, full), with float noise near whole thousandths taken away."""
    near = round(degrees, 3)
    value = (near if abs(near - degrees) < WHOLE else degrees) % full
    return 0.0 if full - value < NOISE else value


def turning(a: Point, b: Point, c: Point) -> float:
    """The change of direction at b on the way a, b, c: degrees, positive to the right, (-180, 180]."""
    first, second = minus(b, a), minus(c, b)
    return math.degrees(math.atan2(cross(first, second), dot(first, second)))


INWARD = 20.0  # degrees: a corner that turns in so far wants a clip in its allowance


def inward_corners(outline: Sequence[Point]) -> dict[Point, float]:
    """The corners at which a clockwise outline turns inward, each with the way out of it between its sides: degrees clockwise
    from up."""
    around = zip((outline[-1], *outline), outline, (*outline[1:], outline[0]), strict=False)
    return {
        b: bearing(minus(direction(b, c), direction(a, b)))
        for a, b, c in around
        if turning(a, b, c) < -INWARD
    }


def off_line(point: Point, a: Point, b: Point) -> float:
    """The distance of a point from the line through a and b (from a, if they are one)."""
    dx, dy = minus(b, a)
    length = math.hypot(dx, dy)
    if length == 0:
        return math.dist(point, a)
    return abs(dx * (point[1] - a[1]) - dy * (point[0] - a[0])) / length


def is_straight(a: Point, b: Point, c: Point) -> bool:
    """Whether a, b, c go straight on: b lies on the line from a to c, between them."""
    return off_line(b, a, c) <= ONE_POINT and dot(minus(b, a), minus(c, b)) > 0


def to_segment(p: Point, a: Point, b: Point) -> float:
    """The distance of p from the segment a b. Written out, for it is asked very often."""
    ax, ay = a
    x, y = p
    dx, dy = b[0] - ax, b[1] - ay
    square = dx * dx + dy * dy
    if square < NO_LENGTH * NO_LENGTH:
        return math.hypot(x - ax, y - ay)
    t = ((x - ax) * dx + (y - ay) * dy) / square
    t = 0.0 if t < 0.0 else 1.0 if t > 1.0 else t
    return math.hypot(x - (ax + dx * t), y - (ay + dy * t))


def meet(p: Point, d: Point, q: Point, e: Point) -> Point | None:
    """Where the line through p along d meets the line through q along e; None if parallel."""
    fall = cross(d, e)
    if abs(fall) < NOISE:
        return None
    return plus(p, d, cross(minus(q, p), e) / fall)


def length_of(points: Sequence[Point]) -> float:
    """The length of an open line of points."""
    return sum(math.dist(a, b) for a, b in itertools.pairwise(points))


def middle(points: Sequence[Point]) -> Point:
    """The point half way along a line."""
    half = length_of(points) / 2
    for a, b in itertools.pairwise(points):
        step = math.dist(a, b)
        if step >= half and step > 0:
            return plus(a, direction(a, b), half)
        half -= step
    return points[-1]


class Frame(NamedTuple):
    """An upright rectangle by its top left corner, width and height."""

    left: float
    top: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """Where its right side lies."""
        return self.left + self.width

    @property
    def bottom(self) -> float:
        """Where its lower side lies."""
        return self.top + self.height


def frame_of(points: Iterable[Point]) -> Frame:
    """The smallest upright rectangle around at least one point."""
    left, top, right, bottom = box_of(points)
    return Frame(left, top, right - left, bottom - top)


def shifted(points: Iterable[Point], by: Point) -> tuple[Point, ...]:
    """The points moved by a vector."""
    dx, dy = by
    return tuple((x + dx, y + dy) for x, y in points)


def rectangle(x: float, y: float, width: float, height: float) -> tuple[Point, ...]:
    """The corners of an upright rectangle, clockwise from its top left at (x, y)."""
    return ((x, y), (x + width, y), (x + width, y + height), (x, y + height))


def corners(box: Box) -> tuple[Point, ...]:
    """The corners of a box, clockwise from the top left."""
    left, top, right, bottom = box
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def circle_through(points: Sequence[Point]) -> tuple[Point, float] | None:
    """Centre and radius of the circle on which all the points lie, or None."""
    if len(points) < 4:
        return None
    (ax, ay), (bx, by), (cx, cy) = points[0], points[len(points) // 2], points[-1]
    if math.dist(points[0], points[-1]) < ONE_POINT:  # a whole turn ends where it begins
        cx, cy = points[len(points) // 4]
    double = 2 * (ax * (by - cy) + bx * (cy - ay) + cx * (ay - by))
    if abs(double) < NOISE:
        return None
    a, b, c = ax * ax + ay * ay, bx * bx + by * by, cx * cx + cy * cy
    centre = (
        (a * (by - cy) + b * (cy - ay) + c * (ay - by)) / double,
        (a * (cx - bx) + b * (ax - cx) + c * (bx - ax)) / double,
    )
    radius = math.dist(centre, points[0])
    return (
        (centre, radius)
        if all(abs(math.dist(centre, p) - radius) < ONE_POINT for p in points)
        else None
    )


def box_of(points: Iterable[Point]) -> Box:
    """The bounding box of at least one point."""
    xs, ys = zip(*points, strict=True)
    return (min(xs), min(ys), max(xs), max(ys))


def extent(points: Iterable[Point]) -> tuple[float, float]:
    """The width and height of the bounding box of at least one point."""
    left, top, right, bottom = box_of(points)
    return (right - left, bottom - top)


def around(boxes: Iterable[Box]) -> Box:
    """The box about several boxes."""
    lefts, tops, rights, bottoms = zip(*boxes, strict=True)
    return (min(lefts), min(tops), max(rights), max(bottoms))


class Boxes:
    """Many boxes, kept by the cells in which they lie, to find those about a place without asking all."""

    def __init__(self, boxes: Sequence[Box]) -> None:
        self._boxes = boxes
        sides = [max(right - left, bottom - top) for left, top, right, bottom in boxes]
        self._side = sum(sides) / len(sides) if any(sides) else 1.0
        self._cells: dict[tuple[int, int], list[int]] = {}
        for n, box in enumerate(boxes):
            for cell in self._within(box):
                self._cells.setdefault(cell, []).append(n)

    def overlapping(self, box: Box) -> list[int]:
        """The places, in order, of the boxes that share any area with one."""
        found = {n for cell in self._within(box) for n in self._cells.get(cell, ())}
        return sorted(n for n in found if overlap(self._boxes[n], box))

    def _within(self, box: Box) -> Iterator[tuple[int, int]]:
        left, top, right, bottom = (math.floor(value / self._side) for value in box)
        return itertools.product(range(left, right + 1), range(top, bottom + 1))


def overlap(a: Box, b: Box) -> bool:
    """Whether two boxes share any area."""
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
