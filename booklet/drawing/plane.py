"""Floor 10: small sums in the plane of the paper. x to the right, y down, outlines clockwise.

Walking a clockwise outline, its inside lies on the right hand.
"""

from __future__ import annotations

import heapq
import itertools
import math
from collections.abc import Iterable, Sequence
from functools import lru_cache

from booklet.drawing.scene import Point

Box = tuple[float, float, float, float]  # left, top, right, bottom
EPS = 1e-7


def plus(a: Point, b: Point, times: float = 1.0) -> Point:
    """a + b · times."""
    return a[0] + b[0] * times, a[1] + b[1] * times


def dot(a: Point, b: Point) -> float:
    """The scalar product."""
    return a[0] * b[0] + a[1] * b[1]


def cross(a: Point, b: Point) -> float:
    """Positive where b lies clockwise of a on the page."""
    return a[0] * b[1] - a[1] * b[0]


def direction(a: Point, b: Point) -> Point:
    """The unit vector from a to b; (0, 0) where they are one point."""
    length = math.dist(a, b)
    return ((b[0] - a[0]) / length, (b[1] - a[1]) / length) if length > EPS else (0.0, 0.0)


def unit(a: Point) -> Point:
    """The vector of length 1 that way; (0, 0) for none."""
    return direction((0.0, 0.0), a)


def right_of(d: Point) -> Point:
    """The unit vector to the right hand of direction d, as seen on the page."""
    return -d[1], d[0]


def vector(angle: float) -> Point:
    """The unit vector `angle` degrees clockwise from straight up."""
    turn = math.radians(angle)
    return math.sin(turn), -math.cos(turn)


def bearing(d: Point) -> float:
    """The degrees clockwise from straight up of a direction, 0 to 360."""
    return math.degrees(math.atan2(d[0], -d[1])) % 360


def turned(p: Point, angle: float) -> Point:
    """The point turned clockwise about the origin."""
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    return p[0] * c - p[1] * s, p[0] * s + p[1] * c


def middle(points: Sequence[Point]) -> Point:
    """The point half way along a line."""
    half = length_of(points) / 2
    for a, b in itertools.pairwise(points):
        step = math.dist(a, b)
        if step >= half and step > 0:
            return plus(a, direction(a, b), half)
        half -= step
    return points[-1]


def length_of(points: Sequence[Point]) -> float:
    """The length of a line."""
    return sum(math.dist(a, b) for a, b in itertools.pairwise(points))


def box_of(points: Iterable[Point]) -> Box:
    """The bounding box of at least one point."""
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def around(boxes: Iterable[Box]) -> Box:
    """The box about several boxes."""
    lefts, tops, rights, bottoms = zip(*boxes, strict=True)
    return min(lefts), min(tops), max(rights), max(bottoms)


def overlap(a: Box, b: Box) -> bool:
    """Whether two boxes share any area."""
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def area_of(points: Sequence[Point]) -> float:
    """The signed area: positive for a clockwise outline on the page."""
    return sum(cross(a, b) for a, b in zip(points, [*points[1:], points[0]], strict=True)) / 2


def to_segment(p: Point, a: Point, b: Point) -> float:
    """The distance of p from the segment a b."""
    along = (b[0] - a[0], b[1] - a[1])
    square = dot(along, along)
    if square < EPS * EPS:
        return math.dist(p, a)
    t = min(max(dot((p[0] - a[0], p[1] - a[1]), along) / square, 0.0), 1.0)
    return math.dist(p, plus(a, along, t))


def edges(points: Sequence[Point]) -> list[tuple[Point, Point]]:
    """The edges of a closed outline."""
    return list(zip(points, [*points[1:], points[0]], strict=True))


def inside(p: Point, points: Sequence[Point]) -> bool:
    """Whether p lies inside a closed outline (even-odd)."""
    hit = False
    for a, b in edges(points):
        if (a[1] > p[1]) != (b[1] > p[1]) and p[0] < a[0] + (p[1] - a[1]) * (b[0] - a[0]) / (
            b[1] - a[1]
        ):
            hit = not hit
    return hit


def depth(p: Point, points: Sequence[Point]) -> float:
    """How deep p lies inside an outline; negative outside. Written out, for it is asked very often."""
    x, y = p
    within, least = False, math.inf
    ax, ay = points[-1]
    for bx, by in points:
        dx, dy = bx - ax, by - ay
        square = dx * dx + dy * dy
        t = ((x - ax) * dx + (y - ay) * dy) / square if square > 1e-14 else 0.0
        t = 0.0 if t < 0.0 else 1.0 if t > 1.0 else t
        ex, ey = x - ax - t * dx, y - ay - t * dy
        near = ex * ex + ey * ey
        if near < least:
            least = near
        if (ay > y) != (by > y) and x < ax + (y - ay) * dx / dy:
            within = not within
        ax, ay = bx, by
    return math.sqrt(least) if within else -math.sqrt(least)


