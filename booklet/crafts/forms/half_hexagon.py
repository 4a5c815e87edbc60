"""The half hexagon: the trapezoid whose base is twice its other sides, cut as one."""

from __future__ import annotations

import math

from booklet.crafts.figure import FlatOutline, Points, near
from booklet.crafts.form import Form, Seen
from booklet.crafts.forms.trapezoid import METHOD, base_of, cut, has_equal_legs, symmetric
from booklet.crafts.measures import SIDE, Measures
from booklet.kit.words import phrase


def corners(m: Measures) -> Points:
    """From the top left corner; side 3 is the base, at the bottom."""
    side = m.length(SIDE)
    return symmetric(2 * side, side, side * math.sqrt(3) / 2)


def recognise(figure: FlatOutline, _: float | None) -> Seen | None:
    """A base of two sides, and three sides of one length."""
    base = base_of(figure)
    if base is None or not has_equal_legs(figure, base):
        return None
    long, top, leg = (figure.sides[(base + k) % 4] for k in (0, 2, 1))
    if near(long, 2 * top) and near(leg, top):
        return Seen(phrase("half hexagon", context="patch"), base)
    return None


FORM = Form(
    word="half hexagon",
    rank=95,
    must=(SIDE,),
    sides=4,
    corners=corners,
    recognise=recognise,
    cut=cut,
    method=METHOD,
    sample={"side": 2},
)
