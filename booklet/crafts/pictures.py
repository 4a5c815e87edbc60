"""Floor 1, crafts: small pictures of how units are made, as marks in millimetres; drawing gives them ink and cloth."""

from __future__ import annotations

import math
from enum import Enum

from booklet.crafts.figure import Points
from booklet.kit.outlines.plane import Point, direction, plus, rectangle, right_of
from booklet.kit.records import Record

SIDE = 21.0  # mm: the side of the square that is drawn largest
BESIDE = 1.3  # mm from a cut to the seam beside it: more than true to scale, so that it can be seen
OVER = 1.5  # mm that a cut reaches beyond the cloth
BELOW = 0.9  # mm by which a lower layer looks out from under an upper one


class LineMeaning(Enum):
    """What a line means."""

    DRAWN = "a line drawn on the cloth"
    SEAM = "a seam"
    CUT = "a cut"


class ClothPiece(Record):
    """A piece of cloth: the number of the cut it comes from (from 0), None with its wrong side up."""

    points: Points
    cut: int | None


class Stroke(Record):
    """A line."""

    points: Points
    pen: LineMeaning


Mark = ClothPiece | Stroke
Picture = tuple[float, tuple[Mark, ...]]
"""Its width, and its marks from (0, 0)."""

RISING = ((0.0, SIDE), (SIDE, 0.0))
FALLING = ((0.0, 0.0), (SIDE, SIDE))


def pair() -> tuple[Mark, ...]:
    """Two squares right sides together: the upper one shows its wrong side, the lower one an edge."""
    return (
        ClothPiece(rectangle(BELOW, BELOW, SIDE, SIDE), 0),
        ClothPiece(rectangle(0, 0, SIDE, SIDE), None),
    )


def cut(a: Point, b: Point) -> Stroke:
    """A cut along a line and a little beyond its ends."""
    x, y = (math.copysign(OVER, q - p) if q != p else 0.0 for p, q in zip(a, b, strict=True))
    return Stroke(((a[0] - x, a[1] - y), (b[0] + x, b[1] + y)), LineMeaning.CUT)


def seam(a: Point, b: Point, right: float, short: float = 0.0) -> Stroke:
    """A seam along a line, so far to the right of it, and short of its ends."""
    along = direction(a, b)
    aside = right_of(along)
    ends = (plus(plus(a, aside, right), along, short), plus(plus(b, aside, right), along, -short))
    return Stroke(ends, LineMeaning.SEAM)


def beside(a: Point, b: Point) -> tuple[Mark, ...]:
    """The seams on both sides of a line."""
    return (seam(a, b, BESIDE, BESIDE), seam(a, b, -BESIDE, BESIDE))
