"""The form `octagon` by itself: how it stands, how it is known, how it is cut."""

from __future__ import annotations

import pytest
from crafts_helpers import corners, cut, figures, seen

from booklet.crafts.rotary.marks import CutBy


def test_it_stands_on_a_side():
    points = corners("octagon", side=2)
    assert points[0] == pytest.approx((-1, -1 - 2**0.5)) and points[1][1] == points[0][1]


def test_it_is_known():
    assert seen(corners("octagon", side=2)) == ("octagon", "octagon", 0)


def test_it_comes_from_the_square_about_it():
    made = cut("octagon", side=2)
    assert made.exact[0] == pytest.approx(2 * (1 + 2**0.5) + 0.5)  # 5.328: between the marks
    assert (figures(made)[0], made.by) == ("5 3/8", CutBy.TEMPLATE)
