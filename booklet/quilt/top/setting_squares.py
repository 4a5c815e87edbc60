"""Floor 6: the squares that side and corner triangles are cut from. Pure functions, their rule as a parameter."""

from __future__ import annotations

import math
from fractions import Fraction

from booklet.kit.measure import EIGHTH, Length, Rounding, UnitSystem
from booklet.kit.records import Record
from booklet.quilt.sums import cutting_step

ROOT_TWO = Fraction(math.isqrt(2 * 10**24) + 1, 10**12)  # a hair above √2: squares never too small


class SquareRule(Record, kw_only=True):
    """How the squares for setting triangles are worked out; sources differ in every part.

    `factor` is what they take for √2; the diagonal is rounded up to `diagonal_step`, then `side_add`
    (quarters of a square) or `corner_add` (halves) is added, and the cut rounded up to `cut_step`.
    """

    side_add: Length
    corner_add: Length
    factor: Fraction = ROOT_TWO
    diagonal_step: Fraction | None = None
    cut_step: Fraction | None = EIGHTH


def rule_for(allowance: Length, units: UnitSystem, ruler: Length | None = None) -> SquareRule:
    """The rule used here: exact √2 and the allowance's exact share, and their sum rounded up, once, to a mark of
    the ruler, 1/8 in or 1 mm if none is asked for. What is too large is trimmed off with the edge of the set.

    A quarter of a square needs 2 + 2√2 allowances beyond its long side (1.207 in at 1/4 in: the
    trade's 1 1/4), a half needs 2 + √2 beyond its short side (0.854 in: the trade's 7/8).
    """
    return SquareRule(
        side_add=Length(allowance.inches * (2 + 2 * ROOT_TWO)),
        corner_add=Length(allowance.inches * (2 + ROOT_TWO)),
        cut_step=(ruler or cutting_step(units)).inches,
    )


def _up(value: Fraction, step: Fraction | None) -> Fraction:
    return value if step is None else Length(value).rounded(step, Rounding.UP).inches


def side_square(block: Length, rule: SquareRule) -> Length:
    """The square that four side triangles are cut from, for square blocks of side `block`."""
    diagonal = _up(block.inches * rule.factor, rule.diagonal_step)
    return Length(_up(diagonal + rule.side_add.inches, rule.cut_step))


def corner_square(block: Length, rule: SquareRule) -> Length:
    """The square that two corner triangles are cut from, for square blocks of side `block`."""
    half = _up(block.inches / rule.factor, rule.diagonal_step)
    return Length(_up(half + rule.corner_add.inches, rule.cut_step))
