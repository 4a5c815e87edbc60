"""The form `right trapezoid` by itself: how it stands, how it is known, how it is cut."""

from __future__ import annotations

import pytest
from crafts_helpers import corners, cut, figures, seen


def test_its_upright_side_is_on_the_left():
    assert corners("right trapezoid", base=4, top=2, height=2) == ((0, 0), (2, 0), (4, 2), (0, 2))


def test_its_grain_runs_along_the_base_wherever_that_lies():
    assert seen(corners("right trapezoid", base=4, top=2, height=2)) == (
        "right trapezoid", "right trapezoid", 2,
    )  # fmt: skip
    assert seen(((0, 0), (4, 0), (2, 2), (0, 2)))[::2] == ("right trapezoid", 0)  # upside down
    assert seen(((0, 0), (3, 0), (5, 2), (-1, 2)))[0] == "trapezoid"


def test_it_is_cut_as_a_trapezoid_and_mirror_images_apart():
    made = cut("right trapezoid", base=4, top=2, height=2, pieces=4, reversed=2)
    assert figures(made)[0] == "2 1/2"  # 2 + 2 * 1/4
    # 4 + 1/4 at the upright side, 1/4 (1 + √2) at the point of 45 degrees
    assert made.exact[1] == pytest.approx(4 + 0.25 + 0.25 * (1 + 2**0.5))
    assert [(lay.cuts, lay.reversed) for lay in made.lays] == [(2, False), (2, True)]
