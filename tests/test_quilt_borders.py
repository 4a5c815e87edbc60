"""Borders: lengths through the middle, corners butted, mitred and with squares, several of them."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, strategies as st
from quilt_helpers import border, inches
from shapely import Polygon

from booklet.pattern import Corners
from booklet.quilt.finishing.binding import strips_for_length
from booklet.quilt.top.borders import add_borders, border_lengths, mitre_length

TOP = inches(48), inches(60)
QUARTER = inches("1/4")


def added(*borders, top=TOP, units="inch"):
    return add_borders(top, borders, QUARTER, units)


def test_butted_sides_first():
    # sides 60 + 2/4, then top and bottom 48 + 2 * 3 + 2/4
    assert border_lengths(TOP, border("3"), QUARTER, "inch") == (inches("54 1/2"), inches("60 1/2"))
    got = added(border("3"))
    level, sides = got.parts
    assert (level.name, sides.title) == ("border 1 top and bottom", "border 1, sides")
    assert level.finished == (inches(54), inches(3))
    assert sides.cut == (inches("60 1/2"), inches("3 1/2"))
    assert level.long and sides.long and level.count == sides.count == 2
    assert got.outside == (inches(54), inches(66))
    assert level.places[0] == ((0, 0), (54, 0), (54, 3), (0, 3))
    assert sides.places[1] == ((51, 3), (54, 3), (54, 63), (51, 63))


def test_sums_of_a_butted_border():
    assert added(border("3")).plans[0].sums == (
        "border 1, width: 3 + 2 × 1/4 = 3 1/2 in",
        "border 1, sides: 60 + 2 × 1/4 = 60 1/2 in",
        "border 1, top and bottom: 48 + 2 × 3 + 2 × 1/4 = 54 1/2 in",
    )


def test_sums_in_centimetres():
    top = inches("120 cm"), inches("150 cm")
    got = add_borders(top, [border("8 cm")], inches("0.6 cm"), "cm")
    assert got.plans[0].sums[2] == "border 1, top and bottom: 120 + 2 × 8 + 2 × 0.6 = 137.2 cm"


def test_corner_squares():
    level, sides, squares = added(border("3", Corners.SQUARES, "sand")).parts
    assert level.cut[0] == inches("48 1/2")
    assert sides.cut[0] == inches("60 1/2")
    assert (squares.fabric, squares.count, squares.cut[0]) == ("sand", 4, inches("3 1/2"))
    assert squares.places[2][0] == (51, 63)


def test_sides_of_one_width_top_and_bottom_of_another():
    # sides 60 + 2/4; top and bottom 48 + 2 * 3 + 2/4, cut 5 1/2 wide; outside 48 + 2 * 3 by 60 + 2 * 5
    got = added(border("3", ends="5"))
    level, sides = got.parts
    assert level.cut == (inches("54 1/2"), inches("5 1/2"))
    assert sides.cut == (inches("60 1/2"), inches("3 1/2"))
    assert got.outside == (inches(54), inches(70))
    assert got.plans[0].inside == TOP
    assert level.places[0] == ((0, 0), (54, 0), (54, 5), (0, 5))
    assert sides.places[1] == ((51, 5), (54, 5), (54, 65), (51, 65))
    assert got.plans[0].sums == (
        "border 1, sides, width: 3 + 2 × 1/4 = 3 1/2 in",
        "border 1, top and bottom, width: 5 + 2 × 1/4 = 5 1/2 in",
        "border 1, sides: 60 + 2 × 1/4 = 60 1/2 in",
        "border 1, top and bottom: 48 + 2 × 3 + 2 × 1/4 = 54 1/2 in",
    )


@pytest.mark.parametrize(
    ("sides", "ends", "name", "length", "outside"),
    [("3", "0", "sides", "60 1/2", (54, 60)), ("0", "5", "top and bottom", "48 1/2", (48, 70))],
)
def test_on_two_sides_only(sides, ends, name, length, outside):
    got = added(border(sides, ends=ends))
    (part,) = got.parts
    assert (part.name, part.count, part.cut[0]) == (f"border 1 {name}", 2, inches(length))
    assert got.plans[0].lengths == (inches(length),) * 2
    assert got.outside == tuple(map(inches, outside))


def test_rectangles_between_two_widths():
    # 3 in at the sides, 5 in at top and bottom: the corner is 3 wide and 5 high, and 1/2 more as cut
    squares = added(border("3", Corners.SQUARES, "sand", ends="5")).parts[2]
    assert squares.cut == (inches("3 1/2"), inches("5 1/2"))
    assert squares.title == "border 1, corner rectangles"
    assert squares.places[2] == ((51, 65), (54, 65), (54, 70), (51, 70))


def test_mitred():
    # common practice: outside of the top and 2 in more: 48 + 2 * 3 + 2
    level, sides = added(border("3", Corners.MITRED)).parts
    assert level.cut[0] == inches(56)
    assert sides.cut[0] == inches(68)
    assert level.shape == "mitred strip"
    assert level.places[0] == ((0, 0), (54, 0), (51, 3), (3, 3))
    plan = added(border("3", Corners.MITRED)).plans[0]
    assert plan.sums[1] == "border 1, sides: 60 + 2 × 3 + 2 for the miters = 68 in"


@given(st.integers(1, 64))
def test_mitred_strip_is_long_enough(sixty_fourths):
    # the raw outer edge is longer by an allowance and by √2 of it at either end
    allowance = inches(f"{sixty_fourths}/64")
    need = 54 + 2 * float(allowance) * (1 + math.sqrt(2))
    three = inches(3)
    assert float(mitre_length(inches(54), allowance, "inch", three, three)) >= need


def test_mitred_with_two_widths():
    """48 x 60 in with sides of 3 in and top and bottom of 5: as long as the top, twice the width of the strips they meet,
    and 2 in: 48 + 2 x 3 + 2 = 56, 60 + 2 x 5 + 2 = 72. Each corner is cut from the corner of the top to that of the border,
    3 in along and 5 out."""
    level, sides = added(border("3", Corners.MITRED, ends="5")).parts
    assert level.cut == (inches(56), inches("5 1/2"))
    assert sides.cut == (inches(72), inches("3 1/2"))
    assert level.finished == (inches(54), inches(5)) and sides.finished == (inches(70), inches(3))
    assert level.places[0] == ((0, 0), (54, 0), (51, 5), (3, 5))
    assert sides.places[0] == ((0, 70), (0, 0), (3, 5), (3, 65))
    assert added(border("3", Corners.MITRED, ends="5")).outside == (inches(54), inches(70))


@given(st.integers(1, 32), st.integers(1, 12), st.integers(1, 12))
def test_a_strip_mitred_between_two_widths_holds_its_trapezoid(sixty_fourths, wide, beside):
    """Independent: the finished trapezoid (half of it) grown by an allowance on all sides."""
    allowance = sixty_fourths / 64
    half = Polygon([(0, 0), (20 + beside, 0), (20, wide), (0, wide)])
    raw = half.buffer(allowance, join_style="mitre", mitre_limit=1e3).bounds[2]
    length = mitre_length(
        inches(40 + 2 * beside), inches(f"{sixty_fourths}/64"), "inch", inches(wide), inches(beside)
    )
    assert float(length) / 2 >= raw - 1e-9


def test_second_border_goes_round_the_first():
    first, second = added(border("1"), border("4")).plans
    assert first.outside == (inches(50), inches(62))
    assert second.number == 2
    # sides 62 + 1/2, top and bottom 50 + 2 * 4 + 1/2
    assert second.lengths == tuple(map(inches, ("58 1/2", "58 1/2", "62 1/2", "62 1/2")))


def test_lengths_that_no_ruler_shows_are_rounded_up():
    root = inches(12 * math.sqrt(2))  # 16.97 in: through the middle of one 12 in block on point
    got = added(border("2"), top=(root, root)).plans[0]
    assert got.lengths[2] == inches("17 1/2")  # 17.47 up to 1/8
    assert got.sums[1] == "border 1, sides: 16.971 + 2 × 1/4, rounded up = 17 1/2 in"


def test_strip_no_longer_than_its_join():
    with pytest.raises(ValueError, match="no longer"):
        strips_for_length(inches(10), inches(2), inches(2))
