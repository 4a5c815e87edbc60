"""The regular hexagon: drawn round its template along a strip."""

from __future__ import annotations

from booklet.crafts.figure import FlatOutline, Points
from booklet.crafts.form import Form, Seen
from booklet.crafts.measures import SIDE, Measures
from booklet.crafts.method import ROUND, Family, Method
from booklet.crafts.rotary.cuts import Rotary, Wanted
from booklet.crafts.rotary.ruler import Ruler
from booklet.crafts.rotary.strips import along_a_strip
from booklet.kit.outlines.plane import cosine, sine
from booklet.kit.words import phrase

METHOD = Method(
    word="hexagons from a strip",
    title=phrase("hexagons from a strip"),
    family=Family.FREE,
    how=ROUND,
)


def corners(m: Measures) -> Points:
    """From the top; it stands on a corner."""
    side = m.length(SIDE)
    return tuple((side * sine(60 * k), -side * cosine(60 * k)) for k in range(6))


def recognise(figure: FlatOutline, _: float | None) -> Seen | None:
    """Six equal sides and angles."""
    if figure.count == 6 and figure.is_regular:
        return Seen(phrase("hexagon", context="patch"), 0)
    return None


def cut(want: Wanted, figure: FlatOutline, ruler: Ruler) -> Rotary | None:
    """Two sides along the strip."""
    return along_a_strip(want, figure.ways[:3], ruler, METHOD, 60.0)


FORM = Form(
    word="hexagon",
    rank=110,
    must=(SIDE,),
    sides=6,
    corners=corners,
    recognise=recognise,
    cut=cut,
    method=METHOD,
    sample={"side": 2},
)
