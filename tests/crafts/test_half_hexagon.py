"""The form `half hexagon` by itself: how it stands, how it is known, how it is cut."""

from __future__ import annotations

import pytest
from crafts_helpers import corners, cut, figures, seen

from booklet.crafts.forms import FORMS


def test_it_lies_on_its_long_side():
    h = 3**0.5
    tips = [pytest.approx(tip) for tip in ((-1, 0), (1, 0), (2, h), (-2, h))]
    assert [*corners("half hexagon", side=2)] == tips


def test_it_is_a_trapezoid_with_a_name():
    assert seen(corners("half hexagon", side=2)) == ("half hexagon", "half hexagon", 2)
    assert seen(corners("trapezoid", base=4, top=2, height=2))[0] == "trapezoid"


def test_it_is_cut_as_a_trapezoid():
    made = cut("half hexagon", side=2)
    assert made.method == FORMS["trapezoid"].method
    assert figures(made)[0] == "2 1/4"  # 1.732 + 1/2 = 2.232, drawn round
