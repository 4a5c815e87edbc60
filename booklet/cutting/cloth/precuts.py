"""Floor 7: cloth sold ready cut. Fat quarters, strips and squares as the stock to cut from."""

from __future__ import annotations

from dataclasses import dataclass

from booklet.kit.near import NOISE
from booklet.kit.trade import FAT_QUARTER
from booklet.measure import Length
from booklet.pattern import Fabric
from booklet.words import in_units, phrase


@dataclass(frozen=True, slots=True)
class Stock:
    """One piece of precut cloth: its size across and along, its name for one and for many."""

    across: Length
    along: Length
    one: str
    many: str


def stock_of(fabric: Fabric) -> Stock | None:
    """The precut that a fabric is sold as; None for yardage."""
    kind = fabric.kind
    if kind == "fat quarter":
        return Stock(
            *FAT_QUARTER,
            phrase("fat quarter", context="precut"),
            phrase("fat quarters", context="precut"),
        )
    for word in ("strips", "squares"):
        if kind.startswith(word):
            side = Length.of(kind.removeprefix(word).strip())
            across = fabric.width if word == "strips" else side
            width = in_units(str(side), "inch")
            if word == "strips":
                one, many = (
                    phrase("{width} strip", width=width),
                    phrase("{width} strips", width=width),
                )
            else:
                one = phrase("{width} square", width=width)
                many = phrase("{width} squares", width=width)
            return Stock(across, side, one, many)
    return None


def grid(cut: float, width: float, length: float) -> int:
    """How many squares of a side come from cloth cut in a plain grid: whole ones across times along."""
    return int(width / cut + NOISE) * int(length / cut + NOISE)
