"""The form `rectangle` by itself: how it stands, how it is known, how it is cut."""

from __future__ import annotations

from crafts_helpers import corners, cut, figures, seen


def test_it_stands_from_the_top_left():
    assert corners("rectangle", width=3, height=2) == ((0, 0), (3, 0), (3, 2), (0, 2))


def test_its_grain_runs_along_the_longer_side():
    assert seen(((0, 0), (3, 0), (3, 2), (0, 2))) == ("rectangle", "rectangle", 0)
    assert seen(((0, 0), (2, 0), (2, 3), (0, 3)))[2] == 1


def test_each_side_gets_two_allowances_and_it_may_stand():
    made = cut("rectangle", width=3, height=2)
    assert figures(made) == ("3 1/2", "2 1/2")  # 3 + 1/2; 2 + 1/2
    assert made.sum == "3 finished + 1/2 = 3 1/2; 2 finished + 1/2 = 2 1/2"
    assert len(made.lays[0].rows) == 2  # lying and standing
