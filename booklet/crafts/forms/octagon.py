"""The regular octagon: a square with its corners cut off."""

from __future__ import annotations

import math

from booklet.crafts.figure import FlatOutline, Points
from booklet.crafts.form import Form, Seen
from booklet.crafts.measures import SIDE, Measures
from booklet.crafts.method import Family, Method
from booklet.crafts.rotary.cuts import Rotary, Wanted, box_rows, given_grain, singly
from booklet.crafts.rotary.ruler import Ruler
from booklet.crafts.rotary.sums import added
from booklet.kit.words import phrase

METHOD = Method(
    word="octagons from a square",
    title=phrase("octagons from a square"),
    family=Family.BOX,
    how=phrase("Trim the four corners with the template."),
)


def corners(m: Measures) -> Points:
    """From the left end of the top side; it stands on a side."""
    s = m.length(SIDE) / 2
    w = s * (1 + math.sqrt(2))
    return ((-s, -w), (s, -w), (w, -s), (w, s), (s, w), (-s, w), (-w, s), (-w, -s))


def recognise(figure: FlatOutline, _: float | None) -> Seen | None:
    """Eight equal sides and angles."""
    if figure.count == 8 and figure.is_regular:
        return Seen(phrase("octagon", context="patch"), 0)
    return None


def cut(want: Wanted, figure: FlatOutline, ruler: Ruler) -> Rotary | None:
    """The square about it: s (1 + √2) and two allowances."""
    ways = want.ways(figure.ways[:4], square=True)
    if not ways:
        return None
    across = figure.sides[0] * (1 + math.sqrt(2))
    exact = across + 2 * ruler.s
    by, (side,) = ruler.straight(exact)
    return Rotary(
        method=METHOD,
        cut=(side, side),
        exact=(exact, exact),
        sum=added(across, exact, side, ruler.units, by),
        angle=45.0,
        grain=given_grain(want, ways[0]),
        lays=(singly(want.pieces, box_rows(float(side), float(side), False)),),
        by=by,
    )


FORM = Form(
    word="octagon",
    rank=130,
    must=(SIDE,),
    sides=8,
    corners=corners,
    recognise=recognise,
    cut=cut,
    method=METHOD,
    sample={"side": 2},
)
