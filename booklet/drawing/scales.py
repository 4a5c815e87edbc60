"""Floor 10: the scales of pictures. A picture is drawn at a plain share of true size, and says so."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from booklet.words import Text, phrase

MM_PER_INCH = 25.4


@dataclass(frozen=True, slots=True)
class Scale:
    """A share of true size: 1 of `of`."""

    of: float

    @property
    def mm_per_inch(self) -> float:
        """Millimetres on paper for an inch of cloth."""
        return MM_PER_INCH / self.of

    @property
    def caption(self) -> Text:
        """The scale in words."""
        if self.of == 1:
            return phrase("Drawn true to size.")
        return phrase("Drawn at 1 : {share}.", share=self.of)


_SHARES = (
    1, 1.25, 1.5, 1.75, 2, 2.5, 3, 3.5, 4, 4.5, 5, 5.5, 6, 7, 8, 9, 10, 12, 15, 20, 25, 30, 40, 50,
)  # fmt: skip
LADDER = tuple(Scale(of) for of in _SHARES)


def nearest_scale(fits: Callable[[float], bool]) -> Scale:
    """The largest scale of the ladder for which `fits(mm per inch)` holds, else one that does."""
    for scale in LADDER:
        if fits(scale.mm_per_inch):
            return scale
    of = LADDER[-1].of
    while not fits(MM_PER_INCH / of) and of < 1e6:
        of *= 1.25
    return Scale(math.ceil(of * 10) / 10)
