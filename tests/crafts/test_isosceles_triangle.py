"""The form `isosceles triangle` by itself: how it stands, how it is known, how it is cut."""

from __future__ import annotations

import pytest
from crafts_helpers import corners, cut, figures, seen


def test_it_stands_on_its_base():
    assert corners("isosceles triangle", base=2, height=3) == ((1, 0), (2, 3), (0, 3))


def test_its_grain_runs_along_the_base():
    points = corners("isosceles triangle", base=2, height=3)
    assert seen(points) == ("isosceles triangle", "isosceles triangle", 1)


def test_the_base_lies_along_the_strip():
    made = cut("isosceles triangle", base=6, height=4)
    # sides of 5: sine 4/5, so the point stands 1/4 * 5/3 = 0.417 above, 1/4 below: 4.667
    assert made.exact[0] == pytest.approx(4 + 0.25 + 0.25 * 5 / 3)
    assert figures(made)[0] == "4 3/4"
    assert made.angle == pytest.approx(53.130, abs=1e-3)  # 4 up over 3
    assert len(made.lays[0].rows[0].shapes) == 2  # turned end for end by turns
