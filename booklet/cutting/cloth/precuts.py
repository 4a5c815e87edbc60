"""Floor 7: cloth sold ready cut. Fat quarters, strips and squares as the stock to cut from."""

from __future__ import annotations

from booklet.kit.measure import Length
from booklet.kit.records import Record
from booklet.kit.words import in_units, phrase
from booklet.pattern import Fabric, SoldAs


class Stock(Record):
    """One piece of precut cloth: its size across and along, its name for one and for many."""

    across: Length
    along: Length
    one: str
    many: str


def stock_of(fabric: Fabric) -> Stock | None:
    """The precut that a fabric is sold as; None for yardage."""
    if fabric.piece is None:
        return None
    across, along = fabric.piece
    if fabric.kind is SoldAs.FAT_QUARTER:
        one, many = (
            phrase("fat quarter", context="precut"),
            phrase("fat quarters", context="precut"),
        )
        return Stock(across, along, one, many)
    width = in_units(str(along), "inch")
    if fabric.kind is SoldAs.STRIPS_2_1_2:
        one, many = phrase("{width} strip", width=width), phrase("{width} strips", width=width)
    else:
        one, many = phrase("{width} square", width=width), phrase("{width} squares", width=width)
    return Stock(across, along, one, many)
