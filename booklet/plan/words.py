"""Floor 9: the words a sewer would use: names of units, lengths with their unit."""

from __future__ import annotations

import re
from collections.abc import Callable

from booklet.kit.words import Phrase, Text, phrase

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

THE = {
    KNOWN_WORDS["block"]: phrase("the block", context="unit"),
    KNOWN_WORDS["row"]: phrase("the row", context="unit"),
    KNOWN_WORDS["pair"]: phrase("the pair", context="unit"),
    KNOWN_WORDS["three"]: phrase("the three", context="unit"),
    KNOWN_WORDS["half"]: phrase("the half", context="unit"),
    KNOWN_WORDS["third"]: phrase("the third", context="unit"),
    KNOWN_WORDS["quarter"]: phrase("the quarter", context="unit"),
    KNOWN_WORDS["fifth"]: phrase("the fifth", context="unit"),
    KNOWN_WORDS["sixth"]: phrase("the sixth", context="unit"),
    KNOWN_WORDS["eighth"]: phrase("the eighth", context="unit"),
    KNOWN_WORDS["unit"]: phrase("the unit", context="unit"),
    KNOWN_WORDS["part"]: phrase("the part", context="unit"),
    KNOWN_WORDS["top"]: phrase("the top", context="unit"),
    KNOWN_WORDS["middle"]: phrase("the middle", context="unit"),
    KNOWN_WORDS["bottom"]: phrase("the bottom", context="unit"),
    KNOWN_WORDS["side"]: phrase("the side", context="unit"),
    KNOWN_WORDS["corner"]: phrase("the corner", context="unit"),
    KNOWN_WORDS["strip"]: phrase("the strip", context="unit"),
    KNOWN_WORDS["wing"]: phrase("the wing", context="unit"),
    KNOWN_WORDS["star"]: phrase("the star", context="unit"),
    KNOWN_WORDS["ring"]: phrase("the ring", context="unit"),
    KNOWN_WORDS["frame"]: phrase("the frame", context="unit"),
    KNOWN_WORDS["flower"]: phrase("the flower", context="unit"),
    KNOWN_WORDS["petal"]: phrase("the petal", context="unit"),
    KNOWN_WORDS["top row"]: phrase("the top row", context="unit"),
    KNOWN_WORDS["middle row"]: phrase("the middle row", context="unit"),
    KNOWN_WORDS["bottom row"]: phrase("the bottom row", context="unit"),
    KNOWN_WORDS["top half"]: phrase("the top half", context="unit"),
    KNOWN_WORDS["bottom half"]: phrase("the bottom half", context="unit"),
    KNOWN_WORDS["left half"]: phrase("the left half", context="unit"),
    KNOWN_WORDS["right half"]: phrase("the right half", context="unit"),
}
ONE = {
    KNOWN_WORDS["block"]: phrase("a block", context="unit"),
    KNOWN_WORDS["row"]: phrase("a row", context="unit"),
    KNOWN_WORDS["pair"]: phrase("a pair", context="unit"),
    KNOWN_WORDS["three"]: phrase("a three", context="unit"),
    KNOWN_WORDS["half"]: phrase("a half", context="unit"),
    KNOWN_WORDS["third"]: phrase("a third", context="unit"),
    KNOWN_WORDS["quarter"]: phrase("a quarter", context="unit"),
    KNOWN_WORDS["fifth"]: phrase("a fifth", context="unit"),
    KNOWN_WORDS["sixth"]: phrase("a sixth", context="unit"),
    KNOWN_WORDS["eighth"]: phrase("an eighth", context="unit"),
    KNOWN_WORDS["unit"]: phrase("a unit", context="unit"),
    KNOWN_WORDS["part"]: phrase("a part", context="unit"),
    KNOWN_WORDS["top"]: phrase("a top", context="unit"),
    KNOWN_WORDS["middle"]: phrase("a middle", context="unit"),
    KNOWN_WORDS["bottom"]: phrase("a bottom", context="unit"),
    KNOWN_WORDS["side"]: phrase("a side", context="unit"),
    KNOWN_WORDS["corner"]: phrase("a corner", context="unit"),
    KNOWN_WORDS["strip"]: phrase("a strip", context="unit"),
    KNOWN_WORDS["wing"]: phrase("a wing", context="unit"),
    KNOWN_WORDS["star"]: phrase("a star", context="unit"),
    KNOWN_WORDS["ring"]: phrase("a ring", context="unit"),
    KNOWN_WORDS["frame"]: phrase("a frame", context="unit"),
    KNOWN_WORDS["flower"]: phrase("a flower", context="unit"),
    KNOWN_WORDS["petal"]: phrase("a petal", context="unit"),
    KNOWN_WORDS["top row"]: phrase("a top row", context="unit"),
    KNOWN_WORDS["middle row"]: phrase("a middle row", context="unit"),
    KNOWN_WORDS["bottom row"]: phrase("a bottom row", context="unit"),
    KNOWN_WORDS["top half"]: phrase("a top half", context="unit"),
    KNOWN_WORDS["bottom half"]: phrase("a bottom half", context="unit"),
    KNOWN_WORDS["left half"]: phrase("a left half", context="unit"),
    KNOWN_WORDS["right half"]: phrase("a right half", context="unit"),
}
"""Usual names with their articles: other languages have these by the gender of the word."""

