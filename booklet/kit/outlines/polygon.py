"""Floor 0: sums with closed outlines, given as points without the first repeated, clockwise on the page.

Walking a clockwise outline, its inside lies on the right hand.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Callable, Sequence
from functools import lru_cache

from booklet.kit.outlines.near import NO_LENGTH, NOISE, SAME_LENGTH
from booklet.kit.outlines.plane import (
    Box,
    Point,
    box_of,
    cross,
    direction,
    dot,
    is_straight,
    mean,
    meet,
    minus,
    plus,
    right_of,
    shifted,
    to_segment,
    turn_point,
)


def area_of(points: Sequence[Point]) -> float:
    """The area by the shoelace formula: positive where the points run clockwise on the page."""
    total = 0.0
    ox, oy = points[0]  # from a point of its own: far from the origin nothing is lost
    for (ax, ay), (bx, by) in edges(points):
        total += (ax - ox) * (by - oy) - (bx - ox) * (ay - oy)
    return total / 2


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


def laid(points: Sequence[Point], direction: float) -> tuple[Point, ...]:
    """The outline turned so that `direction` runs to the right, as along a strip, at the origin."""
    return at_origin([turn_point(point, 90.0 - direction) for point in points])


def at_origin(points: Sequence[Point]) -> tuple[Point, ...]:
    """The outline moved so that its bounding box starts at (0, 0)."""
    left, top, _, _ = box_of(points)
    return shifted(points, (-left, -top))


def mirrored(points: Sequence[Point]) -> tuple[Point, ...]:
    """The outline mirrored left-right at the origin, still clockwise."""
    return at_origin([(-x, y) for x, y in reversed(points)])


def half_turned(points: Sequence[Point]) -> tuple[Point, ...]:
    """The outline turned by 180 degrees, at the origin."""
    return at_origin([(-x, -y) for x, y in points])


def slants(points: Sequence[Point]) -> bool:
    """Whether no side of an outline is level or upright."""
    sides = edges(points)
    return all(min(abs(bx - ax), abs(by - ay)) > SAME_LENGTH for (ax, ay), (bx, by) in sides)


def crosses(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether the segments a b and c d cross each other."""
    along, other = (b[0] - a[0], b[1] - a[1]), (d[0] - c[0], d[1] - c[1])
    sides = [cross(along, (p[0] - a[0], p[1] - a[1])) for p in (c, d)]
    ends = [cross(other, (p[0] - c[0], p[1] - c[1])) for p in (a, b)]
    return sides[0] * sides[1] < 0 and ends[0] * ends[1] < 0


def to_box(box: Box, a: Point, b: Point) -> float:
    """The distance of the segment a b from a box; 0 where they meet: no line along a side of the box, nor along the
    segment, then lies between them."""
    left, top, right, bottom = box
    corners = ((left, top), (right, top), (right, bottom), (left, bottom))
    (ax, ay), (bx, by) = a, b
    if (
        min(ax, bx) <= right
        and left <= max(ax, bx)
        and min(ay, by) <= bottom
        and top <= max(ay, by)
    ):
        sides = [(bx - ax) * (y - ay) - (by - ay) * (x - ax) for x, y in corners]
        if min(sides) <= 0 <= max(sides):
            return 0.0
    ends = (point_to_box(box, end) for end in (a, b))
    return min(*ends, *(to_segment(corner, a, b) for corner in corners))


def point_to_box(box: Box, p: Point) -> float:
    """The distance of a point from a box; 0 in it."""
    (left, top, right, bottom), (x, y) = box, p
    return math.hypot(max(left - x, 0.0, x - right), max(top - y, 0.0, y - bottom))


def edges(points: Sequence[Point]) -> list[tuple[Point, Point]]:
    """The edges of a closed outline."""
    return list(zip(points, (*points[1:], points[0]), strict=True))


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
    within, least, short = False, math.inf, NO_LENGTH * NO_LENGTH
    ax, ay = points[-1]
    for bx, by in points:
        dx, dy = bx - ax, by - ay
        square = dx * dx + dy * dy
        t = ((x - ax) * dx + (y - ay) * dy) / square if square > short else 0.0
        t = 0.0 if t < 0.0 else 1.0 if t > 1.0 else t
        ex, ey = x - ax - t * dx, y - ay - t * dy
        near = ex * ex + ey * ey
        if near < least:
            least = near
        if (ay > y) != (by > y) and x < ax + (y - ay) * dx / dy:
            within = not within
        ax, ay = bx, by
    return math.sqrt(least) if within else -math.sqrt(least)


