"""The rows of a top: which way the seams between blocks, sashes, triangles and borders are pressed, and the
table that says so. The equations are those inside a block: seams that face each other lie opposite ways."""

import math
from itertools import pairwise, product

import pytest
from hypothesis import given, strategies as st

from booklet.plan import make_plan
from booklet.quilt.assembling.row_pressing import RowPart, RowPartKind, cloth_of, press_rows
from booklet.quilt.assembling.top_pressing import Points, _points
from booklet.recipe.compiler import check

B, S, Q = RowPartKind.BLOCK, RowPartKind.SASH, RowPartKind.STONE


def grid(widths, heights, names):
    """Cloths in columns and rows, `names` row by row."""
    cloths, y = [], 0.0
    for row, high in zip(names, heights, strict=True):
        x = 0.0
        for kind, wide in zip(row, widths, strict=True):
            cloths.append(RowPart(kind=kind, left=x, top=y, right=x + wide, bottom=y + high))
            x += wide
        y += high
    return cloths


def test_rows_of_blocks_lie_left_and_right_in_turn():  # common practice
    rows = press_rows(grid([3, 3, 3], [3, 3, 3], [[B] * 3] * 3))
    assert rows is not None
    assert [row.right for row in rows] == [(False,) * 2, (True,) * 2, (False,) * 2]
    assert [row.locks for row in rows] == [2, 2, 0]  # two joints between each two rows


def test_all_is_pressed_toward_the_strips():  # common practice
    rows = press_rows(grid([3, 1, 3], [3, 1, 3], [[B, S, B], [S, Q, S], [B, S, B]]))
    assert rows is not None and all(row.toward(S) for row in rows)
    assert [row.locks for row in rows] == [2, 2, 0]  # the four corners of the cornerstone


def test_a_long_strip_between_rows_leaves_nothing_to_lock():
    cloths = [*grid([3, 1, 3], [3], [[B, S, B]]), RowPart(kind=S, left=0, top=3, right=7, bottom=4)]
    cloths += [
        RowPart(kind=c.kind, left=c.left, top=4, right=c.right, bottom=7) for c in cloths[:3]
    ]
    rows = press_rows(cloths)
    assert rows is not None and [row.locks for row in rows] == [0, 0, 0]
    assert all(row.toward(S) for row in rows)


def test_a_border_with_corner_squares_is_pressed_toward_its_strips():  # common practice
    names = [
        [RowPartKind.SQUARE, RowPartKind.BORDER, RowPartKind.SQUARE],
        [RowPartKind.BORDER, RowPartKind.TOP, RowPartKind.BORDER],
    ]
    rows = press_rows(grid([1, 6, 1], [1, 6, 1], [*names, names[0]]))
    assert rows is not None and all(row.toward(RowPartKind.BORDER) for row in rows)
    assert sum(row.locks for row in rows) == 4  # the four corners of the top


def test_what_is_in_no_rows_is_said_to_be():
    assert (
        press_rows(
            [
                RowPart(kind=B, left=0, top=0, right=3, bottom=3),
                RowPart(kind=B, left=3, top=1, right=6, bottom=4),
            ]
        )
        is None
    )


widths = st.lists(st.integers(1, 4), min_size=1, max_size=4)
kinds = st.sampled_from([B, S, Q])


@given(st.lists(st.tuples(widths, st.lists(kinds, min_size=4, max_size=4)), min_size=1, max_size=3))
def test_no_way_to_press_ragged_rows_locks_more(made):
    """Brute force over every direction of every seam, against the rows found."""
    cloths = []
    for y, (wide, names) in enumerate(made):
        x = 0
        for w, kind in zip(wide, names, strict=False):
            cloths.append(RowPart(kind=kind, left=x, top=y, right=x + w, bottom=y + 1))
            x += w
    rows = press_rows(cloths)
    assert rows is not None
    places = [[c.left for c in cloths if c.top == y and c.left] for y in range(len(made))]
    ways = product(*(product((False, True), repeat=len(p)) for p in places))

    def locked(way):
        told = [dict(zip(p, w, strict=True)) for p, w in zip(places, way, strict=True)]
        return sum(a[x] != b[x] for a, b in pairwise(told) for x in a.keys() & b.keys())

    assert sum(row.locks for row in rows) == max(map(locked, ways))
    assert sum(row.locks for row in rows) == locked([row.right for row in rows])
    assert sum(row.clashes for row in rows) == 0  # columns never ask for opposite things


def test_a_block_on_its_corner_lies_in_a_slanted_row():
    # a square on its corner, its top at (3, 0), side 3 * sqrt 2: turned, it lies at 3 / sqrt 2
    cloth = cloth_of(B, ((3, 0), (6, 3), (3, 6), (0, 3)), slanted=True)
    assert cloth.top == pytest.approx(3 / math.sqrt(2)) and cloth.bottom == pytest.approx(
        9 / math.sqrt(2)
    )
    assert cloth.left == pytest.approx(-3 / math.sqrt(2))  # its left corner, (0, 3)


