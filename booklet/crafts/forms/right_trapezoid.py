"""The right trapezoid: a rectangle with one corner cut off slanting, as the frames of windows have; cut as a
trapezoid from a strip, and not like its mirror image."""

from __future__ import annotations

from booklet.crafts.figure import FlatOutline, Points
from booklet.crafts.form import Form, Seen
from booklet.crafts.forms.trapezoid import METHOD, base_of, cut
from booklet.crafts.measures import BASE, HEIGHT, TOP, Measures
from booklet.kit.words import phrase


def corners(m: Measures) -> Points:
    """From the top left corner; side 3 is the base, at the bottom, side 4 the upright one, on the left."""
    base, top, height = m.length(BASE), m.length(TOP), m.length(HEIGHT)
    return ((0, 0), (top, 0), (base, height), (0, height))


def recognise(figure: FlatOutline, _: float | None) -> Seen | None:
    """Two parallel sides, and a right angle at either end of one of the others."""
    base = base_of(figure)
    if base is None or not any(figure.is_right(corner) for corner in (base, (base + 1) % 4)):
        return None
    return Seen(phrase("right trapezoid", context="patch"), base)


FORM = Form(
    word="right trapezoid",
    rank=97,
    must=(BASE, TOP, HEIGHT),
    sides=4,
    corners=corners,
    recognise=recognise,
    cut=cut,
    method=METHOD,
    sample={"base": 4, "top": 2, "height": 2},
)
