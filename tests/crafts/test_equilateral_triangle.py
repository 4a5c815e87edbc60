"""The form `equilateral triangle` by itself: how it stands, how it is known, how it is cut."""

from __future__ import annotations

import pytest
from crafts_helpers import corners, cut, figures, seen

from booklet.crafts.rotary.marks import CutBy


def test_it_stands_on_a_side():
    tips = [pytest.approx(tip) for tip in ((1, 0), (2, 3**0.5), (0, 3**0.5))]
    assert [*corners("equilateral triangle", side=2)] == tips


def test_it_is_known():
    points = corners("equilateral triangle", side=2)
    assert seen(points) == ("equilateral triangle", "equilateral triangle", 0)


def test_its_strip_is_three_allowances_wider_than_it_is_high():
    made = cut("equilateral triangle", side=2)
    assert made.exact[0] == pytest.approx(
        3**0.5 + 0.75
    )  # 1 below, 2 above: the point at 60 degrees
    assert figures(made)[0] == "2 1/2" and made.by is CutBy.TEMPLATE  # 2.482, drawn round
    assert made.angle == 60


def test_any_side_may_lie_along_the_strip():
    assert [cut("equilateral triangle", side=2, grain=g) is not None for g in (30, 90, 150, 45)] == [
        True, True, True, False,
    ]  # fmt: skip