NUMBERED = {
    KNOWN_WORDS["block"]: phrase("block", context="numbered"),
    KNOWN_WORDS["row"]: phrase("row", context="numbered"),
    KNOWN_WORDS["pair"]: phrase("pair", context="numbered"),
    KNOWN_WORDS["three"]: phrase("three", context="numbered"),
    KNOWN_WORDS["half"]: phrase("half", context="numbered"),
    KNOWN_WORDS["third"]: phrase("third", context="numbered"),
    KNOWN_WORDS["quarter"]: phrase("quarter", context="numbered"),
    KNOWN_WORDS["fifth"]: phrase("fifth", context="numbered"),
    KNOWN_WORDS["sixth"]: phrase("sixth", context="numbered"),
    KNOWN_WORDS["eighth"]: phrase("eighth", context="numbered"),
    KNOWN_WORDS["unit"]: phrase("unit", context="numbered"),
    KNOWN_WORDS["part"]: phrase("part", context="numbered"),
    KNOWN_WORDS["top"]: phrase("top", context="numbered"),
    KNOWN_WORDS["middle"]: phrase("middle", context="numbered"),
    KNOWN_WORDS["bottom"]: phrase("bottom", context="numbered"),
    KNOWN_WORDS["side"]: phrase("side", context="numbered"),
    KNOWN_WORDS["corner"]: phrase("corner", context="numbered"),
    KNOWN_WORDS["strip"]: phrase("strip", context="numbered"),
    KNOWN_WORDS["wing"]: phrase("wing", context="numbered"),
    KNOWN_WORDS["star"]: phrase("star", context="numbered"),
    KNOWN_WORDS["ring"]: phrase("ring", context="numbered"),
    KNOWN_WORDS["frame"]: phrase("frame", context="numbered"),
    KNOWN_WORDS["flower"]: phrase("flower", context="numbered"),
    KNOWN_WORDS["petal"]: phrase("petal", context="numbered"),
    KNOWN_WORDS["top row"]: phrase("top row", context="numbered"),
    KNOWN_WORDS["middle row"]: phrase("middle row", context="numbered"),
    KNOWN_WORDS["bottom row"]: phrase("bottom row", context="numbered"),
    KNOWN_WORDS["top half"]: phrase("top half", context="numbered"),
    KNOWN_WORDS["bottom half"]: phrase("bottom half", context="numbered"),
    KNOWN_WORDS["left half"]: phrase("left half", context="numbered"),
    KNOWN_WORDS["right half"]: phrase("right half", context="numbered"),
}
"""Usual names as they stand before a number or a letter of their own, as in "row 1": French has its article there, too."""

