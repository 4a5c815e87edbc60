"""The quarter-square triangle: a square cut twice, so that the grain runs along the long side."""

from __future__ import annotations

from booklet.crafts.figure import FlatOutline, Points, near, right_corner
from booklet.crafts.form import Form, Seen
from booklet.crafts.measures import BASE, Measures
from booklet.crafts.rotary.boxes import QUARTER_SQUARES, right_isosceles
from booklet.crafts.rotary.strips import gable
from booklet.kit.words import phrase


def corners(m: Measures) -> Points:
    """From the top; side 2 is the long one, at the bottom."""
    return gable(m.length(BASE), m.length(BASE) / 2)


def recognise(figure: FlatOutline, _: float | None) -> Seen | None:
    """A right angle between two equal sides, with the grain along the long one."""
    legs = right_corner(figure) if figure.count == 3 else None
    if legs is None or not near(figure.sides[legs[0]], figure.sides[legs[1]]):
        return None
    return Seen(phrase("quarter-square triangle", context="patch"), 3 - sum(legs))


FORM = Form(
    word="quarter-square triangle",
    rank=40,
    must=(BASE,),
    sides=3,
    corners=corners,
    recognise=recognise,
    cut=right_isosceles,
    method=QUARTER_SQUARES,
    sample={"base": 4},
)
