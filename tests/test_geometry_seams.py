"""Seams and matching points of blocks small enough to count by hand."""

from __future__ import annotations

import math

import pytest
from builders import pattern_of, piece, shape
from hypothesis import given, settings, strategies as st
from sampling import examples
from tilings import tiling

from booklet.geometry import lay_out

from shapely import Point, Polygon  # isort: skip

seeds = st.integers(0, 100_000)


def laid(*pieces, **keys):
    outcome = lay_out(pattern_of(pieces=pieces, **keys))
    assert not outcome.diagnostics, outcome.diagnostics
    return outcome.value.tilings["s", "b"]


def rect(id, x0, y0, x1, y1):
    return piece(id, corners=[(x0, y0), (x1, y0), (x1, y1), (x0, y1)])


def test_a_four_patch_has_four_seams_and_one_inner_point():
    block = laid(
        rect("a", 0, 0, 1, 1), rect("b", 1, 0, 2, 1), rect("c", 0, 1, 1, 2), rect("d", 1, 1, 2, 2)
    )
    assert [(s.id, s.between) for s in block.seams] == [
        ("s1", ("a", "b")), ("s2", ("a", "c")), ("s3", ("b", "d")), ("s4", ("c", "d")),
    ]  # fmt: skip
    (centre,) = [j for j in block.junctions if j.inside]
    assert centre.at == (1, 1)
    assert centre.seams == ("s1", "s3", "s4", "s2")  # up, right, down, left
    assert len(block.junctions) == 5


def test_the_first_piece_lies_on_the_right_hand():
    block = laid(rect("a", 0, 0, 1, 1), rect("b", 1, 0, 2, 1))
    # a lies left on the page: walking down the seam it is on the right hand
    assert block.seams[0].path == ((1, 0), (1, 1))


def test_a_corner_on_a_long_side_parts_its_seam():
    block = laid(rect("long", 0, 0, 2, 1), rect("a", 0, 1, 0.75, 2), rect("b", 0.75, 1, 2, 2))
    assert [(s.between, s.length) for s in block.seams] == [
        (("long", "a"), 0.75), (("long", "b"), 1.25), (("a", "b"), 1),
    ]  # fmt: skip
    (inner,) = [j for j in block.junctions if j.inside]
    assert (inner.at, len(inner.seams)) == ((0.75, 1), 3)
    assert block.noded["long"] == ((0, 0), (2, 0), (2, 1), (0.75, 1), (0, 1))


def test_straight_edges_between_two_pieces_are_one_seam_but_a_bend_parts_them():
    straight = laid(
        piece("a", corners=[(0, 0), (1, 0), (1, 1), (1, 2), (0, 2)]),
        piece("b", corners=[(1, 0), (2, 0), (2, 2), (1, 2), (1, 0.5)]),
    )
    assert [(s.path, s.length) for s in straight.seams] == [(((1, 0), (1, 2)), 2)]
    bent = laid(
        piece("a", corners=[(0, 0), (1, 0), (1, 1), (2, 1), (2, 2), (0, 2)]),
        rect("b", 1, 0, 2, 1),
    )
    assert [s.path for s in bent.seams] == [((1, 0), (1, 1)), ((1, 1), (2, 1))]
    (turn,) = [j for j in bent.junctions if j.inside]
    assert turn.seams == ("s1", "s2")


def test_two_pieces_may_meet_in_two_places():
    block = laid(
        piece("u", corners=[(0, 0), (3, 0), (3, 2), (2, 2), (2, 1), (1, 1), (1, 2), (0, 2)]),
        rect("m", 1, 1, 2, 2),
        rect("low", 0, 2, 3, 3),
    )
    between = [s.between for s in block.seams]
    assert between.count(("u", "low")) == 2
    assert between.count(("u", "m")) == 3
    assert between.count(("m", "low")) == 1


