"""Floor 7: cloth sold ready cut. Fat quarters, strips and squares as the stock to cut from."""

from __future__ import annotations

from dataclasses import dataclass

from booklet.measure import Length
from booklet.pattern import Fabric

FAT_QUARTER = (Length.of(21), Length.of(18))
"""The least usable fat quarter, across x along (Langley Quilters Guild: minimum 18 x 21 in)."""


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
        return Stock(*FAT_QUARTER, "fat quarter", "fat quarters")
    for word in ("strips", "squares"):
        if kind.startswith(word):
            side = Length.of(kind.removeprefix(word).strip())
            across = fabric.width if word == "strips" else side
            name = f"{side} in {word.removesuffix('s')}"
            return Stock(across, side, name, f"{name}s")
    return None


def grid(cut: float, width: float, length: float) -> int:
    """How many squares of a side come from cloth cut in a plain grid: whole ones across times along."""
    return int(width / cut + 1e-9) * int(length / cut + 1e-9)
