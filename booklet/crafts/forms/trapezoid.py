"""The trapezoid: side by side along a strip, turned end for end by turns."""

from __future__ import annotations

from booklet.crafts.figure import FlatOutline, Points, near
from booklet.crafts.form import Form, Seen
from booklet.crafts.measures import BASE, HEIGHT, TOP, Measures
from booklet.crafts.method import Family, Method
from booklet.crafts.rotary.cuts import Rotary, Wanted
from booklet.crafts.rotary.ruler import Ruler
from booklet.crafts.rotary.strips import along_a_strip
from booklet.kit.words import phrase

METHOD = Method(
    word="trapezoids from a strip",
    title=phrase("trapezoids from a strip"),
    family=Family.IN_A_ROW,
)


def symmetric(base: float, top: float, height: float) -> Points:
    """From the top left corner; the base lies at the bottom, its middle below that of the top."""
    return ((-top / 2, 0), (top / 2, 0), (base / 2, height), (-base / 2, height))


def corners(m: Measures) -> Points:
    """From the top left corner; side 3 is the base, at the bottom."""
    return symmetric(m.length(BASE), m.length(TOP), m.length(HEIGHT))


def base_of(figure: FlatOutline) -> int | None:
    """The longer of the only two sides that are parallel."""
    level = [i for i in (0, 1) if figure.is_parallel(i, i + 2)] if figure.count == 4 else []
    if len(level) != 1:
        return None
    return max(level[0], level[0] + 2, key=lambda i: figure.sides[i])


def has_equal_legs(figure: FlatOutline, base: int) -> bool:
    """Whether the two sides beside the base are equal, so that it is like its mirror image."""
    return near(figure.sides[base - 1], figure.sides[(base + 1) % 4])


def recognise(figure: FlatOutline, _: float | None) -> Seen | None:
    """Two parallel sides; the word is kept for those whose other two are equal, as quilters have it."""
    base = base_of(figure)
    if base is None:
        return None
    if not has_equal_legs(figure, base):
        return Seen(phrase("four-sided patch", context="patch"))
    return Seen(phrase("trapezoid", context="patch"), base)


def cut(want: Wanted, figure: FlatOutline, ruler: Ruler) -> Rotary | None:
    """The base along the strip."""
    base = base_of(figure)
    if base is None:
        return None
    first = base % 2
    return along_a_strip(
        want,
        (figure.ways[first],),
        ruler,
        METHOD,
        figure.slant(first, first + 1),
        symmetric=not want.reversed,
        by_turns=True,
    )


FORM = Form(
    word="trapezoid",
    rank=100,
    must=(BASE, TOP, HEIGHT),
    sides=4,
    corners=corners,
    recognise=recognise,
    cut=cut,
    method=METHOD,
    sample={"base": 4, "top": 2, "height": 2},
)