def around(sides, across, down, corners):
    """Outlines of a mosaic: `corners` about each of across x down places one step apart."""
    (ax, ay), (dx, dy) = sides
    return [
        tuple((x + c * ax + r * dx, y + c * ay + r * dy) for x, y in corners)
        for r in range(down)
        for c in range(across)
    ]


def test_hexagons_are_fanned_at_every_point():  # common practice
    h = math.sqrt(3)
    hexagon = [(h / 2, -0.5), (h / 2, 0.5), (0, 1), (-h / 2, 0.5), (-h / 2, -0.5), (0, -1)]
    assert _points(around(((h, 0), (h / 2, 1.5)), 4, 4, hexagon)) is Points.FAN


def test_triangles_cannot_all_be_fanned_and_bricks_have_no_points():
    h = math.sqrt(3) / 2
    up = around(((1, 0), (0.5, -h)), 6, 6, [(0, 0), (0.5, -h), (1, 0)])
    down = around(((1, 0), (0.5, -h)), 6, 6, [(1, 0), (0.5, -h), (1.5, -h)])
    assert _points([*up, *down]) is Points.ODD  # three points round a triangle
    brick = [(0, 0), (2, 0), (2, 1), (0, 1)]
    assert _points(around(((2, 0), (1, 1)), 4, 4, brick)) is Points.NONE


SOURCE = """\
title: Rows
units: inch
sizes: {{s: {{title: One size, unit: 2 in, blocks: {blocks}}}}}
fabrics:
  ink: {{name: Ink, colour: "#223355"}}
  sand: {{name: Sand, colour: "#eeddbb"}}
blocks:
  plain: {{grid: [[ink, sand]]{columns}}}
quilt: {{arrange: [[plain]], {quilt}}}
"""


def told(tmp_path, blocks, quilt, columns=""):
    """The table of joins of a quilt, as (seams, press, meets)."""
    text = SOURCE.format(blocks=blocks, quilt=quilt, columns=columns)
    (tmp_path / "pattern.yaml").write_text(text, encoding="utf-8")
    outcome = check(tmp_path)
    assert outcome.value is not None, outcome.diagnostics
    (size,) = make_plan(outcome.value).sizes
    assert all(str(line.locks) in line.meets or not line.locks for line in size.join_table)
    return [(line.seams, line.press, line.meets) for line in size.join_table], size


def test_the_table_says_alike_rows_once(tmp_path):
    lines, size = told(tmp_path, "3 x 5", "set: straight, borders: [{width: 1 in, fabric: ink}]")
    assert lines == [
        ("in rows 1, 3 and 5", "to the left", "they lock at 8 joints"),  # 4 * 2 between five rows
        ("in rows 2 and 4", "to the right", "they lock at 8 joints"),
        ("between the rows", "down", "nothing to lock with"),
        ("border 1, inner edge", "toward the border", "nothing to lock with"),
    ]
    assert size.top.rows_opposed


def test_the_table_of_sashes_and_corner_squares(tmp_path):
    quilt = (
        "set: straight, sashing: {width: 1 in, fabric: sand, cornerstones: ink}, borders: "
        "[{width: 1 in, fabric: ink, corners: squares, square fabric: sand},"
        " {width: 1 in, fabric: ink, corners: mitred}]"
    )
    lines, size = told(tmp_path, "3 x 4", quilt)
    assert lines == [
        ("in every row of blocks", "toward the sashes", "they lock at 24 joints"),  # 6 stones * 4
        ("in every row of sashes", "toward the sashes", "they lock at 24 joints"),
        ("between the rows", "toward the rows of sashes", "nothing to lock with"),
        ("border 1, inner edge", "toward the border", "they lock at 4 joints"),
        ("border 1, corners", "toward the strip", "they lock at 4 joints"),
        ("border 2, inner edge", "toward the border", "nothing to lock with"),
        ("border 2, mitered corners", "open", "nothing to lock with"),
    ]
    assert not size.top.rows_opposed


def test_the_table_of_a_set_on_point(tmp_path):
    lines, _ = told(
        tmp_path, "3 x 2", "set: on point, setting fabric: sand", ", columns: [1, 1], rows: [2]"
    )
    assert lines == [  # 3 + 2 - 1 = 4 slanted rows; 2 * 2 + 3 * 1 = 7 corners of blocks inside
        ("in slanted rows 1 and 3", "toward the lower left", "they lock at 7 joints"),
        ("in slanted rows 2 and 4", "toward the upper right", "they lock at 7 joints"),
        ("between the rows", "toward the lower right", "nothing to lock with"),
        ("at the corner triangles", "toward the triangle", "nothing to lock with"),
    ]


def test_one_row_has_no_seam_between_rows(tmp_path):
    lines, _ = told(tmp_path, "3 x 1", "set: straight")
    assert lines == [("in the row of blocks", "to the left", "nothing to lock with")]
