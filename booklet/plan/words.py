"""Floor 9: the words a sewer would use: names of units, lengths with their unit."""

from __future__ import annotations

import re
from fractions import Fraction

from booklet.measure import SIXTEENTH, Length, Rounding, UnitSystem, length_text
from booklet.words import Phrase, Text, by, in_units, phrase

UNIT_WORDS = {
    "block": phrase("block", context="unit"),
    "row": phrase("row", context="unit"),
    "pair": phrase("pair", context="unit"),
    "three": phrase("three", context="unit"),
    "half": phrase("half", context="unit"),
    "third": phrase("third", context="unit"),
    "quarter": phrase("quarter", context="unit"),
    "fifth": phrase("fifth", context="unit"),
    "sixth": phrase("sixth", context="unit"),
    "eighth": phrase("eighth", context="unit"),
    "unit": phrase("unit", context="unit"),
    "part": phrase("part", context="unit"),
}
"""The words with which the planner names units."""

_TRAILING_NUMBER = re.compile(r"^(.*?[^\d])(\d+)$")


def spoken(name: str, alike: bool) -> Text:
    """A unit's name for the reader: "pair1" is "pair" where all pairs are alike, else "pair 1"."""
    plain = re.sub(r"[_-]+", " ", name).strip() or name
    if match := _TRAILING_NUMBER.match(plain):
        base = match[1].strip()
        return _ours(base) if alike else phrase("{unit} {mark}", unit=_ours(base), mark=match[2])
    return _ours(plain)


def _ours(name: str) -> Text:
    """A name that the planner gave, as a phrase: "pair", "pair b"; the author's stands as it is."""
    word, _, mark = name.partition(" ")
    if name in UNIT_WORDS:
        return UNIT_WORDS[name]
    if word in UNIT_WORDS and len(mark) == 1:
        return phrase("{unit} {mark}", unit=UNIT_WORDS[word], mark=mark)
    return name


def measured(inches: float, units: UnitSystem, step: Fraction = SIXTEENTH) -> Phrase:
    """A finished length with its unit: "2 1/2 in", "6.4 cm"."""
    return in_units(length_text(Length.of(float(inches)), units, step, Rounding.NEAREST), units)


def area_sides(
    width: float, height: float, units: UnitSystem, step: Fraction = SIXTEENTH
) -> Phrase:
    """Two lengths as a size: "2 1/2 in × 4 1/2 in"."""
    return by(measured(width, units, step), measured(height, units, step))
