"""The form `quarter square triangle` by itself: how it stands, how it is known, how it is cut."""

from __future__ import annotations

from crafts_helpers import corners, cut, figures, seen

from booklet.crafts.rotary.boxes import QUARTER_SQUARES


def test_it_lies_on_its_long_side():
    assert corners("quarter-square triangle", base=4) == ((2, 0), (4, 2), (0, 2))


def test_it_is_known_by_the_grain_on_its_long_side():
    points = corners("quarter-square triangle", base=4)
    assert seen(points, grain=90) == ("quarter-square triangle", "quarter-square triangle", 1)


def test_a_square_cut_twice_gives_four():
    made = cut("quarter-square triangle", base=4, grain=90)
    assert made.method == QUARTER_SQUARES
    assert figures(made) == ("5 1/4", "5 1/4")  # common practice: 4 + 1 1/4; exactly 4 + 1.207
    assert (made.per_cut, made.cuts) == (4, 1)  # 4 pieces
