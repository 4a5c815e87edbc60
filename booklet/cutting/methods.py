"""Floor 7: the arithmetic of rotary cutting, as pure functions on exact inches.

`s` is the seam allowance. Exact additions come from offsetting the outline (plane geometry); rules of the
trade that round them are named `…_rule` or take a `step` to round up to.
"""

from __future__ import annotations

import math
from fractions import Fraction

from booklet.measure import EIGHTH, ZERO, Length, Rounding

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


def half_square(leg: Length, s: Length = QUARTER, trim: Length = ZERO) -> Length:
    """The square cut once from corner to corner for 2 triangles; `trim` is a margin to trim off."""
    return up(float(leg) + half_square_addition(s)) + trim


def quarter_square(base: Length, s: Length = QUARTER, trim: Length = ZERO) -> Length:
    """The square cut twice from corner to corner for 4 triangles with this finished long side."""
    return up(float(base) + quarter_square_addition(s)) + trim


def half_rectangle(width: float, height: float, s: float = 0.25) -> tuple[float, float]:
    """The exact rectangle cut once for 2 right triangles with these finished legs.

    Leg a grows by s (1 + (a + c) / b) and leg b by s (1 + (b + c) / a), c being the long side.
    """
    long = math.hypot(width, height)
    return (
        width + s * (1 + (width + long) / height),
        height + s * (1 + (height + long) / width),
    )


def equilateral_height_addition(s: Length = QUARTER) -> Length:
    """What the strip of equilateral triangles needs beyond their finished height: 3 s."""
    return 3 * s


def side_addition(angle: float, s: float = 0.25) -> float:
    """What the side of a parallelogram or diamond grows by: 2 s / sin(angle)."""
    return 2 * s / math.sin(math.radians(angle))


def regular_side_addition(sides: int, s: float = 0.25) -> float:
    """What the side of a regular polygon grows by: 2 s tan(180 / sides); its width grows by 2 s."""
    return 2 * s * math.tan(math.pi / sides)


def trapezoid_base_addition(angle: float, s: float = 0.25) -> float:
    """What the long base of a symmetric trapezoid grows by: 2 s (1 + cos) / sin of its base angle."""
    turn = math.radians(angle)
    return 2 * s * (1 + math.cos(turn)) / math.sin(turn)


def octagon_corner(square: float) -> float:
    """The leg cut off each corner of a square for a regular octagon: side / (2 + √2)."""
    return square / (2 + ROOT_2)


def octagon_side(square: float) -> float:
    """The side of the regular octagon in a square: side / (1 + √2)."""
    return square / (1 + ROOT_2)


# Units sewn first and cut afterwards, as options of the author.


def eight_half_squares(leg: Length, s: Length = QUARTER) -> tuple[float, Length]:
    """The two squares for 8 half-square units at a time: exact side 2 leg + 2 s (2 + √2), and rounded."""
    exact = 2 * float(leg) + 2 * half_square_addition(s)
    return exact, up(exact)


def half_squares_from(square: Length, s: Length = QUARTER) -> Length:
    """The unfinished unit that 8 at a time give from squares of this side: half of it less the seams.

    Half of it is a finished leg and s (2 + √2); the unfinished unit is that leg and 2 s. Rounded down.
    """
    exact = float(square) / 2 - half_square_addition(s) + 2 * float(s)
    return Length.of(exact).rounded(EIGHTH, Rounding.DOWN)


def four_half_squares_from(square: float, s: float = 0.25) -> tuple[float, float]:
    """The unit that two squares give, sewn all round and cut on both diagonals: unfinished, finished.

    The seam line of each quarter is square - 2 s long and is the diagonal of the unit.
    """
    unfinished = (square - 2 * s) / ROOT_2
    return unfinished, unfinished - 2 * s


def four_half_squares(leg: float, s: float = 0.25) -> float:
    """The two squares for 4 half-square units, sewn all round and cut on both diagonals: the unfinished
    unit times √2, and the two seams. The edges of the units are on the bias."""
    return (leg + 2 * s) * ROOT_2 + 2 * s


def four_geese(width: Length, s: Length = QUARTER) -> tuple[Length, Length]:
    """Flying geese four at a time: the large square (1) and the small squares (4), for a unit that
    finishes `width` x half of it: a quarter-square and a half-square square."""
    return quarter_square(width, s), half_square(width / 2, s)


def square_in_square(centre: float, s: Length = QUARTER, step: Fraction = EIGHTH) -> Length:
    """The 2 squares cut once each for the corners around a square that finishes `centre` across.

    The long side of a corner is the centre's side, so its leg is centre / √2; the leg is rounded up to
    `step` before 7/8 in (the addition, rounded up) is added, as the printed rules do.
    """
    return up(centre / ROOT_2, step) + up(half_square_addition(s), step)


def economy_centre(block: Length, s: Length = QUARTER) -> Length:
    """The centre square, as cut, of a block of a square turned twice: half of the block and seams."""
    return block / 2 + 2 * s