SEVERAL: dict[Text, Callable[[int], Phrase]] = {
    KNOWN_WORDS["block"]: lambda n: phrase("{n} blocks", context="unit", n=n),
    KNOWN_WORDS["row"]: lambda n: phrase("{n} rows", context="unit", n=n),
    KNOWN_WORDS["pair"]: lambda n: phrase("{n} pairs", context="unit", n=n),
    KNOWN_WORDS["three"]: lambda n: phrase("{n} threes", context="unit", n=n),
    KNOWN_WORDS["half"]: lambda n: phrase("{n} halves", context="unit", n=n),
    KNOWN_WORDS["third"]: lambda n: phrase("{n} thirds", context="unit", n=n),
    KNOWN_WORDS["quarter"]: lambda n: phrase("{n} quarters", context="unit", n=n),
    KNOWN_WORDS["fifth"]: lambda n: phrase("{n} fifths", context="unit", n=n),
    KNOWN_WORDS["sixth"]: lambda n: phrase("{n} sixths", context="unit", n=n),
    KNOWN_WORDS["eighth"]: lambda n: phrase("{n} eighths", context="unit", n=n),
    KNOWN_WORDS["unit"]: lambda n: phrase("{n} units", context="unit", n=n),
    KNOWN_WORDS["part"]: lambda n: phrase("{n} parts", context="unit", n=n),
    KNOWN_WORDS["top"]: lambda n: phrase("{n} tops", context="unit", n=n),
    KNOWN_WORDS["middle"]: lambda n: phrase("{n} middles", context="unit", n=n),
    KNOWN_WORDS["bottom"]: lambda n: phrase("{n} bottoms", context="unit", n=n),
    KNOWN_WORDS["side"]: lambda n: phrase("{n} sides", context="unit", n=n),
    KNOWN_WORDS["corner"]: lambda n: phrase("{n} corners", context="unit", n=n),
    KNOWN_WORDS["strip"]: lambda n: phrase("{n} strips", context="unit", n=n),
    KNOWN_WORDS["wing"]: lambda n: phrase("{n} wings", context="unit", n=n),
    KNOWN_WORDS["star"]: lambda n: phrase("{n} stars", context="unit", n=n),
    KNOWN_WORDS["ring"]: lambda n: phrase("{n} rings", context="unit", n=n),
    KNOWN_WORDS["frame"]: lambda n: phrase("{n} frames", context="unit", n=n),
    KNOWN_WORDS["flower"]: lambda n: phrase("{n} flowers", context="unit", n=n),
    KNOWN_WORDS["petal"]: lambda n: phrase("{n} petals", context="unit", n=n),
    KNOWN_WORDS["top row"]: lambda n: phrase("{n} top rows", context="unit", n=n),
    KNOWN_WORDS["middle row"]: lambda n: phrase("{n} middle rows", context="unit", n=n),
    KNOWN_WORDS["bottom row"]: lambda n: phrase("{n} bottom rows", context="unit", n=n),
    KNOWN_WORDS["top half"]: lambda n: phrase("{n} top halves", context="unit", n=n),
    KNOWN_WORDS["bottom half"]: lambda n: phrase("{n} bottom halves", context="unit", n=n),
    KNOWN_WORDS["left half"]: lambda n: phrase("{n} left halves", context="unit", n=n),
    KNOWN_WORDS["right half"]: lambda n: phrase("{n} right halves", context="unit", n=n),
}
"""Usual names, more than one of them."""

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
    known = SEVERAL.get(unit) if isinstance(unit, Phrase) else None
    if known and step:
        return phrase("{unit} (step {step})", unit=known(n), step=step)
    if known:
        return known(n)
    if not _takes_s(unit):
        return (
            phrase("{n} × {unit} (step {step})", n=n, unit=unit, step=step)
            if step
            else phrase("{n} × {unit}", n=n, unit=unit)
        )
    if step:
        return phrase("{n} {unit}s (step {step})", n=n, unit=unit, step=step)
    return phrase("{n} {unit}s", n=n, unit=unit)


def the(unit: Text) -> Text:
    """A unit, as the one there is: "the half"."""
    known = THE.get(unit) if isinstance(unit, Phrase) else None
    return known or phrase("the {unit}", unit=unit)


def numbered(unit: Text) -> Text:
    """A unit whose name ends in a number or a letter of its own, as the one there is: "row 1"."""
    if isinstance(unit, Phrase) and unit.message == "{unit} {mark}":
        values = dict(unit.values)
        known = NUMBERED.get(values["unit"]) if isinstance(values["unit"], Phrase) else None
        return phrase("{unit} {mark}", unit=known, mark=values["mark"]) if known else unit
    if isinstance(unit, Phrase) and unit.message == "section {letter}":
        return phrase("section {letter}", context="numbered", letter=dict(unit.values)["letter"])
    return unit


def one(unit: Text) -> Text:
    """One of alike units: "a half"."""
    if isinstance(unit, Phrase) and unit in ONE:
        return ONE[unit]
    if unit[:1].lower() in "aeiou":
        return phrase("an {unit}", unit=unit)
    return phrase("a {unit}", unit=unit)


def _takes_s(unit: Text) -> bool:
    """Whether the English plural of a name is surely just an s more."""
    last, end = unit[-1:].lower(), unit.rpartition(" ")[2]
    if end.isupper() and end != unit:  # "section A"
        return False
    return last.isascii() and last.isalpha() and not unit.lower().endswith(_NO_PLAIN_S)
