"""The form `half square triangle` by itself: how it stands, how it is known, how it is cut."""

from __future__ import annotations

from crafts_helpers import corners, cut, figures, seen

from booklet.crafts.rotary.boxes import HALF_SQUARES, QUARTER_SQUARES


def test_its_right_angle_lies_at_the_bottom_left():
    assert corners("half-square triangle", side=2) == ((0, 0), (2, 2), (0, 2))


def test_the_grain_tells_it_from_a_quarter():
    points = ((0, 0), (2, 2), (0, 2))  # side 1 is long: 135 degrees clockwise from up
    assert seen(points) == ("half-square triangle", "half-square triangle", 1)
    assert seen(points, grain=0)[0] == "half-square triangle"
    assert seen(points, grain=135)[0] == "quarter-square triangle"


def test_a_square_cut_once_gives_two():
    made = cut("half-square triangle", side=3, grain=0)
    assert made.method == HALF_SQUARES
    assert figures(made) == ("3 7/8", "3 7/8")  # common practice: 3 + 7/8; exactly 3 + 0.854
    assert (made.per_cut, made.cuts) == (2, 2)  # 4 pieces


def test_with_its_grain_on_the_long_side_it_is_cut_as_a_quarter():
    assert cut("half-square triangle", side=3, grain=135).method == QUARTER_SQUARES
    assert cut("half-square triangle", side=3, grain=20) is None
