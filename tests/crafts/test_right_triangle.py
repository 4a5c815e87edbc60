"""The form `right triangle` by itself: how it stands, how it is known, how it is cut."""

from __future__ import annotations

from crafts_helpers import corners, cut, figures, seen

from booklet.crafts.rotary.wedges import Diagonal


def test_its_right_angle_lies_at_the_bottom_left():
    assert corners("right triangle", width=3, height=2) == ((0, 0), (3, 2), (0, 2))


def test_its_grain_runs_along_the_longer_leg():
    points = corners("right triangle", width=3, height=2)
    assert seen(points) == ("right triangle", "right triangle", 1)  # the 3 in at the bottom


def test_a_rectangle_cut_once_gives_two():
    made = cut("right triangle", width=3, height=2)
    # 3 + 1/4 (1 + (3 + 3.606) / 2) = 4.076; 2 + 1/4 (1 + (2 + 3.606) / 3) = 2.717
    assert figures(made) == ("4 1/8", "2 3/4")
    assert (made.per_cut, made.cuts) == (2, 2)


def test_mirror_images_are_cut_on_the_other_diagonal():
    made = cut("right triangle", width=3, height=2, pieces=4, reversed=2)
    ways = {gives[0].diagonal for lay in made.lays for gives in lay.gives}
    assert ways == {Diagonal.RISING, Diagonal.FALLING}
    assert sum(lay.cuts for lay in made.lays if lay.reversed) == 1  # 2 of them from 1 rectangle
