"""The parallelogram: cut across a strip at its angle; it is not like its mirror image."""

from __future__ import annotations

from booklet.crafts.figure import FlatOutline, Points
from booklet.crafts.form import Form, Seen
from booklet.crafts.measures import BASE, HEIGHT, SHIFT, Measures
from booklet.crafts.method import Family, Method
from booklet.crafts.rotary.cuts import Rotary, Wanted
from booklet.crafts.rotary.ruler import Ruler
from booklet.crafts.rotary.strips import across_a_strip
from booklet.kit.words import phrase

METHOD = Method(
    word="parallelograms from a strip",
    title=phrase("parallelograms from a strip"),
    family=Family.SLANTED,
    by_ruler=True,
    one_sided=True,
)


def corners(m: Measures) -> Points:
    """From the top left corner, which lies `shift` to the right of the bottom left one."""
    base, height, shift = m.length(BASE), m.length(HEIGHT), m.shift(SHIFT)
    return ((shift, 0), (shift + base, 0), (base, height), (0, height))


def recognise(figure: FlatOutline, _: float | None) -> Seen | None:
    """Two pairs of parallel sides; the grain runs along the longer."""
    if figure.count == 4 and figure.is_parallel(0, 2) and figure.is_parallel(1, 3):
        longer = 0 if figure.sides[0] > figure.sides[1] else 1
        return Seen(phrase("parallelogram", context="patch"), longer)
    return None


def cut(want: Wanted, figure: FlatOutline, ruler: Ruler) -> Rotary | None:
    """Strip and step have figures of their own; reversed ones lean to the other side."""
    return across_a_strip(want, figure, ruler, METHOD, symmetric=False)


FORM = Form(
    word="parallelogram",
    rank=90,
    must=(BASE, HEIGHT, SHIFT),
    sides=4,
    corners=corners,
    recognise=recognise,
    cut=cut,
    method=METHOD,
    sample={"base": 3, "height": 2, "shift": 1},
)
