"""Floor 7: cut outlines. A patch's outline with its allowance, as it is printed on a template."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from booklet.cutting.cutting_plan import CutOutline
from booklet.geometry import overlay
from booklet.geometry.tiling import Outline
from booklet.kit.measure import Length
from booklet.kit.outlines.near import SAME_ANGLE
from booklet.kit.outlines.plane import Point, cross, direction, dot, turn_point, turning
from booklet.kit.records import replace

SHARP = 60.0
"""Corners sharper than this (degrees) get their point trimmed. At 60 degrees the mitred point of an
allowance s stands 2 s beyond the matching point; sharper ones stand farther and only get in the way."""


def cut_outline(outline: Outline, allowance: Length) -> CutOutline:
    """The outline moved outwards by the allowance, its sharp points trimmed; inches, same frame.

    Straight sides are moved exactly and meet in mitres; so are the points that a curve is held as, square to the
    curve itself and not to its chords, else a circle of 3 in would be cut a hair more than 3 1/2 in. A
    point sharper than `SHARP` is cut off square to its bisector, one allowance beyond the matching point,
    so that the trimmed edges of two patches lie on each other when their matching points do.
    """
    cut = grown(outline.points, float(allowance), curve_ways(outline))
    return CutOutline(seam=outline, cut=cut, points=outline.corners, allowance=allowance)


def laid_on_outline(outline: Outline, allowance: Length) -> CutOutline:
    """The same of an applied shape, which has no matching points."""
    return replace(cut_outline(outline, allowance), points=())


def grown(
    points: Sequence[Point], by: float, ways: Sequence[overlay.Ways] = ()
) -> tuple[Point, ...]:
    """An outline moved outwards as above."""
    if not by:
        return tuple(points)
    chords = overlay.ways_along(points)
    sharp = [0 < 180.0 - _turn(*way) < SHARP - SAME_ANGLE for way in chords]
    # a curve may end along a side: the full point of such a corner lies yards away, and is never made
    limits = tuple(1.0 if trimmed else None for trimmed in sharp)
    along = [c if s else w for c, s, w in zip(chords, sharp, ways or chords, strict=True)]
    limit = 2.0 if any(sharp) else None
    return overlay.offset(points, by, mitre_limit=limit, limits=limits, ways=along)


def curve_ways(outline: Outline) -> tuple[overlay.Ways, ...]:
    """The directions in which an outline reaches and leaves each of its points: of curves, those of the curve,
    reckoned from the chords on either side, which are even (exact on a circle)."""
    arrives, leaves = [], []
    for side in outline.sides:
        ways = _tangents(side.points)
        leaves += ways[:-1]
        arrives += ways[1:]
    return tuple(zip((arrives[-1], *arrives[:-1]), leaves, strict=True))


def _tangents(points: Sequence[Point]) -> list[Point]:
    """The direction of a side at each of its points: at its ends the chord turned on by half the next turn."""
    chords = [direction(a, b) for a, b in itertools.pairwise(points)]
    if len(chords) == 1:
        return [chords[0], chords[0]]
    turns = [_turn(a, b) for a, b in itertools.pairwise(chords)]
    inner = [turn_point(chord, turn / 2) for chord, turn in zip(chords[:-1], turns, strict=True)]
    return [
        turn_point(chords[0], -turns[0] / 2),
        *inner,
        turn_point(chords[-1], turns[-1] / 2),
    ]


def _turn(way: Point, on: Point) -> float:
    """How far a direction turns on to another, degrees, positive to the right."""
    return math.degrees(math.atan2(cross(way, on), dot(way, on)))


def mitred(points: Sequence[Point], allowance: float) -> tuple[Point, ...]:
    """The outline moved outwards with full points: what rotary figures are reckoned from."""
    return overlay.offset(points, allowance)


def inner_angle(before: Point, corner: Point, after: Point) -> float:
    """The angle inside a clockwise outline at `corner`, degrees in (0, 360)."""
    return 180.0 - turning(before, corner, after)
