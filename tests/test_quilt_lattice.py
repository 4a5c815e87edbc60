"""Lattice sets: blocks of any outline by their steps, the ragged rim trimmed straight."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, strategies as st
from quilt_helpers import (
    binding,
    border,
    inches,
    pressed,
    quilt,
    sashing,
    setting,
    shape_tiling,
    size,
    tiling,
)

from booklet.geometry import overlay
from booklet.kit.measure import Extent
from booklet.pattern import Rim, SetKind
from booklet.quilt import set_quilts
from booklet.quilt.top.rims import inner_rectangle

# a hexagon 4 wide and 4 high with a flat top 2 wide: 2 * 4 + 2 * (4 * 1 / 2) = 12
HEXAGON = shape_tiling("h", ((1, 0), (3, 0), (4, 2), (3, 4), (1, 4), (0, 2)), 12)
# a point up: 4 wide, 4 high, sides 2 long
TALL = shape_tiling("t", ((2, 0), (4, 1), (4, 3), (2, 4), (0, 3), (0, 1)), 12)


ROWS = ((setting("t"),),)


def steps(*pairs):
    return tuple((Extent(x, True), Extent(y, True)) for x, y in pairs)


def one(across, down, lattice, tilings=(TALL,), rows=ROWS, **more):
    of = quilt(*rows, set=SetKind.LATTICE, lattice=steps(*lattice), **more)
    made = set_quilts(pressed(tilings, size(across, down, of)))
    return made.value.quilts["lap"], made.diagnostics


def test_squares_in_a_lattice_are_a_straight_set():
    got, faults = one(3, 2, ((6, 0), (0, 6)), (tiling("a", 6, 6),), ((setting("a"),),))
    assert faults == ()
    assert got.kept is None
    assert got.finished == (inches(18), inches(12))
    assert [p.origin for p in got.placed][:4] == [(0, 0), (6, 0), (12, 0), (0, 6)]


def test_rows_begin_within_one_step():
    got, _ = one(4, 5, ((4, 0), (2, 3)))
    starts = [min(p.origin[0] for p in got.placed if p.row == row) for row in range(5)]
    assert starts == pytest.approx([-2, 0, -2, 0, -2])  # 2 in are trimmed off the left


def test_ragged_rim_is_trimmed_to_the_notches():
    got, faults = one(4, 5, ((4, 0), (2, 3)))
    # whole: 4 * 4 + 2 across, 5 * 3 + 1 down; 2 off each side where a row stands back, 1 off top and bottom
    assert got.finished == (inches(14), inches(14))
    (fault,) = faults
    assert (fault.code, fault.is_error) == ("ragged-rim", False)
    assert fault.message == (
        "the rim of the lattice set of size `lap` is ragged: it is trimmed to 14 in x 14 in,"
        " up to 2 in off a side"
    )
    assert got.sums[0] == "set, across: 18 in with its rim, 14 in kept"


def test_borders_go_round_the_trimmed_top():
    got, _ = one(4, 5, ((4, 0), (2, 3)), borders=(border("3"),), binding=binding())
    assert got.finished == (inches(20), inches(20))
    assert got.binding.length == inches(90)  # 4 * 20 + 10
    assert got.placed[0].origin == pytest.approx((1, 2))  # 3 in border, 2 and 1 in trimmed
    assert got.kept == ((3, 3), (17, 3), (17, 17), (3, 17))  # where the blocks are trimmed


def test_flat_hexagons_step_slantwise():
    got, faults = one(4, 3, ((3, 2), (0, 4)), (HEXAGON,), ((setting("h"),),))
    assert [f.code for f in faults] == ["ragged-rim"]
    assert got.blocks == {"h": 12}


def test_block_larger_or_smaller_than_the_steps():
    _, faults = one(3, 3, ((4, 0), (2, 4)))
    assert [f.code for f in faults] == ["set-not-filled"]
    assert faults[0].message == (
        "block `t` covers 12 square inches in size `lap`, but one step across and one down span"
        " 16 square inches: the blocks would leave gaps"
    )


def test_right_area_but_wrong_steps():
    _, faults = one(3, 3, ((3, 0), (2, 4)))  # 3 * 4 = 12, but neighbours are 4 wide
    assert "overlap by" in faults[0].message
    assert faults[0].code == "set-not-filled"


def test_steps_in_one_line():
    _, faults = one(3, 3, ((4, 0), (8, 0)))
    assert "in one line" in faults[0].message


def test_one_row_keeps_what_is_straight():
    got, faults = one(3, 1, ((4, 0), (2, 3)))
    assert [f.code for f in faults] == ["ragged-rim"]
    assert got.finished == (inches(12), inches(2))  # 4 - 2 * 1 in of points


def test_too_few_blocks_for_a_straight_top():
    # a slanting stripe 8 high that leans 8 across and is 2 wide: nothing upright fits about its middle
    stripe = shape_tiling("t", ((0, 0), (2, 0), (10, 8), (8, 8)), 16)
    got, faults = one(1, 1, ((2, 0), (0, 8)), (stripe,))
    assert got.finished is None
    assert faults[0].message == (
        "the lattice set of size `lap` is all ragged rim: no straight-sided top can be cut from"
        " 1 x 1 blocks"
    )


def test_sashing_in_a_lattice_is_said_to_be_missing():
    _, faults = one(2, 2, ((4, 0), (2, 3)), sashing=sashing("1"))
    assert [f.code for f in faults] == ["not-yet"]


@given(st.integers(3, 7), st.integers(3, 7), st.floats(1, 9), st.sampled_from([0, 1, 2]))
def test_trimmed_top_is_covered_by_blocks(across, down, side, lean):
    # regular hexagons, points up, stepping right or left, or slantwise
    half = side * math.sqrt(3) / 2
    corners = (
        (half, 0),
        (2 * half, side / 2),
        (2 * half, 1.5 * side),
        (half, 2 * side),
        (0, 1.5 * side),
        (0, side / 2),
    )
    hexagon = shape_tiling("t", corners, 3 * half * side)
    first = ((2 * half, 0), (half, 1.5 * side))
    chosen = (first, (first[0], (-half, 1.5 * side)), ((2 * half, 0), (3 * half, 1.5 * side)))[lean]
    got, faults = one(across, down, chosen, (hexagon,))
    assert [f.code for f in faults] == ["ragged-rim"]
    width, height = map(float, got.finished)
    top = ((0, 0), (width, 0), (width, height), (0, height))
    blocks = [tuple((x + p.origin[0], y + p.origin[1]) for x, y in corners) for p in got.placed]
    left_bare = sum(overlay.area(part) for part in overlay.difference(top, blocks))
    assert left_bare == pytest.approx(0, abs=1e-5 * side)
    # and no side could be moved out by a tenth of a block's side
    out = side / 10
    for left, upper, right, lower in (
        (out, 0, 0, 0),
        (0, out, 0, 0),
        (0, 0, out, 0),
        (0, 0, 0, out),
    ):
        x, y, w, h = -left, -upper, width + right, height + lower
        assert overlay.difference(((x, y), (w, y), (w, h), (x, h)), blocks)


def test_a_rectangle_keeps_all_of_itself():
    frame = inner_rectangle(((0, 0), (5, 0), (5, 3), (0, 3)))
    assert frame is not None
    assert (frame.left, frame.top, frame.width, frame.height) == (0, 0, 5, 3)


def test_a_straight_lattice_needs_no_filling():
    got, _ = one(3, 2, ((6, 0), (0, 6)), (tiling("a", 6, 6),), ((setting("a"),),), rim=Rim.FILL)
    assert got.blocks == {"a": 6} and got.kept is None
