"""Floor 7: cloth sold ready cut. Fat quarters, strips and squares as the stock to cut from."""

from __future__ import annotations

from booklet.kit.measure import Length
from booklet.kit.records import Record
from booklet.kit.trade import FAT_QUARTER
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
    match fabric.kind:
        case SoldAs.YARDAGE:
            return None
        case SoldAs.FAT_QUARTER:
            one, many = (
                phrase("fat quarter", context="precut"),
                phrase("fat quarters", context="precut"),
            )
            return Stock(*FAT_QUARTER, one, many)
        case SoldAs.STRIPS_2_1_2:
            side = Length.of("2 1/2")
            width = in_units(str(side), "inch")
            one, many = phrase("{width} strip", width=width), phrase("{width} strips", width=width)
            return Stock(fabric.width, side, one, many)
        case SoldAs.SQUARES_5 | SoldAs.SQUARES_10:
            side = Length.of(5 if fabric.kind is SoldAs.SQUARES_5 else 10)
            width = in_units(str(side), "inch")
            one, many = (
                phrase("{width} square", width=width),
                phrase("{width} squares", width=width),
            )
            return Stock(side, side, one, many)
