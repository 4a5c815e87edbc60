"""Floor 1, crafts: the arithmetic of cutting in the words of the trade: "3 finished + 7/8 = 3 7/8"."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from booklet.crafts.rotary.marks import HAIR, CutBy
from booklet.kit.measure import (
    EIGHTH,
    INCH_MM,
    MILLIMETRE,
    MM_PER_INCH,
    ZERO,
    Length,
    UnitSystem,
    decimal_text,
    exact_text,
    on_scale,
    snapped,
)
from booklet.kit.words import Digits, Text, in_units, phrase


class SumLine(str):
    """One line of a sum: what it is of (`words`), and its `figure` with unit; `role` says whether it
    adds, is the total, or what is sold. As a string it is the whole line in English."""

    __slots__ = ("figure", "role", "words")
    words: Text
    figure: Text
    role: Literal["adds", "total", "sold"]

    def __new__(
        cls, words: Text, joint: str, figure: Text, role: Literal["adds", "total", "sold"] = "adds"
    ) -> SumLine:
        """The line; `joint` stands between words and figure where it is printed in one."""
        self = super().__new__(cls, f"{words}{joint}{figure}")
        self.words, self.figure, self.role = words, figure, role
        return self

    def __reduce__(self) -> tuple[type[SumLine], tuple[Text, str, Text, str]]:
        joint = str(self)[len(self.words) : len(self) - len(self.figure)]
        return SumLine, (self.words, joint, self.figure, self.role)


def unit(units: UnitSystem) -> str:
    """The word for the units."""
    return "in" if units == "inch" else "cm"


def added(
    finished: float, exact: float, cut: Length, units: UnitSystem, by: CutBy = CutBy.RULER
) -> Text:
    """The sum from a finished figure to the one to cut, in inches or centimetres without the word.

    A finished figure that the ruler shows, or a sum that comes out even, is plain; any other, and what is rounded by
    more than a mark, is written in decimals with its rounding named, or the template that makes it exact.
    """
    whole = snapped(finished)
    step = EIGHTH if units == "inch" else MILLIMETRE
    even = on_scale(Length(whole), units) and abs(float(cut) - exact) <= HAIR
    terms = [Digits(figure) for figure in adding_up(finished, exact, units)]
    if by is CutBy.TEMPLATE and not even:
        return phrase(
            "{finished} finished + {more} = {exact}, by template from {cut}",
            finished=terms[0],
            more=terms[1],
            exact=terms[2],
            cut=Digits(say(cut.inches, units)),
        )
    if even or ((whole / step).denominator == 1 and float(cut) - exact <= float(step) + HAIR):
        more = Length(cut.inches - whole)
        return phrase(
            "{finished} finished + {more} = {cut}",
            finished=Digits(say(whole, units)),
            more=Digits(say(more.inches, units)),
            cut=Digits(say(cut.inches, units)),
        )
    return phrase(
        "{finished} finished + {more} = {exact}, rounded up {cut}",
        finished=terms[0],
        more=terms[1],
        exact=terms[2],
        cut=Digits(say(cut.inches, units)),
    )


def adding_up(finished: float, exact: float, units: UnitSystem) -> tuple[str, str, str]:
    """A finished figure, what is added, and both together, so that they add up as they are printed; in so few decimals
    that the last is no mark of a ruler that it only comes near: 2.0003 is more than 2."""
    near = not on_scale(Length.of(exact), units)
    for digits in (2, 3, 4):
        one, both = (Fraction(decimal(value, units, digits)) for value in (finished, exact))
        inches = both if units == "inch" else both * 10 / MM_PER_INCH
        if not (near and on_scale(Length(inches), units)):
            break
    return (
        decimal_text(float(one), 6),
        decimal_text(float(both - one), 6),
        decimal_text(float(both), 6),
    )


def by_template(width: float, height: float, units: UnitSystem) -> Text:
    """What room a piece takes on the cloth."""
    size = phrase(
        "{width} x {height}",
        width=Digits(decimal(width, units)),
        height=in_units(decimal(height, units), units),
    )
    return phrase("by template; it takes {size} of cloth", size=size)


def say(inches: Fraction, units: UnitSystem) -> str:
    """An exact figure without its unit: a mixed fraction, or centimetres."""
    return exact_text(Length(inches), units)


def decimal(inches: float, units: UnitSystem, few: int = 2) -> str:
    """A figure in decimals, trailing noughts left out: all of them if it stands on a ruler's scale, as
    allowances do; else a few."""
    value = inches if units == "inch" else inches * INCH_MM / 10
    digits = 6 if on_scale(Length.of(inches), units) else few
    return decimal_text(value, digits)


def terms(finished: float, more: str, trim: Length, units: UnitSystem) -> Text:
    """The terms of a cut size: "3 finished + 7/8 + 1/4 to trim"."""
    if trim > ZERO:
        return phrase(
            "{finished} finished + {more} + {trim} to trim",
            finished=Digits(decimal(finished, units)),
            more=Digits(more),
            trim=Digits(say(trim.inches, units)),
        )
    return phrase(
        "{finished} finished + {more}", finished=Digits(decimal(finished, units)), more=Digits(more)
    )


def rounded(terms: Text, exact: float, cut: Length, units: UnitSystem) -> Text:
    """A sum that is rounded up to what a ruler shows."""
    return phrase(
        "{terms} = {exact}, rounded up {cut}",
        terms=terms,
        exact=Digits(decimal(exact, units)),
        cut=Digits(say(cut.inches, units)),
    )
