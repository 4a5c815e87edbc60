"""The form `square` by itself: how it stands, how it is known, how it is cut."""

from __future__ import annotations

from crafts_helpers import corners, cut, figures, seen

from booklet.crafts.forms.square import METHOD


def test_it_stands_on_its_side_from_the_top_left():
    assert corners("square", side=2) == ((0, 0), (2, 0), (2, 2), (0, 2))


def test_it_is_known_turned_and_not_from_a_rectangle():
    assert seen(((0, 0), (1, -1), (2, 0), (1, 1))) == ("square", "square", 0)
    assert seen(corners("rectangle", width=2, height=1))[0] == "rectangle"


def test_it_is_cut_with_two_allowances():
    made = cut("square", side=3)
    assert (made.method, figures(made)) == (METHOD, ("3 1/2", "3 1/2"))  # 3 + 2 * 1/4
    assert made.sum == "3 finished + 1/2 = 3 1/2"


def test_no_strip_holds_it_with_its_grain_askew():
    assert cut("square", side=3, grain=45) is None
