"""Floor 10: cutting figures in words, for pictures of cutting."""

from __future__ import annotations

from booklet.kit.measure import Length, Printed, UnitSystem, printed
from booklet.kit.words import Phrase, in_units


def cut_text(value: float, units: UnitSystem) -> Phrase:
    """A cutting figure with its unit, never rounded down."""
    return in_units(printed(Length.of(float(value)), units, Printed.CUT), units)
