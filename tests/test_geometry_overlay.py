"""The door to shapely, points and loops: small sums."""

from __future__ import annotations

import math
import random

import pytest
import shapely
from builders import pattern_of, piece, shape
from hypothesis import given, strategies as st

from booklet.geometry import lay_out, overlay
from booklet.geometry.loops import trace_loops
from booklet.geometry.vectors import as_rectangle, union_outline
from booklet.kit.outlines.plane import (
    angle_up,
    cosine,
    is_straight,
    shifted,
    sine,
    tidy_angle,
    turn_point,
    turning,
)
from booklet.kit.outlines.polygon import area_of, without_straight_points

SQUARE = ((0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0))
R2, R3 = math.sqrt(2), math.sqrt(3)


@given(st.floats(-1000, 1000))
def test_cosines_from_closed_forms_are_cosines(degrees):
    assert cosine(degrees) == pytest.approx(math.cos(math.radians(degrees)), abs=1e-12)
    assert sine(degrees) == pytest.approx(math.sin(math.radians(degrees)), abs=1e-12)


def test_multiples_of_15_degrees_are_exactly_opposite():
    for step in range(24):
        assert cosine(15 * step) == -cosine(15 * step + 180) == cosine(-15 * step)
    assert (cosine(90), cosine(60), sine(30), sine(180)) == (0, 0.5, 0.5, 0)


def test_directions_and_turnings():
    assert [angle_up((0, 0), p) for p in [(0, -1), (1, -1), (1, 0), (0, 1), (-1, 0)]] == [
        0,
        45,
        90,
        180,
        270,
    ]
    assert turning((0, 0), (1, 0), (1, 1)) == 90  # right on the page
    assert turning((0, 0), (1, 0), (1, -1)) == -90
    assert turn_point((0, -1), 90) == (1, 0)
    assert tidy_angle(-1e-12) == 0
    assert tidy_angle(359.9999999999) == 0


def test_straight_points_are_taken_out():
    assert without_straight_points([(0, 0), (1, 0), (2, 0), (2, 2), (0, 2), (0, 1)]) == (
        (0, 0),
        (2, 0),
        (2, 2),
        (0, 2),
    )
    assert is_straight((0, 0), (1, 1e-7), (2, 0))
    assert not is_straight((0, 0), (3, 0), (2, 0))  # back on itself


def test_offset_is_mitred_exactly_corner_by_corner():
    quarter = overlay.offset(SQUARE, 0.25)
    assert quarter == ((-0.25, -0.25), (2.25, -0.25), (2.25, 2.25), (-0.25, 2.25))
    # half-square triangle, side 2: the cut legs are side + 7/8 in rounded up: 2 + 1/4 (2 + sqrt2)
    triangle = overlay.offset(((0, 0), (2, 2), (0, 2)), 0.25)
    assert math.dist(triangle[1], triangle[2]) == pytest.approx(2 + 0.25 * (2 + R2))
    # an inward corner stays one corner
    ell = overlay.offset(((0, 0), (2, 0), (2, 1), (1, 1), (1, 2), (0, 2)), 0.25)
    assert ell[3] == (1.25, 1.25)


@pytest.mark.parametrize("limit", [1.5, 2.0, 3.0])
def test_offset_cuts_tips_at_the_limit(limit):
    tip = overlay.offset(((0, 0), (6, 1), (0, 2)), 0.25, limit)
    assert len(tip) > 3
    for corner in ((0, 0), (6, 1), (0, 2)):
        made = [p for p in tip if math.dist(p, corner) < 1]
        if len(made) == 2:  # the cut lies just `limit` allowances from the corner
            middle = ((made[0][0] + made[1][0]) / 2, (made[0][1] + made[1][1]) / 2)
            assert math.dist(middle, corner) == pytest.approx(limit * 0.25)
    # every point of the cut outline is at least an allowance away from the seam line
    for a, b in zip(tip, (*tip[1:], tip[0]), strict=True):
        assert overlay.reach_beyond([a, b], ((0, 0), (6, 1), (0, 2))) >= 0.25 - 1e-9


def test_offset_of_a_narrow_inward_corner_does_not_cross_itself():
    notch = ((0, 0), (4, 0), (4, 4), (2.1, 4), (2.05, 1), (2, 4), (0, 4))
    assert overlay.is_simple(overlay.offset(notch, 0.25))