def roomiest(points: Sequence[Point]) -> tuple[Point, float]:
    """The point of an outline farthest from its edges, and that distance: where a letter fits best.

    Where the centre of area is nearly as good it is taken, for it looks right.
    """
    x, y = points[0]
    at, room = _roomiest(tuple((round(px - x, 4), round(py - y, 4)) for px, py in points))
    return (at[0] + x, at[1] + y), room


@lru_cache(maxsize=4096)
def _roomiest(points: tuple[Point, ...]) -> tuple[Point, float]:
    """The roomiest point: squares that may hold a better one are quartered until none can be better
    by 2 percent. Outlines that are alike are worked out once."""
    left, top, right, bottom = box_of(points)
    size = max(min(right - left, bottom - top), EPS)
    centre = centroid(points)
    at_centre = depth(centre, points)
    best, best_at = at_centre, centre
    queue: list[tuple[float, float, float, float]] = []

    def add(x: float, y: float, half: float) -> None:
        nonlocal best, best_at
        d = depth((x, y), points)
        if d > best:
            best, best_at = d, (x, y)
        reach = d + half * math.sqrt(2)
        if reach > best + size * 0.02:
            heapq.heappush(queue, (-reach, x, y, half))

    half = size / 2
    for column in range(min(max(1, math.ceil((right - left) / size)), 12)):
        for row in range(min(max(1, math.ceil((bottom - top) / size)), 12)):
            add(left + half + column * size, top + half + row * size, half)
    while queue:
        reach, x, y, half = heapq.heappop(queue)
        if -reach <= best + size * 0.02 or 0.8 * -reach <= at_centre:
            break  # nothing can be much better, or nothing so much better that the centre gives way
        for dx in (-half / 2, half / 2):
            for dy in (-half / 2, half / 2):
                add(x + dx, y + dy, half / 2)
    return (centre, at_centre) if at_centre >= 0.8 * best else (best_at, best)


def centroid(points: Sequence[Point]) -> Point:
    """The centre of area of an outline; the mean of its corners where it has none."""
    total = area_of(points)
    if abs(total) < EPS:
        count = len(points)
        return sum(p[0] for p in points) / count, sum(p[1] for p in points) / count
    x = sum((a[0] + b[0]) * cross(a, b) for a, b in edges(points)) / (6 * total)
    y = sum((a[1] + b[1]) * cross(a, b) for a, b in edges(points)) / (6 * total)
    return x, y


def plain(points: Sequence[Point]) -> tuple[Point, ...]:
    """An outline without the corners at which it goes straight on."""
    kept = [
        p
        for before, p, after in zip(
            [points[-1], *points[:-1]], points, [*points[1:], points[0]], strict=True
        )
        if abs(cross(direction(before, p), direction(p, after))) > 1e-6
        or dot(direction(before, p), direction(p, after)) < 0
    ]
    return tuple(kept) if len(kept) > 2 else tuple(points)


def meet(p: Point, d: Point, q: Point, e: Point) -> Point | None:
    """Where the line through p along d meets the line through q along e; None if parallel."""
    fall = cross(d, e)
    if abs(fall) < 1e-9:
        return None
    return plus(p, d, cross((q[0] - p[0], q[1] - p[1]), e) / fall)


def widened(points: Sequence[Point], by: float) -> tuple[Point, ...]:
    """A clockwise outline moved outward by `by`; corners sharper than 60 degrees are cut off."""
    result: list[Point] = []
    corners = plain(points)
    count = len(corners)
    for i, corner in enumerate(corners):
        d = direction(corners[i - 1], corner)
        e = direction(corner, corners[(i + 1) % count])
        one, two = plus(corner, right_of(d), -by), plus(corner, right_of(e), -by)
        tip = meet(one, d, two, e)
        if tip is None:
            result.append(one)
        elif math.dist(tip, corner) <= 2 * by + EPS:
            result.append(tip)
        else:
            out = direction(corner, tip)
            cut = plus(corner, out, 2 * by)
            ends = (meet(one, d, cut, right_of(out)), meet(two, e, cut, right_of(out)))
            result.extend(end for end in ends if end is not None)
    return tuple(result)


def half_plane(points: Sequence[Point], at: Point, inward: Point) -> tuple[Point, ...]:
    """The part of a convex outline on the side of the line through `at` to which `inward` points."""
    result: list[Point] = []
    for a, b in edges(points):
        da = dot((a[0] - at[0], a[1] - at[1]), inward)
        db = dot((b[0] - at[0], b[1] - at[1]), inward)
        if da >= -EPS:
            result.append(a)
        if (da > EPS and db < -EPS) or (da < -EPS and db > EPS):
            result.append(plus(a, (b[0] - a[0], b[1] - a[1]), da / (da - db)))
    return tuple(result)
