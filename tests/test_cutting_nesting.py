"""Rows of pieces: like pieces touch and do not overlap."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given, strategies as st
from shapely import Polygon

from booklet.crafts.figure import figure_of
from booklet.crafts.forms import recognised
from booklet.crafts.rotary.nesting import pitch, row_of
from booklet.cutting.strips.items import variant_of
from booklet.kit.outlines.polygon import half_turned, laid

ROOT_3 = math.sqrt(3)
SHAPES = {
    "half square": ((0, 0), (3, 3), (0, 3)),
    "equilateral": ((1.5, 0), (3, 1.5 * ROOT_3), (0, 1.5 * ROOT_3)),
    "trapezoid": ((1, 0), (3, 0), (4, 1), (0, 1)),
    "diamond": ((1, 0), (3, 0), (2, ROOT_3), (0, ROOT_3)),
    "house": ((0, 1), (1, 0), (2, 1), (2, 3), (0, 3)),
}


@pytest.mark.parametrize("name", SHAPES)
def test_a_row_touches_and_does_not_overlap(name):
    row = row_of(SHAPES[name], True)
    pieces = [Polygon(row.outline(k)) for k in range(6)]
    for one, other in itertools.pairwise(pieces):
        assert one.intersection(other).area < 1e-9
        assert one.distance(other) < 1e-9
    for i, one in enumerate(pieces):
        for other in pieces[i + 2 :]:
            assert one.intersection(other).area < 1e-9
    assert max(p.bounds[2] for p in pieces) == pytest.approx(row.length(6))


@pytest.mark.parametrize(
    ("name", "used"),
    [("half square", 1.0), ("equilateral", 0.952), ("trapezoid", 0.984), ("diamond", 0.976)],
)
def test_20_pieces_use_the_strip(name, used):
    # twenty pieces: area of the pieces / (length of the row * height of the strip)
    row = row_of(SHAPES[name], True)
    area = 20 * Polygon(row.shapes[0]).area
    assert area / (row.length(20) * row.height) == pytest.approx(used, abs=0.001)


def test_a_print_with_an_up_is_not_turned():
    row = row_of(SHAPES["trapezoid"], False)
    assert len(row.shapes) == 1
    assert row.pitches == (4.0,)


EIGHTHS = st.integers(0, 40).map(lambda n: n / 8)


@given(st.lists(st.tuples(EIGHTHS, EIGHTHS), min_size=3, max_size=8))
def test_pitch_of_convex_shapes(points):
    hull = Polygon(points).convex_hull if len(set(points)) > 2 else None
    if hull is None or hull.geom_type != "Polygon" or hull.area < 0.1:
        return
    shape = laid(list(hull.exterior.coords)[:-1], 90)
    if max(y for _, y in shape) < 0.05:
        return
    other = half_turned(shape)
    far = pitch(shape, other)
    moved = Polygon([(x + far, y) for x, y in other])
    # shrunk by a hair, since the overlay of two outlines along one slanted line may go astray
    assert not Polygon(shape).buffer(-1e-6).intersects(moved)
    assert Polygon(shape).distance(moved) < 1e-6


def test_a_variant_counts_whole_steps_and_ends_where_the_strip_is_full():
    variant = variant_of(row_of(SHAPES["equilateral"], True), 0.125, 80, 99)  # 10 in
    assert variant.height == 21  # 2.598 in = 20.8 eighths
    # 3 in for the first, 1.5 in more for every next: 3, 4.5, 6, 7.5, 9
    assert variant.lengths == (24, 36, 48, 60, 72)
    assert variant_of(row_of(SHAPES["equilateral"], True), 0.125, 23, 99) is None


@pytest.mark.parametrize("turn", [0, 17, 45, 90, 200])
@pytest.mark.parametrize(
    ("name", "form"),
    [
        ("half square", "half-square triangle"),
        ("equilateral", "equilateral triangle"),
        ("trapezoid", "trapezoid"),
        ("diamond", "diamond"),
        ("house", "polygon"),
    ],
)
def test_forms_are_recognised_however_they_are_turned(name, form, turn):
    found, _ = recognised(figure_of(laid(SHAPES[name], turn)), None)
    assert found.word == form
