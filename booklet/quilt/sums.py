"""Floor 6: sums as text. Every figure of a quilt can say how it came about."""

from __future__ import annotations

from collections.abc import Iterable

from booklet.measure import EIGHTH, MILLIMETRE, Length, Rounding, UnitSystem, length_text

TIMES, MINUS = "×", "−"


def say(length: Length, units: UnitSystem) -> str:
    """A length without its unit, as it stands in a sum: exact where eighths or mm are."""
    return length_text(length, units)


def unit_word(units: UnitSystem) -> str:
    """The unit that closes a sum: in or cm."""
    return "in" if units == "inch" else "cm"


def result(length: Length, units: UnitSystem) -> str:
    """A length with its unit, as it closes a sum."""
    return f"{say(length, units)} {unit_word(units)}"


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
