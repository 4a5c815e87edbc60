"""The form `kite` by itself: how it stands, how it is known, how it is cut."""

from __future__ import annotations

from crafts_helpers import corners, cut, given, seen

from booklet.crafts.forms.kite import FORM, METHOD


def test_it_stands_upright():
    assert corners("kite", length=4, width=2, cross=1) == ((0, 0), (1, 1), (0, 4), (-1, 1))


def test_its_widest_line_lies_between_top_and_bottom():
    wrong = FORM.amiss(given({"length": 4, "width": 2, "cross": 4}))
    assert (wrong.measure.name, wrong.code) == ("cross", "bad-length")
    assert FORM.amiss(given({"length": 4, "width": 2, "cross": 3})) is None


def test_a_hollow_one_is_a_dart():
    assert seen(corners("kite", length=4, width=2, cross=1)) == ("kite", "kite", None)
    assert seen(((0, 0), (2, -1), (1, 0), (2, 1))) == ("kite", "dart", None)


def test_its_axis_lies_along_the_strip_or_across():
    for grain in (0, 90):
        assert cut("kite", length=4, width=2, cross=1, grain=grain).method == METHOD
    assert cut("kite", length=4, width=2, cross=1, grain=45) is None
