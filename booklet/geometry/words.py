"""Floor 3: how diagnostics of this floor say lengths, areas and places."""

from __future__ import annotations

from fractions import Fraction

from booklet.kit.measure import Length, UnitSystem, decimal_text, mixed
from booklet.kit.outlines.near import SNAP
from booklet.kit.outlines.plane import Point

CM_PER_INCH = 2.54


def figure(value: float) -> str:
    """A number as a mixed fraction to 1/64 where it is one, else in decimals; never 0 for what is not."""
    near = Fraction(round(value * 64), 64)
    if near and abs(float(near) - value) <= SNAP:
        return mixed(near)
    return _decimals(value, 3 if abs(value) >= 0.01 else 6)


def _decimals(value: float, decimals: int) -> str:
    """A number with at most so many decimals; one too small for them is less than the last of them."""
    text = decimal_text(value, decimals)
    return f"less than {10**-decimals:.{decimals}f}" if text == "0" else text


def _centimetres(value: float) -> str:
    """A number with three figures that count, but at most six decimals."""
    places = next((n for n in range(6) if abs(value) >= 10.0 ** (2 - n)), 6)
    return _decimals(value, places)


def length_words(inches: float, units: UnitSystem) -> str:
    """A length with its unit: '2 1/2 in' or '6.35 cm'."""
    if units == "cm":
        return f"{_centimetres(inches * CM_PER_INCH)} cm"
    return f"{figure(inches)} in"


def area_words(square_inches: float, units: UnitSystem) -> str:
    """An area in words: '2 1/4 square inches' or '14.5 square centimetres'."""
    if units == "cm":
        return f"{_centimetres(square_inches * CM_PER_INCH**2)} square centimetres"
    text = figure(square_inches)
    return f"{text} square inch" + ("" if square_inches <= 1 + SNAP else "es")


def place_words(point: Point, unit: Length) -> str:
    """A place in the block as the source counts, in units, near enough to find it: `[3.5, 2]`."""
    return f"`{place_text(point, unit, decimals=3)}`"


def place_text(point: Point, unit: Length, decimals: int = 9) -> str:
    """A position in units, exact enough to be written into the source: [3.5, 2]."""
    x, y = (decimal_text(value / float(unit), decimals) for value in point)
    return f"[{x}, {y}]"
