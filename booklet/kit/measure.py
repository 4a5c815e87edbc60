"""Floor 0: exact lengths. Reads, adds and prints them; names every rounding.

A `Length` is an exact number of inches (1 in = 25.4 mm exactly, international inch of 1959). An
`Extent` is what a designer wrote inside a patch or block: a number of design units, or a length.
"""

from __future__ import annotations

import math
import re
from enum import Enum
from fractions import Fraction
from typing import Literal

from booklet.kit.arithmetic import (
    MeasureError as MeasureError,
    Number as Number,
    quoted,
    read_number as read_number,
)
from booklet.kit.bounds import LONGEST_ARITHMETIC, MOST_INCHES
from booklet.kit.outlines.near import SNAP
from booklet.kit.records import Record

UnitSystem = Literal["inch", "cm"]

MM_PER_INCH = Fraction(254, 10)
INCH_MM = float(MM_PER_INCH)
POINT_MM = INCH_MM / 72
"""The point of type and of PDF: 72 to the inch."""
INCHES_PER_YARD = 36
INCHES_PER_METRE = Fraction(1000) / MM_PER_INCH
EIGHTH = Fraction(1, 8)
SIXTEENTH = Fraction(1, 16)
MILLIMETRE = 1 / MM_PER_INCH
_ROUND = {  # what a rough figure may be a multiple of, and to what an estimate is rounded
    "inch": (Fraction(1, 4), Fraction(1)),
    "cm": (10 * MILLIMETRE, 10 * MILLIMETRE),
}
_BESIDE = {"inch": SIXTEENTH, "cm": MILLIMETRE / 2}  # the finest that is read off a ruler
_SCALES = {"inch": Fraction(1, 64), "cm": MILLIMETRE / 4}

_INCHES_PER = {
    "in": Fraction(1), "inch": Fraction(1), "inches": Fraction(1), '"': Fraction(1),
    "″": Fraction(1), "”": Fraction(1), "mm": 1 / MM_PER_INCH, "cm": 10 / MM_PER_INCH,
    "m": 1000 / MM_PER_INCH, "yd": Fraction(36), "yard": Fraction(36), "yards": Fraction(36),
}  # fmt: skip
_LENGTH = re.compile(
    r"^\s*(?P<number>.*?)\s*(?P<unit>(?<![A-Za-z])(?:inches|inch|in|mm|cm|m|yards|yard|yd|u|[\"″”]))?\s*$"
)


class Rounding(Enum):
    """How a printed figure is rounded: a cutting figure is never rounded below what is needed."""

    UP = "up"
    NEAREST = "nearest"
    DOWN = "down"


class Length(Record, order=True):
    """An exact length in inches."""

    inches: Fraction

    @classmethod
    def of(cls, value: str | int | float | Fraction | Length) -> Length:
        """The length of text such as '3 7/8 in' (a bare number is inches), or of a number of inches.

        Raises MeasureError for text that is no length.
        """
        if isinstance(value, Length):
            return value
        if isinstance(value, str):
            return read_length(value, bare="in")
        if isinstance(value, float):
            return cls(snapped(value))
        return cls(Fraction(value))

    def __add__(self, other: Length) -> Length:
        return Length(self.inches + other.inches)

    def __sub__(self, other: Length) -> Length:
        return Length(self.inches - other.inches)

    def __mul__(self, factor: int | Fraction) -> Length:
        return Length(self.inches * factor)

    __rmul__ = __mul__

    def __truediv__(self, divisor: int | Fraction) -> Length:
        return Length(self.inches / divisor)

    def __float__(self) -> float:
        return float(self.inches)

    def __str__(self) -> str:
        return mixed(self.inches)

    @property
    def mm(self) -> float:
        """The length in millimetres."""
        return float(self.inches * MM_PER_INCH)

    def rounded(self, step: Fraction, how: Rounding) -> Length:
        """This length rounded to a multiple of `step` inches; within SNAP of one it is that one."""
        return Length(round_to(self.inches, step, how))


ZERO = Length(Fraction(0))


class Extent(Record):
    """A number of design units (`in_units`), or an absolute length in inches."""

    value: Number
    in_units: bool

    def inches(self, unit: Length) -> float:
        """The extent in inches where one design unit is `unit` long."""
        return float(self.value) * (float(unit) if self.in_units else 1.0)


def snapped(value: float) -> Fraction:
    """The simple fraction (denominator up to 64, or tenths of a mm) within SNAP of value, else value."""
    for denominator in (64, 100):
        near = Fraction(round(value * denominator), denominator)
        if abs(float(near) - value) <= SNAP:
            return near
    metric = Fraction(round(value * 254), 254)
    if abs(float(metric) - value) <= SNAP:
        return metric
    return Fraction(value).limit_denominator(10**9)


def round_to(value: Fraction, step: Fraction, how: Rounding) -> Fraction:
    """`value` rounded to a multiple of `step`; a value within SNAP of a multiple is that multiple."""
    count = value / step
    nearest = Fraction(math.floor(count + Fraction(1, 2)))
    if how is Rounding.NEAREST or abs(nearest * step - value) <= Fraction(SNAP):
        return nearest * step
    return (math.ceil(count) if how is Rounding.UP else math.floor(count)) * step


def decimal_text(value: float, places: int) -> str:
    """A number with at most so many decimals, without needless zeros, never "-0"."""
    text = f"{value:.{places}f}"
    if places:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def mixed(value: Fraction) -> str:
    """A fraction as a mixed number: 3 7/8, 1/4, -2 1/2, 4. A denominator over 64 prints decimals."""
    sign, value = ("-" if value < 0 else ""), abs(value)
    if value.denominator > 64:
        return sign + decimal_text(float(value), 3)
    whole, rest = divmod(value, 1)
    if not rest:
        return f"{sign}{whole}"
    fraction = f"{rest.numerator}/{rest.denominator}"
    return f"{sign}{whole} {fraction}" if whole else f"{sign}{fraction}"


