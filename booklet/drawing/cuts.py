"""Floor 10: small help for pictures of cutting: figures in words, boxes."""

from __future__ import annotations

from booklet.kit.plane import Point
from booklet.measure import Length, Printed, UnitSystem, printed
from booklet.words import Phrase, in_units


def cut_text(value: float, units: UnitSystem) -> Phrase:
    """A cutting figure with its unit, never rounded down."""
    return in_units(printed(Length.of(float(value)), units, Printed.CUT), units)


def box_at(x: float, y: float, wide: float, high: float) -> tuple[Point, ...]:
    """The corners of a box with its top left at (x, y)."""
    return (x, y), (x + wide, y), (x + wide, y + high), (x, y + high)
