"""The polygon drawn freely by its corners: whatever no other form knows, cut by template."""

from __future__ import annotations

from booklet.crafts.figure import FlatOutline
from booklet.crafts.form import Form, Seen
from booklet.crafts.measures import CORNERS
from booklet.kit.words import phrase

_NAMES = {
    3: phrase("triangle", context="patch"),
    4: phrase("four-sided patch", context="patch"),
    5: phrase("five-sided patch", context="patch"),
    6: phrase("six-sided patch", context="patch"),
    7: phrase("seven-sided patch", context="patch"),
    8: phrase("eight-sided patch", context="patch"),
}


def recognise(figure: FlatOutline, _: float | None) -> Seen | None:
    """Straight sides; the word is their number."""
    if not figure.count:
        return None
    many = phrase("{count}-sided patch", context="patch", count=figure.count)
    return Seen(_NAMES.get(figure.count, many))


FORM = Form(
    word="polygon",
    rank=160,
    must=(CORNERS,),
    recognise=recognise,
    written="{shape: polygon, corners: [[0, 0], [3, 0], [2, 2], [0, 2]]}",
)