def best_place(
    box: Box,
    cells: int,
    most: Callable[[Point], float],
    worth: Callable[[Point, float], float],
    least: float = -math.inf,
) -> tuple[Point, float]:
    """The first of the best places within a box, of a grid that cuts it into so many columns and rows, and what it
    is worth; where none is worth `least`, any, and less than that. `most` is at least what a place is worth, and cheap; `worth`
    may give any figure up to its second value for a place that is worth no more than that."""
    left, top, right, bottom = box
    xs = [left + (right - left) * i / cells for i in range(1, cells)]
    ys = [top + (bottom - top) * j / cells for j in range(1, cells)]
    grid = [(x, y) for x in xs for y in ys]
    bounds = [most(at) for at in grid]
    good = [n for n, bound in enumerate(bounds) if bound >= least - 2 * NOISE]
    best, found = -math.inf, dict[int, float]()
    for n in sorted(good, key=bounds.__getitem__, reverse=True):
        enough = max(best, least) - 2 * NOISE
        if bounds[n] < enough:
            break  # none of the others is as good
        found[n] = worth(grid[n], enough)
        best = max(best, found[n])
    if best < least:
        return grid[0], -math.inf
    first = next(n for n in sorted(found) if found[n] >= best - NOISE)
    return grid[first], found[first]


def roomiest(points: Sequence[Point]) -> tuple[Point, float]:
    """The point of an outline farthest from its edges, and that distance: where a letter fits best.

    Where the centre of area is nearly as good it is taken, for it looks right.
    """
    x, y = points[0]
    at, room = _roomiest(tuple([(round(px - x, 4), round(py - y, 4)) for px, py in points]))
    return (at[0] + x, at[1] + y), room


@lru_cache(maxsize=4096)
def _roomiest(points: tuple[Point, ...]) -> tuple[Point, float]:
    """The roomiest point: squares that may hold a better one are quartered until none can be better
    by 2 percent. Outlines that are alike are worked out once."""
    left, top, right, bottom = box_of(points)
    size = max(min(right - left, bottom - top), NO_LENGTH)
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
    if abs(total) < NO_LENGTH:
        return mean(points)
    x = sum((a[0] + b[0]) * cross(a, b) for a, b in edges(points)) / (6 * total)
    y = sum((a[1] + b[1]) * cross(a, b) for a, b in edges(points)) / (6 * total)
    return x, y


def widened(points: Sequence[Point], by: float) -> tuple[Point, ...]:
    """A clockwise outline moved outward by `by`; corners sharper than 60 degrees are cut off."""
    result: list[Point] = []
    corners = without_straight_points(points)
    count = len(corners)
    for i, corner in enumerate(corners):
        d = direction(corners[i - 1], corner)
        e = direction(corner, corners[(i + 1) % count])
        one, two = plus(corner, right_of(d), -by), plus(corner, right_of(e), -by)
        tip = meet(one, d, two, e)
        if tip is None:
            result.append(one)
        elif math.dist(tip, corner) <= 2 * by + NO_LENGTH:
            result.append(tip)
        else:
            out = direction(corner, tip)
            cut = plus(corner, out, 2 * by)
            ends = (meet(one, d, cut, right_of(out)), meet(two, e, cut, right_of(out)))
            result.extend(end for end in ends if end is not None)
    return tuple(result)


def mitred(points: Sequence[Point], by: float) -> tuple[Point, ...]:
    """A clockwise outline of straight sides moved outward by `by`, every corner to its full point."""
    corners = without_straight_points(points)
    found: list[Point] = []
    for i, corner in enumerate(corners):
        d, e = direction(corners[i - 1], corner), direction(corner, corners[(i + 1) % len(corners)])
        one, two = plus(corner, right_of(d), -by), plus(corner, right_of(e), -by)
        found.append(meet(one, d, two, e) or one)
    return tuple(found)


def half_plane(points: Sequence[Point], at: Point, inward: Point) -> tuple[Point, ...]:
    """The part of a convex outline on the side of the line through `at` to which `inward` points."""
    result: list[Point] = []
    for a, b in edges(points):
        da = dot(minus(a, at), inward)
        db = dot(minus(b, at), inward)
        if da >= -NO_LENGTH:
            result.append(a)
        if (da > NO_LENGTH and db < -NO_LENGTH) or (da < -NO_LENGTH and db > NO_LENGTH):
            result.append(plus(a, minus(b, a), da / (da - db)))
    return tuple(result)
