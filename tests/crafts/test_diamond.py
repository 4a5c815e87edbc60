"""The form `diamond` by itself: how it stands, how it is known, how it is cut."""

from __future__ import annotations

import pytest
from crafts_helpers import corners, cut, figures, given, seen

from booklet.crafts.forms.diamond import FORM, METHOD
from booklet.crafts.rotary.marks import CutBy


def test_it_stands_upright_with_its_angle_at_the_top():
    h = 3**0.5
    tips = [pytest.approx(tip) for tip in ((0, -h), (1, 0), (0, h), (-1, 0))]
    assert [*corners("diamond", side=2, angle=60)] == tips


def test_the_acute_angle_is_meant():
    wrong = FORM.amiss(given({"side": 2, "angle": 120}))
    assert (wrong.measure.name, wrong.hint) == ("angle", "write `60`")
    assert FORM.amiss(given({"side": 2, "angle": 90})) is None


def test_it_is_known_and_not_from_a_square():
    assert seen(corners("diamond", side=2, angle=45)) == ("diamond", "diamond", 0)
    assert seen(corners("diamond", side=2, angle=90))[0] == "square"


def test_strip_and_step_are_equal():
    made = cut("diamond", side=2, angle=30)
    assert (made.method, figures(made)) == (METHOD, ("1 1/2", "1 1/2"))  # 2 sin 30 + 2 * 1/4
    assert made.angle == pytest.approx(30) and made.by is CutBy.RULER
    assert made.sum == "1 finished + 1/2 = 1 1/2"  # once, for both
