"""Floor 3: ribbons: a strip of one width along a line, as bias stems lie."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from booklet.geometry.tiling import Outline, Side
from booklet.kit.outlines.near import SAME_ANGLE
from booklet.kit.outlines.plane import Point, direction, plus, right_of, turning, unit

CORNER = math.radians(40.0)
"""Points along a curve turn less at one of them, however few it is held as."""


def ribbon(line: Sequence[Point], width: float) -> Outline:
    """The outline of a strip `width` wide along a line, with square ends; clockwise if the line does not bend back."""
    out = [right_of(way) for way in _ways(line)]
    right = [plus(p, n, width / 2) for p, n in zip(line, out, strict=True)]
    left = [plus(p, n, -width / 2) for p, n in zip(line, out, strict=True)][::-1]
    corners = (left[-1], left[0], right[-1], right[0])
    return Outline(
        (
            Side(corners[0], corners[1], tuple(left[::-1][1:-1])),
            Side(corners[1], corners[2]),
            Side(corners[2], corners[3], tuple(right[::-1][1:-1])),
            Side(corners[3], corners[0]),
        )
    )


def _ways(line: Sequence[Point]) -> list[Point]:
    """The direction of a line at each of its points: between two stretches the middle of theirs."""
    chords = [direction(a, b) for a, b in pairwise(line)]
    inner = [unit((a[0] + b[0], a[1] + b[1])) for a, b in pairwise(chords)]
    if len(chords) == 1:
        return [chords[0], chords[0]]
    return [_beyond(inner[0], chords[0]), *inner, _beyond(inner[-1], chords[-1])]


def _beyond(near: Point, chord: Point) -> Point:
    """The direction at the end of a curve: the chord turned on as far as it is turned from the point before."""
    along = 2 * (near[0] * chord[0] + near[1] * chord[1])
    return unit((along * chord[0] - near[0], along * chord[1] - near[1]))


def tightest(line: Sequence[Point]) -> tuple[Point, float] | None:
    """Where a line bends most, and its radius there, 0 at a corner; None for a straight one."""
    found: tuple[Point, float] | None = None
    for a, b, c in zip(line, line[1:], line[2:], strict=False):
        bent = abs(turning(a, b, c))
        if bent < SAME_ANGLE:
            continue
        turn = math.radians(bent)
        radius = 0.0 if turn > CORNER else (math.dist(a, b) + math.dist(b, c)) / 2 / turn
        if found is None or radius < found[1]:
            found = b, radius
    return found