def test_areas_overlaps_unions_and_holes():
    other = ((1.0, 1.0), (3.0, 1.0), (3.0, 3.0), (1.0, 3.0))
    assert overlay.area(SQUARE) == 4
    assert overlay.overlap_area(SQUARE, other) == 1
    assert overlay.overlap_parts(SQUARE, other) == (((1, 1), (2, 1), (2, 2), (1, 2)),)
    (merged,) = overlay.union([SQUARE, other])
    assert overlay.area(merged) == 7  # 4 + 4 - 1
    frame = [((0, 0), (3, 0), (3, 1), (0, 1)), ((0, 2), (3, 2), (3, 3), (0, 3)), ((0, 1), (1, 1), (1, 2), (0, 2)), ((2, 1), (3, 1), (3, 2), (2, 2))]  # fmt: skip
    assert overlay.holes(frame) == (((1, 1), (2, 1), (2, 2), (1, 2)),)
    assert overlay.difference(SQUARE, [other])[0][0] == (0, 0)
    assert overlay.overlapping_pairs([SQUARE, other, SQUARE], 10) == [
        (0, 1, 1),
        (0, 2, 4),
        (1, 2, 1),
    ]
    assert overlay.overlapping_pairs([SQUARE, other, SQUARE], 1) == [(0, 1, 1)]


def test_what_goes_round_a_hole_is_told_in_two():
    yard, house = ((0, 0), (4, 0), (4, 4), (0, 4)), ((1, 1), (3, 1), (3, 3), (1, 3))
    halves = overlay.difference(yard, [house])
    assert [overlay.area(half) for half in halves] == [6, 6]  # (4 x 4 - 2 x 2) / 2
    four = [tuple((x / 4 + a, y / 4 + b) for x, y in house) for a in (0, 2) for b in (0, 2)]
    rest = overlay.difference(yard, four)
    assert sum(map(overlay.area, rest)) == 16 - 4 * 0.25
    assert all(overlay.is_simple(part) for part in rest)


def test_crossings_are_found():
    bow = ((0, 0), (2, 2), (2, 0), (0, 2))
    assert overlay.is_simple(SQUARE)
    assert not overlay.is_simple(bow)
    assert overlay.crossing_place(bow) == (1, 1)
    assert overlay.crossing_place(SQUARE) is None


def test_a_label_lies_inside_where_there_is_room():
    assert overlay.label_point(SQUARE) == (1, 1)
    ell = ((0, 0), (6, 0), (6, 1), (1, 1), (1, 6), (0, 6))
    point, room = overlay.label_spot(ell)
    assert shapely.Polygon(ell).covers(shapely.Point(point))
    assert room == pytest.approx(0.59, abs=0.02)  # in the corner: r = 2 - sqrt2


def test_loops_of_touching_parts_and_of_holes():
    def edges(*loops):
        return [(a, b) for loop in loops for a, b in zip(loop, (*loop[1:], loop[0]), strict=True)]

    one, two = ((0, 0), (1, 0), (1, 1), (0, 1)), ((1, 1), (2, 1), (2, 2), (1, 2))
    assert trace_loops(edges(one, two)) == (one, two)
    hole = ((0, 0), (0.2, 0.5), (0.5, 0.2))  # against the clock, touches a corner of the outer loop
    found = trace_loops(edges(one, hole))
    assert sorted(area_of(loop) > 0 for loop in found) == [False, True]
    assert trace_loops([((0, 0), (1, 0))]) == ()


@pytest.mark.parametrize("degrees", range(0, 360, 15))
def test_three_triangles_round_an_empty_one_are_three_loops(degrees):
    # they touch at the three corners of the empty triangle; were the walk to go straight on there, it
    # would find one outline round all and a hole
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))

    def triangle(x, y):
        corners = [(x, y), (x + 1, y + 2), (x - 1, y + 2)]
        return [(c * a - s * b, s * a + c * b) for a, b in corners]

    triangles = [triangle(0, 0), triangle(1, 2), triangle(-1, 2)]
    sides = [(a, b) for loop in triangles for a, b in zip(loop, loop[1:] + loop[:1], strict=True)]
    found = trace_loops(sides)
    assert {frozenset(loop) for loop in found} == {frozenset(loop) for loop in triangles}
    assert [area_of(loop) for loop in found] == pytest.approx([2, 2, 2])


