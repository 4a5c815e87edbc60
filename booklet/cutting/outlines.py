"""Floor 7: cut outlines. A patch's outline with its allowance, as it is printed on a template."""

from __future__ import annotations

import math
from collections.abc import Sequence

from booklet.cutting.cutting_plan import CutOutline
from booklet.geometry import plane
from booklet.geometry.tiling import Outline
from booklet.kit.plane import Point, direction, dot, plus, turning
from booklet.measure import Length

SHARP = 60.0
"""Corners sharper than this (degrees) get their point trimmed. At 60 degrees the mitred point of an
allowance s stands 2 s beyond the matching point; sharper ones stand farther and only get in the way."""


def cut_outline(outline: Outline, allowance: Length) -> CutOutline:
    """The outline moved outwards by the allowance, its sharp points trimmed; inches, same frame.

    Straight sides are moved exactly and meet in mitres; curves are moved as chains of short edges. A
    point sharper than `SHARP` is cut off square to its bisector, one allowance beyond the matching point,
    so that the trimmed edges of two patches lie on each other when their matching points do.
    """
    by = float(allowance)
    corners = set(outline.corners)
    points = outline.points
    moved = plane.offset(points, by)
    if len(moved) != len(points):  # an inward corner too narrow for its allowance
        return CutOutline(outline, moved, False, outline.corners)
    made: list[Point] = []
    for index, corner in enumerate(points):
        before, after = points[index - 1], points[(index + 1) % len(points)]
        if corner in corners and 0 < inner_angle(before, corner, after) < SHARP - 1e-6:
            made.extend(_trimmed(before, corner, after, moved[index], by))
        else:
            made.append(moved[index])
    trimmed = len(made) != len(moved)
    return CutOutline(outline, tuple(made), trimmed, outline.corners)


def mitred(points: Sequence[Point], allowance: float) -> tuple[Point, ...]:
    """The outline moved outwards with full points: what rotary figures are reckoned from."""
    return plane.offset(points, allowance)


def inner_angle(before: Point, corner: Point, after: Point) -> float:
    """The angle inside a clockwise outline at `corner`, degrees in (0, 360)."""
    return 180.0 - turning(before, corner, after)


def _trimmed(
    before: Point, corner: Point, after: Point, tip: Point, by: float
) -> tuple[Point, Point]:
    """The two points that replace a sharp tip: where the moved sides pass `by` beyond the corner."""
    reach, out = math.dist(corner, tip), direction(corner, tip)

    def back_along(towards: Point) -> Point:
        way = direction(corner, towards)
        return plus(tip, way, (reach - by) / -dot(way, out))

    return back_along(before), back_along(after)
