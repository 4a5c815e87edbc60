"""Floor 7: cloth sold ready cut. Fat quarters, strips and squares as the stock to cut from."""

from __future__ import annotations

from fractions import Fraction

from booklet.kit.measure import Length
from booklet.kit.records import Record
from booklet.kit.words import in_units, phrase
from booklet.pattern import Fabric, SoldAs


class Stock(Record, kw_only=True):
    """One piece of precut cloth: its size across and along, its name for one and for many, and what part of a yard it is, 0
    where it is cut from none."""

    across: Length
    along: Length
    one: str
    many: str
    yards: Fraction


_YARDS = {SoldAs.FAT_QUARTER: Fraction(1, 4), SoldAs.FAT_EIGHTH: Fraction(1, 8)}


def stock_of(fabric: Fabric) -> Stock | None:
    """The precut that a fabric is sold as; None for yardage."""
    if fabric.piece is None:
        return None
    across, along = fabric.piece
    width = in_units(str(along), "inch")
    match fabric.kind:
        case SoldAs.FAT_QUARTER:
            one, many = (
                phrase("fat quarter", context="precut"),
                phrase("fat quarters", context="precut"),
            )
        case SoldAs.FAT_EIGHTH:
            one, many = (
                phrase("fat eighth", context="precut"),
                phrase("fat eighths", context="precut"),
            )
        case SoldAs.PANEL:
            one, many = phrase("panel", context="precut"), phrase("panels", context="precut")
        case SoldAs.STRIPS_2_1_2:
            one, many = phrase("{width} strip", width=width), phrase("{width} strips", width=width)
        case _:
            one, many = (
                phrase("{width} square", width=width),
                phrase("{width} squares", width=width),
            )
    return Stock(
        across=across,
        along=along,
        one=one,
        many=many,
        yards=_YARDS.get(fabric.kind, Fraction(0)),
    )
