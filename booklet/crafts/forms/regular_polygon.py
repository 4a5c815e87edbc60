"""The regular polygon of any number of sides: cut by template, where it has no form of its own."""

from __future__ import annotations

from booklet.crafts.figure import FlatOutline, Points
from booklet.crafts.form import Form, Seen
from booklet.crafts.measures import SIDE, SIDES, Measures
from booklet.kit.outlines.plane import cosine, sine
from booklet.kit.words import phrase

_NAMES = {
    5: phrase("pentagon", context="patch"),
    7: phrase("seven-sided patch", context="patch"),
    9: phrase("nine-sided patch", context="patch"),
}


def corners(m: Measures) -> Points:
    """From the top corner, or the left one of two; it stands on a side."""
    n = m.count()
    radius = m.length(SIDE) / (2 * sine(180 / n))
    first = 0.0 if n % 2 else -180 / n
    angles = (first + 360 * k / n for k in range(n))
    return tuple((radius * sine(a), -radius * cosine(a)) for a in angles)


def recognise(figure: FlatOutline, _: float | None) -> Seen | None:
    """All sides and all angles equal."""
    if figure.count < 5 or not figure.is_regular:
        return None
    many = phrase("regular {count}-sided patch", context="patch", count=figure.count)
    return Seen(_NAMES.get(figure.count, many), 0)


FORM = Form(
    word="regular polygon",
    rank=150,
    must=(SIDES, SIDE),
    corners=corners,
    recognise=recognise,
    sample={"sides": 5, "side": 2},
)
