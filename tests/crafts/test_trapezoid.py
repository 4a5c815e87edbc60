"""The form `trapezoid` by itself: how it stands, how it is known, how it is cut."""

from __future__ import annotations

from crafts_helpers import corners, cut, figures, seen


def test_its_base_lies_at_the_bottom():
    assert corners("trapezoid", base=4, top=2, height=2) == ((-1, 0), (1, 0), (2, 2), (-2, 2))


def test_the_word_is_kept_for_equal_legs():
    assert seen(corners("trapezoid", base=4, top=2, height=2)) == ("trapezoid", "trapezoid", 2)
    askew = ((0, 0), (3, 0), (5, 2), (-1, 2))
    assert seen(askew) == ("trapezoid", "four-sided patch", None)  # cut as one all the same


def test_its_base_lies_along_the_strip():
    made = cut("trapezoid", base=4, top=2, height=2)
    assert figures(made)[0] == "2 1/2"  # 2 + 2 * 1/4
    assert len(made.lays[0].rows[0].shapes) == 2  # turned end for end by turns
