"""The form `elongated hexagon` by itself: how it stands, how it is known, how it is cut."""

from __future__ import annotations

import pytest
from crafts_helpers import corners, seen

from booklet.crafts.forms.elongated_hexagon import FORM


def test_its_points_lie_left_and_right():
    points = corners("elongated hexagon", side=2, angle=60, middle=1)
    assert points[0] == pytest.approx((-0.5, -1)) and points[2] == pytest.approx((0.5 + 3**0.5, 0))


def test_what_is_left_out_is_a_right_angle_and_a_middle_as_long_as_the_side():
    assert corners("elongated hexagon", side=2) == corners(
        "elongated hexagon", side=2, angle=90, middle=2
    )


def test_its_grain_runs_along_the_middle_sides():
    assert seen(corners("elongated hexagon", side=1, middle=2)) == (
        "elongated hexagon",
        "elongated hexagon",
        0,
    )


def test_a_bent_one_is_no_elongated_hexagon():
    arrow = ((0, 0), (2, 0), (3, 1), (2, 2), (0, 2), (1, 1))  # one point looks inward
    assert seen(arrow)[0] == "polygon"


def test_it_is_cut_by_template():
    assert FORM.cut is None
