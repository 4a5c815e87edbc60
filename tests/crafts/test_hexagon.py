"""The form `hexagon` by itself: how it stands, how it is known, how it is cut."""

from __future__ import annotations

import pytest
from crafts_helpers import corners, cut, figures, seen


def test_it_stands_on_a_corner():
    points = corners("hexagon", side=2)
    assert points[0] == (0, -2) and points[3] == pytest.approx((0, 2))


def test_it_is_known_and_not_from_a_long_one():
    assert seen(corners("hexagon", side=2)) == ("hexagon", "hexagon", 0)
    assert seen(corners("elongated hexagon", side=2, middle=1, angle=120))[0] == "elongated hexagon"


def test_two_sides_lie_along_the_strip():
    made = cut("hexagon", side=2)
    assert made.exact[0] == pytest.approx(2 * 3**0.5 + 0.5)  # 3.964
    assert figures(made)[0] == "4"
