"""The isosceles triangle: side by side along a strip as high as it is, turned end for end by turns."""

from __future__ import annotations

from booklet.crafts.figure import FlatOutline, Points, near
from booklet.crafts.form import Form, Seen
from booklet.crafts.measures import BASE, HEIGHT, Measures
from booklet.crafts.method import Family, Method
from booklet.crafts.rotary.cuts import Rotary, Wanted
from booklet.crafts.rotary.ruler import Ruler
from booklet.crafts.rotary.strips import along_a_strip, gable
from booklet.kit.words import phrase

METHOD = Method(
    word="triangles from a strip",
    title=phrase("triangles from a strip"),
    family=Family.IN_A_ROW,
)


def corners(m: Measures) -> Points:
    """From the top; side 2 is the base, at the bottom."""
    return gable(m.length(BASE), m.length(HEIGHT))


def recognise(figure: FlatOutline, _: float | None) -> Seen | None:
    """Two equal sides; the grain runs along the third."""
    base = _base(figure) if figure.count == 3 else None
    return None if base is None else Seen(phrase("isosceles triangle", context="patch"), base)


def _base(figure: FlatOutline) -> int | None:
    """The side between two equal ones."""
    for i in range(3):
        if near(figure.sides[(i + 1) % 3], figure.sides[(i + 2) % 3]):
            return i
    return None


def cut(want: Wanted, figure: FlatOutline, ruler: Ruler) -> Rotary | None:
    """The base along the strip."""
    base = _base(figure)
    if base is None:
        return None
    foot = figure.slant(base, (base + 1) % 3)
    return along_a_strip(want, (figure.ways[base],), ruler, METHOD, foot)


FORM = Form(
    word="isosceles triangle",
    rank=70,
    must=(BASE, HEIGHT),
    sides=3,
    corners=corners,
    recognise=recognise,
    cut=cut,
    method=METHOD,
    sample={"base": 2, "height": 3},
)
