"""The square in a square by itself: how it is found, its figures."""

from __future__ import annotations

from crafts_helpers import asked, cuts, joined, kind

from booklet.crafts.units.square_in_square import UNIT, WAY

CENTRE = ((2, 0), (4, 2), (2, 4), (0, 2))
AROUND = [((0, 0), (2, 0), (0, 2)), ((2, 0), (4, 0), (4, 2)), ((4, 2), (4, 4), (2, 4)), ((0, 2), (2, 4), (0, 4))]  # fmt: skip


def test_it_is_a_square_and_four_triangles_of_one_other_fabric():
    corners = [(points, "sky") for points in AROUND]
    found = UNIT.find(joined((CENTRE, "ink"), *corners, box=(4, 4)))
    assert (round(found.sizes[0], 9), found.fabrics) == (4, ("ink", "sky"))
    assert UNIT.find(joined((CENTRE, "sky"), *corners, box=(4, 4))) is None


def test_a_centre_and_two_squares_cut_once():
    made = WAY.figures(kind((4.0,), ("ink", "sky"), 3), asked())
    # 4 / √2 + 1/2 = 3.328; 4 / 2 + 1/4 (2 + √2) = 2.854
    assert cuts(made) == [("ink", "3 3/8", 3), ("sky", "2 7/8", 6)]
    assert str(made.sum) == (
        "2.83 finished + 0.5 = 3.33, rounded up 3 3/8; 2 finished + 0.85 = 2.85, rounded up 2 7/8"
    )
