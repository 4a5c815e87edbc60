"""Floor 9: the words a sewer would use: names of parts, lists, lengths with their unit.

Every English sentence that the plan composes stands in this module and in `sentences.py`.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from booklet.measure import SIXTEENTH, Length, Rounding, UnitSystem, length_text

_TRAILING_NUMBER = re.compile(r"^(.*?[^\d])(\d+)$")


def listed(words: Sequence[str], join: str = "and") -> str:
    """A list in words: "a", "a and b", "a, b and c"."""
    if len(words) <= 1:
        return "".join(words)
    return f"{', '.join(words[:-1])} {join} {words[-1]}"


def plural(count: int, one: str, many: str | None = None) -> str:
    """A count with its noun: "1 pair", "4 pairs"."""
    return f"{count} {one if count == 1 else many or one + 's'}"


def spoken(name: str, alike: bool) -> str:
    """A unit's name for the reader: "pair1" is "pair" where all pairs are alike, else "pair 1"."""
    plain = re.sub(r"[_-]+", " ", name).strip() or name
    if match := _TRAILING_NUMBER.match(plain):
        base, number = match[1].strip(), match[2]
        return base if alike else f"{base} {number}"
    return plain


def sentence(text: str) -> str:
    """The text with its first letter large."""
    return text[:1].upper() + text[1:]


def lowered(text: str) -> str:
    """The text with its first letter small, to stand after a colon."""
    return text[:1].lower() + text[1:]


def measured(inches: float, units: UnitSystem, step: Fraction = SIXTEENTH) -> str:
    """A finished length with its unit: "2 1/2 in", "6.4 cm"."""
    text = length_text(Length.of(float(inches)), units, step, Rounding.NEAREST)
    return f"{text} {unit_word(units)}"


def area_sides(width: float, height: float, units: UnitSystem, step: Fraction = SIXTEENTH) -> str:
    """Two lengths as a size: "2 1/2 in × 4 1/2 in"."""
    return f"{measured(width, units, step)} × {measured(height, units, step)}"


def unit_word(units: UnitSystem) -> str:
    """The unit printed after a length."""
    return "in" if units == "inch" else "cm"
