"""Floor 7: cut outlines. A patch's outline with its allowance, as it is printed on a template."""

from __future__ import annotations

import math
from collections.abc import Sequence

from booklet.cutting.cutting_plan import CutOutline
from booklet.geometry import plane
from booklet.geometry.tiling import Outline
from booklet.kit.plane import Point
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
    into = (corner[0] - before[0], corner[1] - before[1])
    out = (after[0] - corner[0], after[1] - corner[1])
    cross = into[0] * out[1] - into[1] * out[0]
    dot = into[0] * out[0] + into[1] * out[1]
    return 180.0 - math.degrees(math.atan2(cross, dot))


def _trimmed(
    before: Point, corner: Point, after: Point, tip: Point, by: float
) -> tuple[Point, Point]:
    """The two points that replace a sharp tip: where the moved sides pass `by` beyond the corner."""
    reach = math.hypot(tip[0] - corner[0], tip[1] - corner[1])
    out = ((tip[0] - corner[0]) / reach, (tip[1] - corner[1]) / reach)

    def back_along(towards: Point) -> Point:
        length = math.hypot(towards[0] - corner[0], towards[1] - corner[1])
        way = ((towards[0] - corner[0]) / length, (towards[1] - corner[1]) / length)
        step = (reach - by) / -(way[0] * out[0] + way[1] * out[1])
        return (tip[0] + way[0] * step, tip[1] + way[1] * step)

    return back_along(before), back_along(after)