def length_text(
    length: Length, units: UnitSystem, step: Fraction = EIGHTH, how: Rounding = Rounding.NEAREST
) -> str:
    """A length without its unit: itself where it stands on a ruler's scale, unless it is rounded down; else
    a mixed fraction to `step` inches, or centimetres to 1 mm."""
    if how is not Rounding.DOWN and on_scale(length, units):
        return exact_text(length, units)
    if units == "inch":
        return mixed(round_to(length.inches, step, how))
    return cm_text(round_to(length.inches, MILLIMETRE, how))


class Printed(Enum):
    """What a length is printed for, which decides how it is rounded: the one list of all roundings."""

    CUT = "cut"  # what is cut: up to 1/8 in or 1 mm, never below what is needed
    BESIDE = "beside"  # the same in the units in which it was not planned: up to 1/16 in or 1/2 mm
    FINISHED = "finished"  # what is measured: to the nearest 1/16 in or 1 mm
    EXACT = "exact"  # what was written, such as an allowance: never rounded
    LEFT = "left"  # what is left over: down to 1/8 in or 1 mm, never above what is there
    ENOUGH = "enough"  # what must be there at least, such as a width of cloth: up to 1/4 in or 1 cm
    ABOUT = "about"  # an estimate, such as a thread: to the nearest inch or centimetre


def printed(length: Length, units: UnitSystem, kind: Printed) -> str:
    """A length without its unit, rounded as what it is printed for asks. A rough figure that is round in
    `units` stays as it is; one converted is made as rough as it was."""
    match kind:
        case Printed.CUT:
            return length_text(length, units, EIGHTH, Rounding.UP)
        case Printed.BESIDE:
            return exact_text(length.rounded(_BESIDE[units], Rounding.UP), units)
        case Printed.FINISHED:
            return length_text(length, units, SIXTEENTH, Rounding.NEAREST)
        case Printed.EXACT:
            return exact_text(length, units)
        case Printed.LEFT:
            return length_text(length, units, EIGHTH, Rounding.DOWN)
    fine = _ROUND[units]
    how, step = (Rounding.UP, fine[0]) if kind is Printed.ENOUGH else (Rounding.NEAREST, fine[1])
    if (length.inches / fine[0]).denominator == 1 or length.inches < 2 * step:
        return length_text(length, units)
    return exact_text(Length(round_to(length.inches, step, how)), units)


def angle_text(degrees: float) -> str:
    """An angle in degrees, to a tenth, finer than which no ruler is laid: 60, 63.4."""
    return decimal_text(degrees, 1)


def other_units(units: UnitSystem) -> UnitSystem:
    """Centimetres for inches, inches for centimetres."""
    return "cm" if units == "inch" else "inch"


def on_scale(length: Length, units: UnitSystem) -> bool:
    """Whether a length stands on some ruler's scale, so that it is printed as it is: a multiple of
    1/64 in, or of 1/4 mm. In centimetres a whole number of sixteenths of an inch, such as 6.35, was
    written in inches, whose conversion is printed to the millimetre."""
    if units == "cm" and (length.inches / SIXTEENTH).denominator == 1:
        return (length.inches / MILLIMETRE).denominator == 1
    return (length.inches / _SCALES[units]).denominator == 1


def exact_text(length: Length, units: UnitSystem) -> str:
    """A length without its unit in as many digits as its author wrote, such as an allowance: 3/16, 0.75."""
    return mixed(length.inches) if units == "inch" else cm_text(length.inches)


def cm_text(inches: Fraction) -> str:
    """Inches as centimetres, with as many decimals as they need, at most three: 102, 6.4, 0.625."""
    return decimal_text(float(inches * MM_PER_INCH / 10), 3)


def read_extent(value: str | int | float, bare: Literal["u", "in", "cm"]) -> Extent:
    """The extent that a value in the source means; `bare` is the unit of a number without one.

    Raises MeasureError with a sentence for the reader.
    """
    if isinstance(value, float) and not math.isfinite(value):
        raise MeasureError(f"`{value}` is not a length")
    text = value if isinstance(value, str) else format(value, ".12f")
    match = _LENGTH.match(" ".join(text.split())) if len(text) <= LONGEST_ARITHMETIC else None
    if match is None or not match["number"]:
        raise MeasureError(f"{quoted(text)} is not a length")
    unit = match["unit"] or bare
    number = read_number(match["number"])
    if unit == "u":
        _guard(number, text)
        return Extent(number, in_units=True)
    inches = (
        number * _INCHES_PER[unit]
        if isinstance(number, Fraction)
        else number * float(_INCHES_PER[unit])
    )
    _guard(inches, text)
    return Extent(inches, in_units=False)


def _guard(number: Number, text: str) -> None:
    """Refuse a size no cloth has."""
    if not -MOST_INCHES <= number <= MOST_INCHES:
        raise MeasureError(f"{quoted(text)} is larger than any quilt")


def read_length(value: str | int | float, bare: Literal["in", "cm"] = "in") -> Length:
    """The length that text means; a bare number is in `bare`. Raises MeasureError."""
    extent = read_extent(value, bare)
    if extent.in_units:
        message = (
            f"{quoted(str(value))} is in design units; a length in in, cm or mm is needed here"
        )
        raise MeasureError(message)
    inches = extent.value
    return Length(inches if isinstance(inches, Fraction) else snapped(inches))
