"""Floor 7: how much to buy. From the length of the strips to what is sold, the sum line by line."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from booklet.cutting.cutting_plan import Buy
from booklet.cutting.sums import say, unit
from booklet.measure import (
    EIGHTH,
    INCHES_PER_METRE,
    INCHES_PER_YARD,
    Length,
    Rounding,
    UnitSystem,
    mixed,
    round_to,
)
from booklet.pattern import Fabric

STRAIGHTENING = Length.of("1/2")
"""Cut off to make the first edge straight. A quilt-shop chart of squares per yard fits a loss of more than
0 and at most 1/2 in (Fabric Cutting Chart); the larger end is taken, since cloth must not run out."""

EIGHTH_YARD = Length(INCHES_PER_YARD * EIGHTH)
TENTH_METRE = Length(INCHES_PER_METRE / 10)


@dataclass(frozen=True, slots=True)
class Amount:
    """What to buy and the sum that leads to it, line by line."""

    buy: Buy
    sum: tuple[str, ...]


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
    straightening: Length = STRAIGHTENING,
) -> Amount:
    """What to buy for strips (count, width) and other lengths (words, length) of a fabric."""
    word = unit(units)
    lines = [
        f"{count} strip{'s' if count > 1 else ''} {say(width.inches, units)} {word}"
        f" = {say((count * width).inches, units)} {word}"
        for count, width in strips
    ]
    total = sum((count * width for count, width in strips), Length(Fraction(0)))
    for words, length in more:
        lines.append(f"{words}: {say(length.inches, units)} {word}")
        total = total + length
    total = total + straightening
    lines.append(f"straightening the edge: {say(straightening.inches, units)} {word}")
    lines.append(f"together {say(total.inches, units)} {word}")
    lines += _extras(total, fabric, units)
    exact, bought = to_buy(total, fabric), sold(total, fabric)
    buy = _buy(exact, bought, fabric.sold.metric)
    if fabric.sold.metric:
        lines.append(f"rounded up to what is sold: {_metres(buy.metres)}")
    else:
        lines.append(f"rounded up to what is sold: {buy.yards_text} yd")
    return Amount(buy, tuple(lines))


def _extras(total: Length, fabric: Fabric, units: UnitSystem) -> list[str]:
    """The lines for shrinkage and extras, where there are any."""
    word, lines = unit(units), []
    if fabric.shrinks:
        left = 1 - fabric.shrinks
        washed = total.inches / left
        lines.append(
            f"shrinking by {float(fabric.shrinks * 100):g} %: divided by {float(left):g}"
            f" = {_about(washed, units)} {word}"
        )
    if fabric.extra_share:
        lines.append(f"extra: {float(fabric.extra_share * 100):g} %")
    if fabric.extra.inches:
        lines.append(f"extra: {say(fabric.extra.inches, units)} {word}")
    if lines:
        lines.append(f"in all {_about(to_buy(total, fabric).inches, units)} {word}")
    return lines


def _buy(exact: Length, bought: Length, metric: bool) -> Buy:
    """The amount in yards and metres; the one that is not sold is rounded up from the exact length."""
    other = TENTH_METRE if not metric else EIGHTH_YARD
    converted = exact.rounded(other.inches, Rounding.UP)
    in_yards, in_metres = (converted, bought) if metric else (bought, converted)
    yards = in_yards.inches / INCHES_PER_YARD
    return Buy(yards, in_metres.inches / INCHES_PER_METRE, mixed(yards))


def _metres(metres: Fraction) -> str:
    return f"{float(metres):g} m"


def _about(inches: Fraction, units: UnitSystem) -> str:
    """A figure that need not be a fraction the ruler shows, rounded up to hundredths."""
    value = inches if units == "inch" else inches * Fraction(254, 100)
    return f"{float(round_to(value, Fraction(1, 100), Rounding.UP)):g}"
