"""Straight sets: blocks in columns and rows, turned as arranged, with everything around them."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st
from quilt_helpers import (
    batting,
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
from booklet.kit.outlines.plane import rectangle, turn_point
from booklet.pattern import Corners
from booklet.quilt import set_quilts

SIX = tiling("a", 6, 6)


def one(of, tilings=(SIX,), across=2, down=3):
    made = set_quilts(pressed(tilings, size(across, down, of)))
    assert made.value is not None
    return made.value.quilts["lap"], made.diagnostics


def test_blocks_stand_beside_each_other():
    got, faults = one(quilt((setting("a"),)))
    assert not faults
    assert got.finished == (inches(12), inches(18))  # 2 * 6, 3 * 6
    assert got.blocks == {"a": 6}
    assert [p.origin for p in got.placed][:3] == [(0, 0), (6, 0), (0, 6)]
    assert got.sums == ("set, across: 2 × 6 = 12 in", "set, down: 3 × 6 = 18 in")


def test_arrangement_is_repeated_over_the_set():
    got, _ = one(
        quilt((setting("a"), setting("b")), (setting("b"), setting("a"))),
        (SIX, tiling("b", 6, 6)),
        across=3,
        down=3,
    )
    rows = ["".join(p.block for p in got.placed if p.row == row) for row in range(3)]
    assert rows == ["aba", "bab", "aba"]
    assert got.blocks == {"a": 5, "b": 4}


@pytest.mark.parametrize(
    ("turn", "origin"),
    [(0, (0, 0)), (90, (4, 0)), (180, (6, 4)), (270, (0, 6))],
    # turned clockwise about (0, 0), a 6 x 4 block lies left of it at 90, left and above at 180
)
def test_turned_block_fills_its_place(turn, origin):
    got, faults = one(quilt((setting("a", turn),)), (tiling("a", 6, 4),), 1, 1)
    assert not faults
    assert got.placed[0].origin == origin
    wide = (4, 6) if turn % 180 else (6, 4)
    assert got.finished == (inches(wide[0]), inches(wide[1]))


def test_frame_need_not_start_at_zero():
    got, _ = one(quilt((setting("a", 90),)), (tiling("a", 6, 4, at=(-3, 1)),), 1, 1)
    # corners turned: (x, y) -> (-y, x): x from -5 to -1, y from -3 to 3; the corner goes to (0, 0)
    assert got.placed[0].origin == (5, 3)


def test_columns_and_rows_may_differ_in_size():
    tilings = (SIX, tiling("w", 4, 6), tiling("h", 6, 4), tiling("s", 4, 4))
    of = quilt((setting("a"), setting("w")), (setting("h"), setting("s")), sashing=sashing("1"))
    got, faults = one(of, tilings, 2, 2)
    assert not faults
    assert got.finished == (inches(11), inches(11))  # 6 + 1 + 4
    assert [p.origin for p in got.placed] == [(0, 0), (7, 0), (0, 7), (7, 7)]
    by_name = {part.name: part for part in got.parts}
    assert by_name["sash 1"].finished == (inches(1), inches(4))
    assert by_name["sash 2"].cut == (inches("1 1/2"), inches("6 1/2"))
    assert by_name["long sash"].finished == (inches(1), inches(11))


def test_block_that_does_not_fill_its_place():
    of = quilt((setting("a"), setting("b", 90, at=7)))
    got, faults = one(of, (SIX, tiling("b", 5, 6)), 4, 1)
    assert got.finished is None
    assert got.blocks == {"a": 4, "b": 4}
    (fault,) = faults  # told once, though it stands in two places
    assert fault.code == "set-not-filled"
    assert fault.span.line == 7
    assert fault.message == (
        "block `b` turned 90 is 5 in high in size `lap`, but row 1 of the set is 6 in high:"
        " it is 1 in short"
    )


def test_block_wider_than_its_column():
    _, faults = one(quilt((setting("a"),), (setting("b"),)), (SIX, tiling("b", 6.5, 6)), 1, 2)
    assert "6 1/2 in wide" in faults[0].message
    assert "1/2 in over" in faults[0].message


def test_block_that_is_no_rectangle():
    hexagon = shape_tiling("h", ((1, 0), (3, 0), (4, 2), (3, 4), (1, 4), (0, 2)), 12.0)
    _, faults = one(quilt((setting("h"),)), (hexagon,))
    assert [f.code for f in faults] == ["set-not-filled"]
    assert "covers 12 square inches of 4 in x 4 in = 16 square inches" in faults[0].message


def test_faulty_block_is_passed_over_silently():
    got, faults = one(quilt((setting("a"), setting("gone"))))
    assert faults == ()
    assert got.finished is None


def test_size_without_quilt_counts_every_block():
    got, _ = one(None, (SIX, tiling("b", 5, 3)), 4, 3)
    assert got.finished is None
    assert got.blocks == {"a": 12, "b": 12}


def test_same_fault_in_two_sizes_is_told_once():
    of = quilt((setting("a"), setting("b")))
    tilings = tuple(
        tiling(name, width, 6, size=where)
        for where in ("lap", "bed")
        for name, width in (("a", 6), ("b", 6))
    )
    wrong = (*tilings[:1], tiling("b", 6, 5), *tilings[2:3], tiling("b", 6, 4, size="bed"))
    made = set_quilts(pressed(wrong, size(2, 1, of), size(2, 1, of, "bed")))
    assert len(made.diagnostics) == 1
    assert set(made.value.quilts) == {"lap", "bed"}


def test_sashing_with_cornerstones_all_round():
    of = quilt((setting("a"),), sashing=sashing("1 1/2", "ink", outside=True))
    got, _ = one(of)
    # across 2 * 6 + 3 * 1 1/2, down 3 * 6 + 4 * 1 1/2
    assert got.finished == (inches("16 1/2"), inches(24))
    assert got.placed[0].origin == (1.5, 1.5)
    sash, stone = got.parts
    assert (sash.name, sash.count) == ("sash", 17)  # 3 * 3 upright + 2 * 4 level
    assert sash.cut == (inches(2), inches("6 1/2"))
    assert (stone.name, stone.count, stone.fabric) == ("cornerstone", 12, "ink")  # 3 * 4
    assert stone.cut == (inches(2), inches(2))
    assert stone.sums[0] == "cornerstone, width: 1 1/2 + 2 × 1/4 = 2 in"


def test_sashing_between_only():
    sash, stone = one(quilt((setting("a"),), sashing=sashing("2", "ink")))[0].parts
    assert (sash.count, stone.count) == (7, 2)  # 1 * 3 upright + 2 * 2 level; 1 * 2


def test_sashes_running_through():
    short, long = one(quilt((setting("a"),), sashing=sashing("2", outside=True)))[0].parts
    assert (short.name, short.count, short.finished) == ("sash", 9, (inches(2), inches(6)))
    assert (long.name, long.count, long.long) == ("long sash", 4, True)
    assert long.finished == (inches(2), inches(18))  # 2 * 6 + 3 * 2


def test_one_block_has_no_sashing_between():
    assert one(quilt((setting("a"),), sashing=sashing("2")), across=1, down=1)[0].parts == ()


def area(points):
    ends = (*points[1:], points[0])
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, ends, strict=True)) / 2


@given(
    st.integers(1, 5),
    st.integers(1, 5),
    st.sampled_from([None, "ink"]),
    st.booleans(),
    st.lists(st.sampled_from(list(Corners)), max_size=3),
)
def test_parts_and_blocks_cover_the_top_exactly(across, down, stones, outside, corners):
    of = quilt(
        (setting("a"), setting("a", 180)),
        sashing=sashing("3/4", stones, outside),
        borders=tuple(border(f"{k + 1} 1/2", c, "sand") for k, c in enumerate(corners)),
        binding=binding(),
        batting=batting(),
    )
    got, faults = one(of, (tiling("a", 6, 4),), across, down)
    assert not faults
    width, height = map(float, got.finished)
    places = [place for part in got.parts for place in part.places]
    covered = sum(area(p) for p in places) + 24 * len(got.placed)
    assert covered == pytest.approx(width * height)
    far = {0: (0, 0), 180: (6, 4)}  # how far right and below of its corner a block's (0, 0) lies
    blocks = [
        rectangle(
            placed.origin[0] - far[placed.turn][0], placed.origin[1] - far[placed.turn][1], 6, 4
        )
        for placed in got.placed
    ]
    assert overlay.overlapping_pairs([*places, *blocks], 1) == []
    assert all(
        -1e-9 <= x <= width + 1e-9 and -1e-9 <= y <= height + 1e-9 for p in places for x, y in p
    )
    for part in got.parts:
        assert part.count == len(part.places)
        finished_area = float(part.finished[0]) * float(part.finished[1])
        if part.shape == "rectangle":
            assert area(part.places[0]) == pytest.approx(finished_area)
    assert got.batting == (got.finished[0] + inches(8), got.finished[1] + inches(8))


@given(st.sampled_from([0, 90, 180, 270]), st.floats(-9, 9), st.floats(-9, 9))
def test_a_turned_block_lies_in_its_place(turn, x, y):
    block = tiling("a", 6, 4, at=(x, y))
    got, _ = one(quilt((setting("a", turn),)), (block,), 2, 2)
    for placed in got.placed:
        corners = [turn_point(p, turn) for p in block.outline.corners]
        xs = [placed.origin[0] + p[0] for p in corners]
        ys = [placed.origin[1] + p[1] for p in corners]
        wide, high = (4, 6) if turn % 180 else (6, 4)
        corner = (placed.column * wide, placed.row * high)
        assert (min(xs), min(ys)) == pytest.approx(corner, abs=1e-9)


def test_hundred_thousand_blocks_are_set():
    got, _ = one(quilt((setting("a"),)), across=1000, down=100)
    assert len(got.placed) == 100_000
