"""The equilateral triangle: side by side along a strip, turned end for end by turns."""

from __future__ import annotations

import math

from booklet.crafts.figure import FlatOutline, Points
from booklet.crafts.form import Form, Seen
from booklet.crafts.forms.isosceles_triangle import METHOD
from booklet.crafts.measures import SIDE, Measures
from booklet.crafts.rotary.cuts import Rotary, Wanted
from booklet.crafts.rotary.ruler import Ruler
from booklet.crafts.rotary.strips import along_a_strip, gable
from booklet.kit.words import phrase


def corners(m: Measures) -> Points:
    """From the top; side 2 lies at the bottom."""
    return gable(m.length(SIDE), m.length(SIDE) * math.sqrt(3) / 2)


def recognise(figure: FlatOutline, _: float | None) -> Seen | None:
    """Three equal sides."""
    if figure.count == 3 and figure.is_regular:
        return Seen(phrase("equilateral triangle", context="patch"), 0)
    return None


def cut(want: Wanted, figure: FlatOutline, ruler: Ruler) -> Rotary | None:
    """Any side along the strip: 60 degrees, a strip as high as the triangle."""
    return along_a_strip(want, figure.ways, ruler, METHOD, 60.0)


FORM = Form(
    word="equilateral triangle",
    rank=60,
    must=(SIDE,),
    sides=3,
    corners=corners,
    recognise=recognise,
    cut=cut,
    method=METHOD,
    sample={"side": 2},
)
