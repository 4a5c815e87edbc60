"""Floor 6: how a filled rim came about, in words: what it measures, what lies in its middle, what is cut off."""

from __future__ import annotations

from booklet.kit.measure import Length, UnitSystem
from booklet.kit.words import Phrase, Text, phrase
from booklet.pattern import Centre, FilledRim
from booklet.quilt.sums import result

_MIDDLES = {
    Centre.BLOCK: phrase("set, middle: a block"),
    Centre.GAP: phrase("set, middle: half way between two blocks"),
    Centre.CORNER: phrase("set, middle: a corner where blocks meet"),
}


def rim_sums(
    rim: FilledRim, finished: tuple[Length, Length], units: UnitSystem
) -> tuple[Text, ...]:
    """What a set measures whose rim is filled, and how."""
    words = (phrase("set, across"), phrase("set, down"))
    sides = (
        phrase("{what}: {whole}, its rim filled", what=word, whole=result(side, units))
        for word, side in zip(words, finished, strict=True)
    )
    return (*sides, _MIDDLES[rim.centre], _cut_off(rim))


def share_cut_off(rim: FilledRim) -> int:
    """What is cut off of all that is sewn, in percent; at least 1 of what is cut off at all."""
    share = 100 * rim.cut_off / rim.sewn
    return max(1, round(share)) if rim.cut_off > 0.005 else 0


def _cut_off(rim: FilledRim) -> Phrase:
    share = share_cut_off(rim)
    if not share:
        return phrase("set, rim: finished along the edge, nothing is cut off")
    return phrase("set, rim: {share} percent of what is sewn is cut off at the edge", share=share)