def test_the_outline_of_a_unit():
    rectangle = shape("rectangle", width=2, height=1)
    wheel = [
        piece("c", "square", side=1, at=(1.5, 1.5)),
        piece("w", rectangle, at=(1, 0.5), ring=((1.5, 1.5), 4)),
    ]
    block = lay_out(pattern_of(pieces=wheel)).value.tilings["s", "b"]
    assert union_outline(block, ["c", "w1"]) == (((0, 0), (2, 0), (2, 2), (1, 2), (1, 1), (0, 1)),)
    assert union_outline(block, ["w1"]) == (((0, 0), (2, 0), (2, 1), (0, 1)),)
    assert as_rectangle(union_outline(block, block_ids(block))[0]) == (3, 3)
    frame = union_outline(block, ["w1", "w2", "w3", "w4"])
    assert [area_of(loop) for loop in frame] == [9, -1]  # the centre is a hole
    assert len(union_outline(block, ["w1", "w3"])) == 2
    assert as_rectangle(union_outline(block, ["c", "w1"])[0]) is None


def block_ids(block):
    return [one.id for one in block.pieces]


def test_a_turned_rectangle_is_one():
    turned = [turn_point(p, 30) for p in ((0, 0), (3, 0), (3, 2), (0, 2))]
    assert as_rectangle(turned) == pytest.approx((3, 2))
    assert as_rectangle([(0, 0), (3, 0), (4, 2), (1, 2)]) is None


def test_a_union_that_lost_area_is_made_again(monkeypatch):
    # points a hair apart: whatever the library makes of them, no square of the three may get lost
    row = [shifted(SQUARE, (2 * n + 1e-10 * n, 0)) for n in range(3)]
    plain = shapely.union_all

    def losing(polygons, grid_size=None):
        return plain(polygons if grid_size else polygons[:2], grid_size=grid_size)

    monkeypatch.setattr(overlay.shapely, "union_all", losing)
    (whole,) = overlay.union(row)
    assert overlay.area(whole) == pytest.approx(12)  # 3 x 2 x 2


def box(left, top, wide=1.0, tall=1.0):
    return [(left, top), (left + wide, top), (left + wide, top + tall), (left, top + tall)]


def test_layers_are_counted_about_each_place_whether_or_not_the_same_lies_about_another():
    # two squares of which the second lies half on the first, three times over; on the third lies a strip more
    pairs = [box(x + dx, 0) for x in (0, 10, 20) for dx in (0.0, 0.5)]
    strip = box(20.5, 0.5, 3.0, 0.25)
    places = [(0.75, 0.0), (10.75, 0.0), (20.75, 0.0), (1.6, 0.0), (30.0, 0.0)]
    assert overlay.most_layers([*pairs, strip], places, 0.1) == [2, 2, 2, 0, 0]
    # half an inch round the third place lies the strip; of the fourth, the second square ends 1/10 in to the left, and
    # the first 6/10 in
    assert overlay.most_layers([*pairs, strip], places, 0.55) == [2, 2, 3, 1, 0]
    assert overlay.most_layers([], places, 0.1) == [0] * 5
    assert overlay.most_layers(pairs, [], 0.1) == []


@pytest.mark.parametrize("seed", range(6))
def test_layers_counted_together_are_those_counted_one_place_at_a_time(seed):
    chance = random.Random(seed)
    some = [
        box(chance.uniform(0, 3), chance.uniform(0, 3), *chance.choices((0.5, 1.0, 2.0), k=2))
        for _ in range(9)
    ]
    again = [[(x + 7 * n, y) for x, y in points] for n in range(3) for points in some]
    again[chance.randrange(len(again))] = box(1, 1)
    places = [(chance.uniform(0, 4), chance.uniform(0, 4)) for _ in range(8)]
    places += [(x + 7, y) for x, y in places]
    one_by_one = [overlay.most_layers(again, [place], 0.3)[0] for place in places]
    assert overlay.most_layers(again, places, 0.3) == one_by_one
