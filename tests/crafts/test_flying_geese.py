"""Flying geese by themselves: how they are found, their figures."""

from __future__ import annotations

from crafts_helpers import asked, cuts, joined, kind

from booklet.crafts.units.flying_geese import UNIT, WAY

GOOSE = ((2, 0), (4, 2), (0, 2))
LEFT, RIGHT = ((0, 0), (2, 0), (0, 2)), ((2, 0), (4, 0), (4, 2))


def test_a_goose_is_a_triangle_between_two_of_half_its_size():
    found = UNIT.find(joined((LEFT, "sky"), (GOOSE, "ink"), (RIGHT, "sky"), box=(4, 2)))
    assert (found.sizes, found.fabrics) == ((4, 2), ("ink", "sky"))  # the goose first
    two_skies = joined((LEFT, "sky"), (GOOSE, "ink"), (RIGHT, "sand"), box=(4, 2))
    assert UNIT.find(two_skies) is None


def test_one_large_square_and_four_small_ones_give_four():
    made = WAY.figures(kind((4.0, 2.0), ("ink", "sky"), 6), asked())
    # 4 + 1/4 (2 + 2 √2) = 5.207; 2 + 1/4 (2 + √2) = 2.854; 6 units take 2 rounds
    assert cuts(made) == [("ink", "5 1/4", 2), ("sky", "2 7/8", 8)]
    assert (made.each, made.rounds) == (4, 2)
