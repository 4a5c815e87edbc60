"""The half-square triangle: a square cut once, so that the grain runs along the short sides."""

from __future__ import annotations

from booklet.crafts.figure import FlatOutline, Points, near, right_corner
from booklet.crafts.form import Form, Seen
from booklet.crafts.measures import SIDE, Measures
from booklet.crafts.rotary.boxes import HALF_SQUARES, right_isosceles
from booklet.kit.outlines.alike import same_angle
from booklet.kit.words import phrase


def corners(m: Measures) -> Points:
    """From the top left corner; side 1 is the long one, the right angle lies at the bottom left."""
    side = m.length(SIDE)
    return ((0, 0), (side, side), (0, side))


def recognise(figure: FlatOutline, grain: float | None) -> Seen | None:
    """A right angle between two equal sides, unless the grain runs along the long side."""
    legs = right_corner(figure) if figure.count == 3 else None
    if legs is None or not near(figure.sides[legs[0]], figure.sides[legs[1]]):
        return None
    long = 3 - sum(legs)
    if grain is not None and same_angle(figure.ways[long], grain, 180):
        return None
    return Seen(phrase("half-square triangle", context="patch"), legs[0])


FORM = Form(
    word="half-square triangle",
    rank=30,
    must=(SIDE,),
    sides=3,
    corners=corners,
    recognise=recognise,
    cut=right_isosceles,
    method=HALF_SQUARES,
    sample={"side": 2},
)
