"""The unit of two half-square triangles by itself: how it is found, its figures, what is said and drawn."""

from __future__ import annotations

import pytest
from crafts_helpers import asked, corners, cuts, joined, kind

from booklet.crafts.units.half_squares import EIGHT, FOUR, TWO, UNIT

HALF = corners("half-square triangle", side=3)
OTHER = ((0, 0), (3, 0), (3, 3))


def test_it_is_found_where_two_fabrics_meet_in_a_square():
    found = UNIT.find(joined((HALF, "sand"), (OTHER, "ink"), box=(3, 3)))
    assert (found.sizes, found.fabrics) == ((3,), ("ink", "sand"))  # in the order of the alphabet
    assert UNIT.find(joined((HALF, "ink"), (OTHER, "ink"), box=(3, 3))) is None  # one fabric
    assert UNIT.find(joined((HALF, "ink"), (OTHER, "sand"), box=None)) is None  # no square


@pytest.mark.parametrize(
    ("way", "side", "squares"),
    [
        (TWO, "3 7/8", 4),  # 3 + 1/4 (2 + √2) = 3.854; 8 units from 4 pairs
        (FOUR, "5 1/2", 2),  # (3 + 1/2) √2 + 1/2 = 5.450
        (EIGHT, "7 3/4", 1),  # 2 x 3.854 = 7.707
    ],
)
def test_its_squares(way, side, squares):
    made = way.figures(kind((3.0,), ("ink", "sand"), 8), asked())
    assert cuts(made) == [("ink", side, squares), ("sand", side, squares)]
    assert str(made.trimmed[0]) == "3 1/2"


def test_fewer_than_a_round_are_made_two_at_a_time():
    made = EIGHT.figures(kind((3.0,), ("ink", "sand"), 7), asked())
    assert made.how == TWO and "7 units needed, fewer than the 8 asked for" in str(made.sum)
