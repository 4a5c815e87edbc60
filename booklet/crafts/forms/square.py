"""The square: as it is cut, by the ruler, since its sides lie on its marks or half way between them."""

from __future__ import annotations

from booklet.crafts.figure import FlatOutline, Points, near
from booklet.crafts.form import Form, Seen
from booklet.crafts.measures import SIDE, Measures
from booklet.crafts.method import Family, Method
from booklet.crafts.rotary.boxes import box
from booklet.crafts.rotary.cuts import Rotary, Wanted
from booklet.crafts.rotary.ruler import Ruler
from booklet.kit.outlines.plane import rectangle
from booklet.kit.words import phrase

METHOD = Method(word="square", title=phrase("square"), family=Family.BOX, by_ruler=True)


def corners(m: Measures) -> Points:
    """From the top left corner; side 1 lies at the top."""
    return rectangle(0.0, 0.0, m.length(SIDE), m.length(SIDE))


def recognise(figure: FlatOutline, _: float | None) -> Seen | None:
    """Four equal sides and four right angles."""
    square = figure.count == 4 and near(figure.sides[0], figure.sides[1])
    if square and all(figure.is_right(i) for i in range(4)):
        return Seen(phrase("square", context="patch"), 0)
    return None


def cut(want: Wanted, figure: FlatOutline, ruler: Ruler) -> Rotary | None:
    """The finished side and two allowances."""
    return box(want, figure, ruler, METHOD)


FORM = Form(
    word="square",
    rank=10,
    must=(SIDE,),
    sides=4,
    corners=corners,
    recognise=recognise,
    cut=cut,
    method=METHOD,
    sample={"side": 2},
)
