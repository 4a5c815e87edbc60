"""The form `polygon` by itself: how it stands, how it is known, how it is cut."""

from __future__ import annotations

from crafts_helpers import seen

from booklet.crafts.forms.polygon import FORM


def test_it_takes_what_no_other_form_knows():
    assert seen(((0, 0), (5, 0), (4, 1), (0, 3))) == ("polygon", "four-sided patch", None)
    house = ((0, 0), (1, -1), (2, 0), (2, 2), (0, 2))
    assert seen(house) == ("polygon", "five-sided patch", None)


def test_a_corner_on_a_side_is_none():
    assert seen(((0, 0), (1, 0), (2, 0), (2, 2), (0, 2)))[0] == "square"


def test_it_has_no_measures_and_is_cut_by_template():
    assert FORM.is_free and FORM.cut is None
