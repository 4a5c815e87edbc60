"""Floor 7: how much to buy. From the length of the strips to what is sold, the sum line by line."""

from __future__ import annotations

from fractions import Fraction

from booklet.crafts.rotary.sums import SumLine, say
from booklet.cutting.cutting_plan import Buy
from booklet.kit.measure import (
    EIGHTH,
    INCHES_PER_METRE,
    INCHES_PER_YARD,
    Length,
    Rounding,
    UnitSystem,
    mixed,
    round_to,
)
from booklet.kit.records import Record
from booklet.kit.trade import LONGEST_RULER, STRAIGHTENING
from booklet.kit.words import Digits, Phrase, in_units, phrase, plural_phrase
from booklet.pattern import Fabric

EIGHTH_YARD = Length(INCHES_PER_YARD * EIGHTH)
TENTH_METRE = Length(INCHES_PER_METRE / 10)


class Yardage(Record):
    """What to buy and the sum that leads to it, line by line."""

    buy: Buy
    sum: tuple[SumLine, ...]


def to_buy(length: Length, fabric: Fabric) -> Length:
    """The length to ask for before rounding: length / (1 - shrinkage), plus the extras.

    Dividing, not multiplying: of cloth that shrinks by p, L / (1 - p) leaves L (derived).
    """
    washed = length.inches / (1 - fabric.shrinks)
    return Length(washed * (1 + fabric.extra_share) + fabric.extra.inches)


def sold(length: Length, fabric: Fabric) -> Length:
    """The amount sold for a length of cloth (straightening included): shrinkage, extras, rounded up."""
    return to_buy(length, fabric).rounded(fabric.sold.step.inches, Rounding.UP)


def amount(
    strips: tuple[tuple[int, Length], ...],
    fabric: Fabric,
    units: UnitSystem,
    more: tuple[tuple[str, Length], ...] = (),
    straightening: Length = STRAIGHTENING.inch,
) -> Yardage:
    """What to buy for strips (count, width) and other lengths (words, length) of a fabric."""
    lines = [_strips(count, width, units) for count, width in strips]
    total = sum((count * width for count, width in strips), Length(Fraction(0)))
    for words, length in more:
        lines.append(SumLine(words, ": ", said(length.inches, units)))
        total = total + length
    total = total + straightening
    edge = phrase("straightening the edge")
    lines.append(SumLine(edge, ": ", said(straightening.inches, units)))
    lines.append(SumLine(phrase("together"), " ", said(total.inches, units), "total"))
    lines += _extras(total, fabric, units)
    exact, bought = to_buy(total, fabric), sold(total, fabric)
    buy = _buy(exact, bought, fabric.sold.metric)
    bought_text = _metres(buy.metres) if fabric.sold.metric else yards(buy.yards)
    lines.append(SumLine(phrase("rounded up to what is sold"), ": ", bought_text, "sold"))
    return Yardage(buy, tuple(lines))


def _strips(count: int, width: Length, units: UnitSystem) -> SumLine:
    """The line of some strips of one width, or of lengths of cloth that are parted in another way."""
    wide = said(width.inches, units)
    words = plural_phrase("{n} strip, {width}", "{n} strips, {width}", count, width=wide)
    if width > LONGEST_RULER:
        words = plural_phrase("{n} length of {width}", "{n} lengths of {width}", count, width=wide)
    return SumLine(words, " = ", said((count * width).inches, units))


def said(inches: Fraction, units: UnitSystem) -> Phrase:
    """An exact figure with its unit."""
    return in_units(say(inches, units), units)


def yards(amount: Fraction) -> Phrase:
    """An amount of cloth in yards."""
    return phrase("{figure} yd", figure=Digits(mixed(amount)))


def _extras(total: Length, fabric: Fabric, units: UnitSystem) -> list[SumLine]:
    """The lines for shrinkage and extras, where there are any."""
    lines: list[SumLine] = []
    if fabric.shrinks:
        left = 1 - fabric.shrinks
        washed = total.inches / left
        shrinking = phrase(
            "shrinking by {percent} percent: divided by {left}",
            percent=fabric.shrinks * 100,
            left=left,
        )
        lines.append(SumLine(shrinking, " = ", in_units(_about(washed, units), units)))
    if fabric.extra_share:
        percent = phrase("{percent} percent", percent=fabric.extra_share * 100)
        lines.append(SumLine(phrase("extra", context="cloth"), ": ", percent))
    if fabric.extra.inches:
        spare = said(fabric.extra.inches, units)
        lines.append(SumLine(phrase("extra", context="cloth"), ": ", spare))
    if lines:
        whole = in_units(_about(to_buy(total, fabric).inches, units), units)
        lines.append(SumLine(phrase("in all"), " ", whole, "total"))
    return lines


def _buy(exact: Length, bought: Length, metric: bool) -> Buy:
    """The amount in yards and metres; the one that is not sold is rounded up from the exact length."""
    other = TENTH_METRE if not metric else EIGHTH_YARD
    converted = exact.rounded(other.inches, Rounding.UP)
    in_yards, in_metres = (converted, bought) if metric else (bought, converted)
    yards = in_yards.inches / INCHES_PER_YARD
    return Buy(yards=yards, metres=in_metres.inches / INCHES_PER_METRE, yards_text=mixed(yards))


def _metres(metres: Fraction) -> Phrase:
    return phrase("{figure} m", figure=Digits(f"{float(metres):g}"))


def _about(inches: Fraction, units: UnitSystem) -> str:
    """A figure that need not be a fraction the ruler shows, rounded up to hundredths."""
    value = inches if units == "inch" else inches * Fraction(254, 100)
    return f"{float(round_to(value, Fraction(1, 100), Rounding.UP)):g}"
