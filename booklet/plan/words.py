"""Floor 9: the words a sewer would use: names of units, lengths with their unit."""

from __future__ import annotations

import re

from booklet.measure import Length, Printed, UnitSystem, printed
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

KNOWN_WORDS = {
    **UNIT_WORDS,
    "two": UNIT_WORDS["pair"],
    "trio": UNIT_WORDS["three"],
    "top": phrase("top", context="unit"),
    "middle": phrase("middle", context="unit"),
    "center": phrase("middle", context="unit"),
    "centre": phrase("middle", context="unit"),
    "bottom": phrase("bottom", context="unit"),
    "side": phrase("side", context="unit"),
    "corner": phrase("corner", context="unit"),
    "strip": phrase("strip", context="unit"),
    "wing": phrase("wing", context="unit"),
    "star": phrase("star", context="unit"),
    "ring": phrase("ring", context="unit"),
    "frame": phrase("frame", context="unit"),
    "flower": phrase("flower", context="unit"),
    "petal": phrase("petal", context="unit"),
    "top row": phrase("top row", context="unit"),
    "middle row": phrase("middle row", context="unit"),
    "bottom row": phrase("bottom row", context="unit"),
    "top half": phrase("top half", context="unit"),
    "bottom half": phrase("bottom half", context="unit"),
    "left half": phrase("left half", context="unit"),
    "right half": phrase("right half", context="unit"),
}
"""Usual names of units, which the booklet says in its own language wherever an author wrote one."""

_NO_PLAIN_S = (
    "s",
    "x",
    "z",
    "ch",
    "sh",
    "y",
    "f",
    "fe",
    "o",
    "half",
    "goose",
    "foot",
    "tooth",
    "man",
)
_TRAILING_NUMBER = re.compile(r"^(.*?[^\d])(\d+)$")


def spoken(name: str, alike: bool) -> Text | None:
    """The name of a unit for the reader, where it is a usual word: "pair1" is "pair" where all pairs are
    alike, else "pair 1". None for any other: it is the author's short name and no word of the booklet's."""
    plain = " ".join(re.sub(r"[_-]+", " ", name).split()).casefold()
    if match := _TRAILING_NUMBER.match(plain):
        base = _usual(match[1].strip())
        if alike or base is None:
            return base
        return phrase("{unit} {mark}", unit=base, mark=match[2])
    return _usual(plain)


def _usual(name: str) -> Text | None:
    """A usual word, perhaps with one letter after it that told it apart where it was named: "pair b"."""
    word, _, mark = name.partition(" ")
    return KNOWN_WORDS.get(word if len(mark) == 1 else name)


def several(n: int, unit: Text, step: int = 0) -> Text:
    """Some alike units: "2 rows", "2 halves", "2 × Goose"; with a step, "2 rows (step 3)"."""
    if unit == UNIT_WORDS["half"]:
        return (
            phrase("{n} halves (step {step})", n=n, step=step)
            if step
            else phrase("{n} halves", n=n)
        )
    if not _takes_s(unit):
        return (
            phrase("{n} × {unit} (step {step})", n=n, unit=unit, step=step)
            if step
            else phrase("{n} × {unit}", n=n, unit=unit)
        )
    if step:
        return phrase("{n} {unit}s (step {step})", n=n, unit=unit, step=step)
    return phrase("{n} {unit}s", n=n, unit=unit)


def _takes_s(unit: Text) -> bool:
    """Whether the English plural of a name is surely just an s more."""
    last, end = unit[-1:].lower(), unit.rpartition(" ")[2]
    if end.isupper() and end != unit:  # "section A"
        return False
    return last.isascii() and last.isalpha() and not unit.lower().endswith(_NO_PLAIN_S)


def measured(inches: float, units: UnitSystem) -> Phrase:
    """A finished length with its unit: "2 1/2 in", "6.4 cm"."""
    return in_units(printed(Length.of(float(inches)), units, Printed.FINISHED), units)


def area_sides(width: float, height: float, units: UnitSystem) -> Phrase:
    """Two lengths as a size: "2 1/2 in × 4 1/2 in"."""
    return by(measured(width, units), measured(height, units))
