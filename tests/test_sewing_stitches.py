"""Stitch length: whole stitches in a seam."""

import pytest
from hypothesis import given, strategies as st

from booklet.sewing.batches import best_setting, shortfall, stitches
from booklet.sewing.rectangles import hull


def test_an_inch_at_two_and_a_half():
    assert stitches(25.4, 2.5) == 10  # common practice: 25.0 of 25.4 mm, a hair short
    assert shortfall(25.4, 2.5) == pytest.approx(0.4)
    assert best_setting([1.0]) == 2.5


def test_whole_stitches_count_whole():
    assert stitches(30.0, 3.0) == 10
    assert stitches(14.7, 2.1) == 7  # 6.999… in floats
    assert stitches(18.2, 2.6) == 7


def test_the_nearest_to_two_and_a_half_that_fills_the_seam():
    # 3/4 in = 19.05 mm: 2.5 leaves 1.55, 2.4 leaves 2.25, 2.6 leaves 0.85, 2.3 leaves 0.65, 2.7 leaves 0.15
    assert best_setting([0.75]) == 2.7


def test_one_setting_serves_all_seams_or_none_does():
    # 1 in and 1 1/2 in = 38.1 mm: 2.5 leaves 0.4 and 0.6
    assert best_setting([1.0, 1.5, 1.0]) == 2.5
    assert best_setting([]) is None
    assert best_setting([0.07]) is None  # 1.8 mm: no stitch fits


@given(st.lists(st.floats(0.25, 12), min_size=1, max_size=3))
def test_a_setting_never_goes_past_the_point(lengths):
    setting = best_setting(lengths)
    if setting is None:
        return
    for length in lengths:
        mm = length * 25.4
        assert -1e-3 <= mm - stitches(mm, setting) * setting <= 0.6 + 1e-3


def test_the_hull_leaves_out_points_on_its_sides():
    assert len(hull([(0, 0), (1, 0), (2, 0), (2, 2), (0, 2), (1, 1)])) == 4
