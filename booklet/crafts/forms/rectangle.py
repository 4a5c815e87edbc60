"""The rectangle: cut by the ruler in two figures; it may lie or stand."""

from __future__ import annotations

from booklet.crafts.figure import FlatOutline, Points
from booklet.crafts.form import Form, Seen
from booklet.crafts.measures import HEIGHT, WIDTH, Measures
from booklet.crafts.method import Family, Method
from booklet.crafts.rotary.boxes import box
from booklet.crafts.rotary.cuts import Rotary, Wanted
from booklet.crafts.rotary.ruler import Ruler
from booklet.kit.outlines.plane import rectangle
from booklet.kit.words import phrase

METHOD = Method(
    word="rectangle", title=phrase("rectangle"), family=Family.BOX, by_ruler=True, oblong=True
)


def corners(m: Measures) -> Points:
    """From the top left corner; side 1 lies at the top."""
    return rectangle(0.0, 0.0, m.length(WIDTH), m.length(HEIGHT))


def recognise(figure: FlatOutline, _: float | None) -> Seen | None:
    """Four right angles, and no square; the grain runs along the longer side."""
    if figure.count == 4 and all(figure.is_right(i) for i in range(4)):
        longer = 0 if figure.sides[0] > figure.sides[1] else 1
        return Seen(phrase("rectangle", context="patch"), longer)
    return None


def cut(want: Wanted, figure: FlatOutline, ruler: Ruler) -> Rotary | None:
    """Each finished side and two allowances."""
    return box(want, figure, ruler, METHOD)


FORM = Form(
    word="rectangle",
    rank=20,
    must=(WIDTH, HEIGHT),
    sides=4,
    corners=corners,
    recognise=recognise,
    cut=cut,
    method=METHOD,
    sample={"width": 3, "height": 2},
)
