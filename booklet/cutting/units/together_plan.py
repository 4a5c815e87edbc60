"""Floor 7, the records of units that are sewn from larger pieces and cut afterwards."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from booklet.crafts.marks import HAIR, By
from booklet.measure import ZERO, Length


class Together(Enum):
    """How units are sewn from larger pieces and cut afterwards; the value is the word in facts."""

    TWO = "two at a time"
    FOUR = "four at a time"
    EIGHT = "eight at a time"
    GEESE = "flying geese four at a time"
    SQUARE = "square in a square"
    STRIPS = "strip sets"


@dataclass(frozen=True, slots=True)
class TogetherCut:
    """One of the pieces such units begin with: a square, or a strip of a strip set; `count` in all."""

    name: str  # "U1a", its name in the cutting table and on the cloth
    fabric: str
    cut: tuple[Length, Length]
    count: int
    exact: tuple[float, float]
    by: By = By.RULER


@dataclass(frozen=True, slots=True)
class TogetherUnit:
    """Units of one kind made together, for the whole quilt.

    Each of `rounds` gives `each` of them; `units` are needed. `trimmed` is the unfinished size to which
    they are trimmed where they are cut large (`trims`), `across` the width at which a strip set is cut across. `members` are the pieces of
    every such unit, by block.
    """

    name: str  # "U1"
    how: Together
    finished: tuple[Length, Length]
    trimmed: tuple[Length, Length]
    units: int
    rounds: int
    each: int
    cuts: tuple[TogetherCut, ...]
    across: Length | None
    oversize: Length
    sum: str
    members: tuple[tuple[str, frozenset[str]], ...]

    @property
    def trims(self) -> bool:
        """Whether the sewn unit is larger than it must be, by a margin or a figure rounded up."""
        pairs = (pair for part in self.cuts for pair in zip(part.cut, part.exact, strict=True))
        return self.oversize > ZERO or any(float(cut) - exact > HAIR for cut, exact in pairs)