def test_a_curve_is_one_seam():
    quarter = shape("path", outline="M0 0 H2 A2 2 0 0 1 0 2 Z")
    around = shape("path", outline="M2 0 H3 V3 H0 V2 A2 2 0 0 0 2 0 Z")
    block = laid(piece("q", quarter), piece("r", around), size=(3, 3))
    (seam,) = block.seams
    assert seam.length == pytest.approx(math.pi, rel=1e-3)  # a quarter of 2 pi 2
    assert (seam.start, seam.end) == ((2, 0), (0, 2))
    assert len(seam.path) > 8


def test_a_patch_inside_another_pair_has_all_its_sides_as_seams():
    disc = shape("path", outline="M1 2 A1 1 0 0 1 3 2 A1 1 0 0 1 1 2 Z")
    top = shape("path", outline="M0 0 H4 V2 H3 A1 1 0 0 0 1 2 H0 Z")
    low = shape("path", outline="M0 4 V2 H1 A1 1 0 0 0 3 2 H4 V4 Z")
    block = laid(piece("disc", disc), piece("top", top), piece("low", low))
    assert [s.between for s in block.seams] == [
        ("disc", "top"),
        ("disc", "low"),
        ("top", "low"),
        ("top", "low"),
    ]
    assert [j.inside for j in block.junctions] == [False, True, True, False]
    assert block.patches[0].name == "circle"


def test_seams_of_a_hexagon_rosette():
    hexagon = shape("hexagon", side=1)
    block = laid(
        piece("c", hexagon, at=(0, 0)), piece("h", hexagon, beside=("c", 1, 4), ring=((0, 0), 6))
    )
    assert len(block.seams) == 12  # 6 around the centre, 6 between neighbours
    assert sum(j.inside for j in block.junctions) == 6
    assert all(len(j.seams) == 3 for j in block.junctions if j.inside)
    # an outline of 18 sides: each outer hexagon shows 3
    assert len(block.outline.sides) == 18


@settings(max_examples=examples(60), deadline=None)
@given(seeds)
def test_every_inch_of_outline_is_a_seam_twice_or_on_the_rim(seed):
    pieces, outline = tiling(seed)
    block = laid(*(piece(f"p{i}", corners=c) for i, c in enumerate(pieces)), outline=outline)
    around = sum(math.dist(s.start, s.end) for p in block.pieces for s in p.outline.sides)
    rim = sum(math.dist(s.start, s.end) for s in block.outline.sides)
    assert around == pytest.approx(2 * sum(s.length for s in block.seams) + rim, abs=1e-6)


@settings(max_examples=examples(60), deadline=None)
@given(seeds)
def test_the_pieces_of_a_seam_lie_on_its_two_hands(seed):
    pieces, _ = tiling(seed)
    block = laid(*(piece(f"p{i}", corners=c) for i, c in enumerate(pieces)))
    for seam in block.seams:
        (ax, ay), (bx, by) = seam.path[0], seam.path[1]
        length = math.dist((ax, ay), (bx, by))
        right = (-(by - ay) / length * 1e-4, (bx - ax) / length * 1e-4)
        middle = ((ax + bx) / 2, (ay + by) / 2)
        first, second = (block.piece(id).outline.points for id in seam.between)
        assert Polygon(first).covers(Point(middle[0] + right[0], middle[1] + right[1]))
        assert Polygon(second).covers(Point(middle[0] - right[0], middle[1] - right[1]))


@settings(max_examples=examples(60), deadline=None)
@given(seeds)
def test_seams_points_and_pieces_obey_eulers_formula(seed):
    pieces, _ = tiling(seed)
    block = laid(*(piece(f"p{i}", corners=c) for i, c in enumerate(pieces)))
    # rim edges: as many as junctions on the rim (the rim is one loop through them)
    points, rim = len(block.junctions), sum(not j.inside for j in block.junctions)
    edges = len(block.seams) + rim
    assert points - edges + len(block.pieces) == 1  # V - E + F = 1 without the outer face
