"""The form `parallelogram` by itself: how it stands, how it is known, how it is cut."""

from __future__ import annotations

import pytest
from crafts_helpers import corners, cut, figures, seen

from booklet.crafts.forms.parallelogram import METHOD


def test_its_top_is_moved_to_the_right():
    assert corners("parallelogram", base=3, height=2, shift=1) == ((1, 0), (4, 0), (3, 2), (0, 2))


def test_its_grain_runs_along_the_longer_sides():
    points = corners("parallelogram", base=3, height=2, shift=1)
    assert seen(points) == ("parallelogram", "parallelogram", 0)


def test_strip_and_step_have_figures_of_their_own():
    made = cut("parallelogram", base=3, height=1, shift=3**0.5)  # 30 degrees
    assert figures(made) == ("1 1/2", "2")  # 1 + 1/2; 3 sin 30 + 1/2
    assert made.method == METHOD and made.method.one_sided


def test_reversed_ones_lean_to_the_other_side():
    made = cut("parallelogram", base=3, height=1, shift=3**0.5, pieces=4, reversed=1)
    plain, back = made.lays
    assert (plain.cuts, back.cuts, back.reversed) == (3, 1, True)
    left = min(back.rows[0].shapes[0], key=lambda p: p[1] * 100 + p[0])
    assert left == pytest.approx((0, 0))  # its top begins at the left
