"""Floor 1, crafts: the arithmetic of rotary cutting, as pure functions on exact inches.

`s` is the seam allowance. Exact additions come from offsetting the outline (plane geometry); rules of the
trade that round them are named `…_rule` or take a `step` to round up to.
"""

from __future__ import annotations

import math
from fractions import Fraction

from booklet.kit.measure import EIGHTH, ZERO, Length, Rounding

ROOT_2 = math.sqrt(2)
QUARTER = Length.of("1/4")


def up(value: float, step: Fraction = EIGHTH) -> Length:
    """A figure rounded up to what the ruler shows; within a millionth of a step's multiple it is that."""
    return Length.of(value).rounded(step, Rounding.UP)


def straight_addition(s: Length = QUARTER) -> Length:
    """What a square, a rectangle or a strip needs beyond its finished size: 2 s."""
    return 2 * s


def half_square_addition(s: Length = QUARTER) -> float:
    """What the square of two half-square triangles needs beyond the finished leg: s (2 + √2)."""
    return float(s) * (2 + ROOT_2)


def quarter_square_addition(s: Length = QUARTER) -> float:
    """What the square of four quarter-square triangles needs beyond the long side: s (2 + 2 √2)."""
    return float(s) * (2 + 2 * ROOT_2)


def half_square(leg: float, s: Length = QUARTER, trim: Length = ZERO) -> float:
    """The exact square cut once from corner to corner for 2 triangles; `trim` is a margin to trim off."""
    return leg + half_square_addition(s) + float(trim)


def quarter_square(base: float, s: Length = QUARTER, trim: Length = ZERO) -> float:
    """The exact square cut twice from corner to corner for 4 triangles with this finished long side."""
    return base + quarter_square_addition(s) + float(trim)


def half_rectangle(width: float, height: float, s: float = 0.25) -> tuple[float, float]:
    """The exact rectangle cut once for 2 right triangles with these finished legs.

    Leg a grows by s (1 + (a + c) / b) and leg b by s (1 + (b + c) / a), c being the long side.
    """
    long = math.hypot(width, height)
    return (
        width + s * (1 + (width + long) / height),
        height + s * (1 + (height + long) / width),
    )


# Units sewn first and cut afterwards, as options of the author.


def four_half_squares(leg: float, s: float = 0.25) -> float:
    """The two squares for 4 half-square units, sewn all round and cut on both diagonals: the unfinished
    unit times √2, and the two seams. The edges of the units are on the bias."""
    return (leg + 2 * s) * ROOT_2 + 2 * s


def eight_half_squares(leg: float, s: Length = QUARTER, trim: Length = ZERO) -> float:
    """The two squares for 8 half-square units at a time: twice what two at a time take."""
    return 2 * half_square(leg, s, trim)


def four_geese(
    width: float, height: float, s: Length = QUARTER, trim: Length = ZERO
) -> tuple[float, float]:
    """Flying geese four at a time: the large square (1) and the small squares (4) for a finished unit, a
    quarter-square and a half-square square."""
    return quarter_square(width, s, trim), half_square(height, s, trim)


def square_in_square(side: float, s: Length = QUARTER, trim: Length = ZERO) -> tuple[float, float]:
    """The centre square, and the 2 squares cut once each for the corners, of a unit that finishes `side`.

    The centre's side is the unit's over √2, the corners' legs are half of the unit's side.
    """
    return side / ROOT_2 + float(straight_addition(s)), half_square(side / 2, s, trim)
