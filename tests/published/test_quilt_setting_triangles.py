"""Published figures for sets on point: squares for setting triangles, diagonals, counts.

op-grain (Phoebe Moon; Moonlight Quilters Guild; Experts123) is a rule without a figure: side triangles from squares cut
twice, corners from squares cut once, so that the straight grain lies on the edge; see tests/test_quilt_on_point.py.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from booklet.kit.measure import EIGHTH, Length, Rounding
from booklet.quilt.top.setting_squares import (
    ROOT_TWO,
    SquareRule,
    corner_square,
    rule_for,
    side_square,
)

ADDS = {"side_add": Length.of("1 1/4"), "corner_add": Length.of("7/8")}
UNROUNDED = SquareRule(**ADDS, cut_step=None)
SHORT_ROOT = Fraction("1.414")
OURS = rule_for(Length.of("1/4"), "inch")


def both(block, rule):
    side = Length.of(block)
    return float(side_square(side, rule)), float(corner_square(side, rule))


# op-pm-4, op-pm-6, op-pm-11, op-pm-12, op-pm-13, op-pm-15, op-pm-16, op-pm-18, op-pm-19,
# Phoebe Moon, Piecing a Quilt on Point: a chart to about 1/4 in, so the smallest square must fit in it
@pytest.mark.parametrize(
    ("block", "side", "corner"),
    [
        (4, 7, 3.75),
        (6, 9.75, 5.25),
        (11, 17, 8.75),
        (12, 18.25, 9.5),
        (13, 19.75, 10.25),
        (15, 22.5, 11.75),
        (16, 24, 12.25),
        (18, 26.75, 13.75),
        (19, 28.25, 14.5),
    ],
)
def test_quarter_inch_chart(block, side, corner):
    least = both(block, UNROUNDED)
    assert side - 0.3 <= least[0] <= side
    assert corner - 0.3 <= least[1] <= corner
    assert both(block, OURS)[0] <= side  # ours is no larger than the chart


# op-pm-14, op-pm-17, op-pm-20, the same chart: three side squares smaller than block x √2 + 1 1/4. With the exact share,
# 1.2071, two of them are right by a hair: 17√2 + 1.2071 = 25.2487, 20√2 + 1.2071 = 29.4914; 14√2 + 1.2071 = 21.0061 is not
@pytest.mark.parametrize(
    ("block", "printed", "ours"), [(14, 21, 21.125), (17, 25.25, 25.25), (20, 29.5, 29.5)]
)
def test_errata_of_the_quarter_inch_chart(block, printed, ours):
    assert both(block, UNROUNDED)[0] > printed
    assert both(block, OURS)[0] == ours


# op-lk-5, op-lk-6, op-lk-7, op-lk-8, op-lk-9, op-lk-10, op-lk-12, op-lk-15, op-lk-16,
# Tani quilt chart page, on-point table: 1.414 for √2, rounded up to 1/8 in
@pytest.mark.parametrize(
    ("block", "side", "corner"),
    [
        (5, 8.375, 4.5),
        (6, 9.75, 5.125),
        (7, 11.25, 5.875),
        (8, 12.625, 6.625),
        (9, 14, 7.25),
        (10, 15.5, 8),
        (12, 18.25, 9.375),
        (15, 22.5, 11.5),
        (16, 23.875, 12.25),
    ],
)
def test_eighth_inch_chart(block, side, corner):
    rule = SquareRule(**ADDS, factor=SHORT_ROOT)
    assert both(block, rule) == (side, corner)


def test_an_exact_share_is_rounded_once():
    # 16 × 1.414 + 1 1/4 = 23.874, 16 × √2 + 1 1/4 = 23.877, which rounds up to 24; but 1 1/4 is itself rounded:
    # 16 × √2 + 1.2071 = 23.834, and 23 7/8 is enough
    assert both(16, OURS)[0] == 23.875


# op-6-joanne: the diagonal rounded up to 1/4 in, then added: Joanne, Math for Quilters part 2, 2014
def test_round_the_diagonal_first():
    rule = SquareRule(**ADDS, factor=SHORT_ROOT, diagonal_step=Fraction(1, 4), cut_step=None)
    assert both(6, rule)[0] == 9.75  # 8.484 up to 8 1/2, + 1 1/4
    # op-12-corner, op-12-docs, Pine Meadows Designs, Block On Point, and the handout "Putting it On-Point"
    assert both(12, rule)[1] == 9.375  # 8.487 up to 8 1/2, + 7/8
    # op-6-corner, Moonlight Quilters Guild
    assert both(6, rule)[1] == 5.125  # 4.243 up to 4 1/4, + 7/8


# op-dalmeny, Dalmeny Quilters, Quilts set on point: both rounded up to 1/8 in before the addition
def test_guild_rule_is_never_smaller_than_the_exact_square():
    rule = SquareRule(**ADDS, factor=SHORT_ROOT, diagonal_step=EIGHTH, cut_step=None)
    for block in range(3, 25):
        assert (
            both(block, rule)[0]
            >= both(block, SquareRule(**ADDS, factor=SHORT_ROOT, cut_step=None))[0]
        )
    assert both(12, rule) == (18.25, 9.375)


# op-half, Deevine Snippets, Math Rash, 2013: up to 1/2 in after the addition (others print 18 1/4)
def test_half_inch_rule():
    rule = SquareRule(**ADDS, factor=SHORT_ROOT, diagonal_step=None, cut_step=Fraction(1, 2))
    assert both(12, rule)[0] == 18.5


# diag-4, diag-9, diag-12, diag-14, Marcia Hohn, Quilter's Cache, Math charts, 2002: diagonals to the nearest 1/8 in
@pytest.mark.parametrize(("block", "diagonal"), [(4, 5.625), (9, 12.75), (12, 17), (14, 19.75)])
def test_diagonals(block, diagonal):
    exact = Length(block * ROOT_TWO)
    assert float(exact.rounded(EIGHTH, Rounding.NEAREST)) == diagonal


# err-diag-45: Art Quilt Maker blog prints 3.28 for the side of a square with diagonal 4.5: it is 3.182
def test_erratum_side_from_diagonal():
    assert float(Fraction("4.5") / ROOT_TWO) == pytest.approx(3.182, abs=0.0005)
    assert abs(float(Fraction("4.5") / ROOT_TWO) - 3.28) > 0.09


def test_adds_follow_from_the_allowance():
    # 1/4 × (2 + 2√2) = 1.207, 1/4 × (2 + √2) = 0.854: the printed 1 1/4 and 7/8 are these, up to 1/8 in
    assert float(OURS.side_add) == pytest.approx(1.20711, abs=1e-5)
    assert float(OURS.corner_add) == pytest.approx(0.85355, abs=1e-5)
    exact = {"side_add": OURS.side_add, "corner_add": OURS.corner_add}
    assert {name: add.rounded(EIGHTH, Rounding.UP) for name, add in exact.items()} == ADDS


def test_in_centimetres_a_corner_square_is_rounded_once():
    # blocks of 30 cm, allowance 0.6 cm: 30 ÷ √2 = 21.213, + 0.6 × (2 + √2) = 2.0485, together 23.262: up to 23.3 cm.
    # Of the share rounded up first (2.1) it was 23.313, up to 23.4. Sides: 42.426 + 0.6 × (2 + 2√2) = 2.897: 45.323, 45.4
    rule = rule_for(Length.of("6 mm"), "cm")
    block = Length.of("30 cm")
    assert float(corner_square(block, rule)) * 2.54 == pytest.approx(23.3, abs=1e-9)
    assert float(side_square(block, rule)) * 2.54 == pytest.approx(45.4, abs=1e-9)
