"""Sets on point: blocks on their corner, triangles with the grain outside."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, strategies as st
from quilt_helpers import INK, border, inches, pressed, quilt, sashing, setting, size, tiling

from booklet.geometry import overlay
from booklet.kit.measure import Length
from booklet.kit.outlines.plane import turn_point
from booklet.pattern import SetKind
from booklet.quilt import set_quilts
from booklet.quilt.top.setting_squares import corner_square, rule_for, side_square

TWELVE = tiling("a", 12, 12)


def one(across, down, *rows, tilings=(TWELVE,), fabric=INK, **more):
    of = quilt(*rows, set=SetKind.ON_POINT, setting_fabric=fabric, **more)
    made = set_quilts(pressed(tilings, size(across, down, of)))
    return made.value.quilts["lap"], made.diagnostics


def test_four_by_four():
    """The counts as published: Krista Moser, Quilt Math Made Easy (op-count-16); Dendaria blog (op-total): xy + (x - 1)(y - 1)
    blocks in all."""
    got, faults = one(4, 4, (setting("a"),))
    assert not faults
    assert got.blocks == {"a": 25}  # 4 * 4 + 3 * 3
    assert float(got.finished[0]) == pytest.approx(4 * 12 * math.sqrt(2))
    sides, corners = got.parts
    assert (sides.shape, sides.count, sides.cut[0]) == (
        "quarter-square triangle",
        12,
        inches("18 1/4"),
    )
    assert (corners.shape, corners.count, corners.cut[0]) == (
        "half-square triangle",
        4,
        inches("9 3/8"),
    )
    assert sides.sums == ("side triangle, square: 12 × √2 + 1.207, rounded up = 18 1/4 in",)


def test_second_row_of_the_arrangement_fills_between():
    got, _ = one(3, 2, (setting("a"),), (setting("b"),), tilings=(TWELVE, tiling("b", 12, 12)))
    assert got.blocks == {"a": 6, "b": 2}
    assert {p.row for p in got.placed if p.block == "b"} == {1}


def test_one_block_has_corner_triangles_only():
    (corners,) = one(1, 1, (setting("a"),))[0].parts
    assert corners.count == 4


@given(
    st.integers(1, 5),
    st.integers(1, 5),
    st.sampled_from([0, 90, 180, 270]),
    st.booleans(),
    st.booleans(),
)
def test_blocks_and_triangles_cover_the_top(across, down, turn, framed, sashed):
    more = {"borders": (border("2"),)} if framed else {}
    if sashed:
        more["sashing"] = sashing("1 1/2", "ink")
    got, faults = one(across, down, (setting("a", turn),), **more)
    assert faults == ()
    width, height = map(float, got.finished)

    def area(points):
        ends = (*points[1:], points[0])
        return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, ends, strict=True)) / 2

    blocks = [
        tuple(
            (p.origin[0] + x, p.origin[1] + y)
            for x, y in (turn_point(c, p.turn) for c in TWELVE.outline.corners)
        )
        for p in got.placed
    ]
    places = [*blocks, *(place for part in got.parts for place in part.places)]
    assert sum(map(area, places)) == pytest.approx(width * height)
    for points in places:
        assert area(points) > 0  # clockwise on the page
        for x, y in points:
            assert -1e-9 <= x <= width + 1e-9 and -1e-9 <= y <= height + 1e-9
    assert overlay.overlapping_pairs(places, 1) == []
    assert len(got.placed) == across * down + (across - 1) * (down - 1)


@given(st.integers(1, 64 * 30), st.integers(4, 32))
def test_squares_are_never_too_small(side, allowance):
    block, seam = Length.of(f"{side}/64"), Length.of(f"{allowance}/64")
    rule = rule_for(seam, "inch")
    s, a = float(block), float(seam)
    assert float(side_square(block, rule)) >= s * math.sqrt(2) + a * (2 + 2 * math.sqrt(2))
    assert float(corner_square(block, rule)) >= s / math.sqrt(2) + a * (2 + math.sqrt(2))


def test_only_equal_squares_stand_on_point():
    _, faults = one(2, 2, (setting("a"), setting("b", at=5)), tilings=(TWELVE, tiling("b", 12, 10)))
    (fault,) = faults
    assert (fault.code, fault.span.line) == ("set-not-filled", 5)
    assert fault.message == (
        "block `b` is 12 x 10 in in size `lap`, but a set on point takes squares of one size,"
        " here 12 x 12 in"
    )


def test_sashing_on_point_goes_round_every_block():
    got, faults = one(3, 2, (setting("a"),), sashing=sashing("2", "ink"))
    assert faults == ()
    # (12 + 2) √2 for each block of a row
    assert float(got.finished[0]) == pytest.approx(3 * 14 * math.sqrt(2))
    parts = {part.name: part for part in got.parts}
    assert (parts["sash"].count, str(parts["sash"].cut[0]), str(parts["sash"].cut[1])) == (
        24,
        "2 1/2",
        "12 1/2",
    )  # 4 x 3 x 2
    assert parts["cornerstone"].count == 7  # (3 - 1) x 2 beside blocks, 3 x (2 - 1) between them
    assert parts["half cornerstone"].count == 10  # 2 x 3 at top and bottom, 2 x 2 at the sides
    # 2 √2 + 1 1/4 = 4.078, up to 4 1/8
    assert str(parts["half cornerstone"].cut[0]) == "4 1/8"
    # side and corner triangles are those of blocks of 12 in without sashing
    assert parts["side triangle"].cut[0] == inches("18 1/4")
    assert parts["corner triangle"].cut[0] == inches("9 3/8")


def test_sashing_on_point_needs_cornerstones():
    got, faults = one(2, 2, (setting("a"),), sashing=sashing("2"))
    assert [fault.code for fault in faults] == ["not-yet"]
    assert got.finished is None


def test_triangles_need_a_fabric():
    got, faults = one(2, 2, (setting("a"),), fabric=None)
    assert got.finished is None
    assert [fault.code for fault in faults] == ["no-setting-fabric"]
