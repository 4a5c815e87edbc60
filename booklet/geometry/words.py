"""Floor 3: how diagnostics of this floor say lengths, areas and places."""

from __future__ import annotations

from fractions import Fraction

from booklet.geometry.tiling import Point
from booklet.measure import SNAP, Length, UnitSystem, mixed

CM_PER_INCH = 2.54


def figure(value: float) -> str:
    """A number as a mixed fraction to 1/64 where it is one, else in decimals."""
    near = Fraction(round(value * 64), 64)
    if abs(float(near) - value) <= SNAP:
        return mixed(near)
    decimals = 3 if abs(value) >= 0.01 else 6
    return f"{value:.{decimals}f}".rstrip("0").rstrip(".")


def length_words(inches: float, units: UnitSystem) -> str:
    """A length with its unit: '2 1/2 in' or '6.35 cm'."""
    if units == "cm":
        return f"{inches * CM_PER_INCH:.3g} cm"
    return f"{figure(inches)} in"


def area_words(square_inches: float, units: UnitSystem) -> str:
    """An area in words: '2 1/4 square inches' or '14.5 square centimetres'."""
    if units == "cm":
        return f"{square_inches * CM_PER_INCH**2:.3g} square centimetres"
    text = figure(square_inches)
    return f"{text} square inch" + ("" if square_inches <= 1 + SNAP else "es")


def place_words(point: Point, unit: Length) -> str:
    """A place in the block as the source counts, in units, near enough to find it: `[3.5, 2]`."""
    return f"`{place_text(point, unit, decimals=3)}`"


def place_text(point: Point, unit: Length, decimals: int = 9) -> str:
    """A position in units, exact enough to be written into the source: [3.5, 2]."""
    x, y = (_decimal(value / float(unit), decimals) for value in point)
    return f"[{x}, {y}]"


def _decimal(value: float, decimals: int) -> str:
    text = f"{value:.{decimals}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text
