"""Floor 7: cut outlines. A patch's outline with its allowance, as it is printed on a template."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.cutting.cutting_plan import CutOutline
from booklet.geometry import plane
from booklet.geometry.tiling import Outline
from booklet.kit.plane import Point, turning
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
    cut, trimmed = grown(outline.points, float(allowance))
    return CutOutline(outline, cut, trimmed, outline.corners)


def grown(points: Sequence[Point], by: float) -> tuple[tuple[Point, ...], bool]:
    """An outline moved outwards as above, and whether points of it were trimmed."""
    around = zip((points[-1], *points), points, (*points[1:], points[0]), strict=False)
    sharp = [0 < inner_angle(*three) < SHARP - 1e-6 for three in around]
    # a curve may end along a side: the full point of such a corner lies yards away, and is never made
    limits = tuple(1.0 if trimmed else None for trimmed in sharp)
    moved = plane.offset(points, by, mitre_limit=2.0 if any(sharp) else None, limits=limits)
    if len(moved) != len(points) + sum(sharp):  # an inward corner too narrow for its allowance
        return moved, False
    return moved, any(sharp)


def mitred(points: Sequence[Point], allowance: float) -> tuple[Point, ...]:
    """The outline moved outwards with full points: what rotary figures are reckoned from."""
    return plane.offset(points, allowance)


def inner_angle(before: Point, corner: Point, after: Point) -> float:
    """The angle inside a clockwise outline at `corner`, degrees in (0, 360)."""
    return 180.0 - turning(before, corner, after)
