"""Floor 6: sums as text. Every figure of a quilt can say how it came about."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from booklet.kit.measure import (
    EIGHTH,
    MILLIMETRE,
    MM_PER_INCH,
    SIXTEENTH,
    Length,
    Rounding,
    UnitSystem,
    decimal_text,
    mixed,
    on_scale,
)
from booklet.kit.words import Digits, Phrase, Text, in_units, phrase

TIMES, MINUS = "×", "−"


def say(length: Length, units: UnitSystem) -> str:
    """A length without its unit, as it stands in a sum: exact on a ruler's scale, else decimal."""
    if units == "inch":
        return mixed(length.inches) if on_scale(length, units) else _decimal(length.inches)
    return _decimal(length.inches * MM_PER_INCH / 10)


def _decimal(value: Fraction) -> str:
    """A number with up to three decimals, no needless zeros."""
    return decimal_text(float(value), 3)


def cuttable(length: Length, units: UnitSystem) -> Length:
    """A cut length as it can be measured: itself on a ruler's scale, else rounded up to 1/8 in or
    1 mm."""
    return length if on_scale(length, units) else round_up(length, units)


def sewable(length: Length, units: UnitSystem) -> Length:
    """A cut length of what is sewn raw edge to raw edge: itself on a ruler's scale, else to the nearest
    1/16 in or 1 mm. That is at most 1/32 in from what it is sewn to; rounded up to 1/8 in it would be up to
    1/8 in too long."""
    if on_scale(length, units):
        return length
    step = SIXTEENTH if units == "inch" else MILLIMETRE
    return length.rounded(step, Rounding.NEAREST)


def sum_line(
    what: Text, terms: Text, whole: Text, rounded: bool = False, nearest: bool = False
) -> Text:
    """A line of the appendix: what is worked out, its sum, and what comes of it."""
    if nearest:
        return phrase(
            "{what}: {sum}, to the nearest mark = {result}",
            what=what,
            sum=_figures(terms),
            result=whole,
        )
    if rounded:
        return phrase(
            "{what}: {sum}, rounded up = {result}", what=what, sum=_figures(terms), result=whole
        )
    return phrase("{what}: {sum} = {result}", what=what, sum=_figures(terms), result=whole)


def _figures(terms: Text) -> Text:
    """Terms of figures alone, such as "2 × 4.5", whose decimal point is a language's own."""
    return terms if isinstance(terms, Phrase) else Digits(terms)


def cut_line(what: Text, terms: Text, exact: Length, cut: Length, units: UnitSystem) -> Text:
    """The line of a figure that is cut, with how its sum was rounded to come to it."""
    return sum_line(what, terms, result(cut, units), rounded=cut > exact, nearest=cut < exact)


def result(length: Length, units: UnitSystem) -> Phrase:
    """A length with its unit, as it closes a sum."""
    return in_units(say(length, units), units)


def adds(lengths: Iterable[Length], units: UnitSystem) -> str:
    """Lengths joined by plus signs; equal neighbours are counted: 5 × 12 + 4 × 3."""
    groups: list[tuple[int, Length]] = []
    for length in lengths:
        if groups and groups[-1][1] == length:
            groups[-1] = (groups[-1][0] + 1, length)
        elif length.inches:
            groups.append((1, length))
    words = [say(x, units) if n == 1 else f"{n} {TIMES} {say(x, units)}" for n, x in groups]
    return " + ".join(words) or "0"


def cutting_step(units: UnitSystem) -> Length:
    """The step of printed cutting figures: 1/8 in or 1 mm."""
    return Length(EIGHTH if units == "inch" else MILLIMETRE)


def round_up(length: Length, units: UnitSystem) -> Length:
    """A length rounded up to what a ruler shows; a cutting figure is never too small."""
    return length.rounded(cutting_step(units).inches, Rounding.UP)
