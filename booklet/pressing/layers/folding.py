"""Floor 5: folding flat cloth. Convex polygons are cut by lines, and parts of them reflected."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.kit.outlines.near import NOISE
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record

Polygon = tuple[Point, ...]


class HalfPlane(Record):
    """The points on the right hand of somebody at `at` who looks along `along` (a unit direction),
    as seen on the page."""

    at: Point
    along: Point

    def depth(self, point: Point) -> float:
        """How far a point lies inside; negative outside."""
        x, y = point[0] - self.at[0], point[1] - self.at[1]
        return self.along[0] * y - self.along[1] * x

    def mirror(self, point: Point) -> Point:
        """The point reflected in the border line."""
        depth = 2 * self.depth(point)
        return (point[0] + self.along[1] * depth, point[1] - self.along[0] * depth)

    @property
    def other(self) -> HalfPlane:
        """The half plane on the other side of the border."""
        return HalfPlane(self.at, (-self.along[0], -self.along[1]))


def between(start: Point, end: Point) -> HalfPlane:
    """The half plane on the right hand of a walk from start to end."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = (dx * dx + dy * dy) ** 0.5
    return HalfPlane(start, (dx / length, dy / length))


def cut(polygon: Polygon, plane: HalfPlane) -> tuple[Polygon | None, Polygon | None]:
    """(the part of a convex polygon inside a half plane, the part outside); None for no part."""
    depths = [plane.depth(point) for point in polygon]
    if min(depths) >= -NOISE:
        return polygon, None
    if max(depths) <= NOISE:
        return None, polygon
    inside: list[Point] = []
    outside: list[Point] = []
    for k, (point, depth) in enumerate(zip(polygon, depths, strict=True)):
        before, depth_before = polygon[k - 1], depths[k - 1]
        if depth * depth_before < 0:
            share = depth_before / (depth_before - depth)
            crossing = (
                before[0] + (point[0] - before[0]) * share,
                before[1] + (point[1] - before[1]) * share,
            )
            inside.append(crossing)
            outside.append(crossing)
        if depth >= 0:
            inside.append(point)
        if depth <= 0:
            outside.append(point)
    return tuple(inside), tuple(outside)


def fold(
    cloth: Sequence[Polygon], line: HalfPlane, within: Sequence[HalfPlane] = ()
) -> list[Polygon]:
    """Convex polygons once all that lies inside `line`, and inside all of `within`, is reflected in
    the border of `line`."""
    folded: list[Polygon] = []
    for polygon in cloth:
        moving: Polygon | None = polygon
        staying: list[Polygon] = []
        for plane in (line, *within):
            if moving is not None:
                moving, left = cut(moving, plane)
                staying += [left] if left is not None else []
        if moving is None:
            folded.append(polygon)  # as it was, not in pieces
        else:
            folded += [*staying, tuple(line.mirror(point) for point in moving)]
    return folded
