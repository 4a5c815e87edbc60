"""Floor 10: the scales of pictures. A picture is drawn at a plain share of true size, and says so."""

from __future__ import annotations

import math
from collections.abc import Callable

from booklet.kit.measure import INCH_MM
from booklet.kit.records import Record
from booklet.kit.words import Listing, Phrase, Text, phrase


class Scale(Record):
    """A share of true size: 1 of `of`."""

    of: float

    @property
    def mm_per_inch(self) -> float:
        """Millimetres on paper for an inch of cloth."""
        return INCH_MM / self.of

    @property
    def caption(self) -> Phrase:
        """The scale in words."""
        if self.of == 1:
            return phrase("Drawn true to size.")
        if self.of < 1:
            return phrase("Drawn at {times} : 1.", times=round(1 / self.of, 2))
        return phrase("Drawn at 1 : {share}.", share=self.of)


def shown_larger(text: Text, times: float) -> Text:
    """A caption in which scales are those of the picture shown so many times as large as it was drawn: 1 : 5 is 1 : 2.5 at
    twice its size."""
    if isinstance(text, Listing):
        items = (shown_larger(i, times) if isinstance(i, str) else i for i in text.items)
        return Listing(tuple(items), text.style)
    if not isinstance(text, Phrase):
        return text
    if text.message == Scale(1).caption.message:
        return Scale(1 / times).caption
    if text.message == Scale(2).caption.message:
        (share,) = (value for name, value in text.values if name == "share")
        return Scale(round(float(str(share)) / times, 3)).caption
    values = tuple(
        (name, shown_larger(value, times) if isinstance(value, str) else value)
        for name, value in text.values
    )
    return Phrase(
        text.message, values, many=text.many, n=text.n, context=text.context, first=text.first
    )


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
    while not fits(INCH_MM / of) and of < 1e6:
        of *= 1.25
    return Scale(math.ceil(of * 10) / 10)
