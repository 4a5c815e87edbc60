"""Cut outlines: exact allowances, trimmed points."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, strategies as st

from booklet.cutting.patches.cut_outlines import cut_outline, grown
from booklet.geometry.overlay import is_simple
from booklet.geometry.placing.paths import path_outline
from booklet.geometry.tiling import Outline, Side
from booklet.kit.measure import Length
from booklet.kit.outlines.path_data import commands
from booklet.kit.outlines.plane import box_of, extent, off_line
from booklet.kit.outlines.polygon import area_of

QUARTER = Length.of("1/4")


def outline(*corners) -> Outline:
    return Outline(
        tuple(Side(a, b) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True))
    )


def test_a_square_grows_by_the_allowance_on_every_side():
    cut = cut_outline(outline((0, 0), (3, 0), (3, 3), (0, 3)), QUARTER)
    assert cut.cut == ((-0.25, -0.25), (3.25, -0.25), (3.25, 3.25), (-0.25, 3.25))
    assert area_of(cut.cut) == 3.5**2  # 3 + 2 * 1/4


def test_sharp_points_are_trimmed_one_allowance_beyond_the_matching_point():
    # a half-square triangle has two points of 45 degrees and a right angle, which stays
    cut = cut_outline(outline((0, 0), (3, 3), (0, 3)), QUARTER)
    assert len(cut.cut) == 5
    bisector = (math.sin(math.radians(22.5)), math.cos(math.radians(22.5)))
    for x, y in cut.cut[:2]:  # the two ends of the trimmed upper point
        assert -(x * bisector[0] + y * bisector[1]) == pytest.approx(0.25)
    assert cut.points == ((0, 0), (3, 3), (0, 3))


def test_points_of_60_degrees_stay():
    height = 3 * math.sqrt(3) / 2
    cut = cut_outline(outline((1.5, 0), (3, height), (0, height)), QUARTER)
    assert len(cut.cut) == 3
    assert max(y for _, y in cut.cut) - min(y for _, y in cut.cut) == pytest.approx(height + 0.75)


def test_a_curved_side_moves_by_the_allowance():
    arc = tuple((2 * math.sin(a), -2 * math.cos(a)) for a in (k * math.pi / 128 for k in range(65)))
    quarter = Outline(
        (Side(arc[0], arc[-1], arc[1:-1]), Side(arc[-1], (0, 0)), Side((0, 0), arc[0]))
    )
    cut = cut_outline(quarter, QUARTER)
    on_curve = [p for p in cut.cut if p[0] > 0.2 and p[1] < -0.2]
    assert all(math.hypot(*p) == pytest.approx(2.25, abs=2e-3) for p in on_curve)


@given(st.floats(20, 160), st.floats(20, 160), st.floats(0.5, 8), st.sampled_from([0.25, 0.3, 0.5]))
def test_every_cut_edge_is_one_allowance_from_its_seam_line(left, right, base, allowance):
    if left + right > 165:
        return
    a, b = math.radians(left), math.radians(right)
    height = base / (1 / math.tan(a) + 1 / math.tan(b))
    if not 0.2 < height < 50:
        return
    corners = ((height / math.tan(a), 0.0), (base, height), (0.0, height))
    cut = cut_outline(outline(*corners), Length.of(allowance))
    sides = list(zip(corners, (*corners[1:], corners[0]), strict=True))
    for p, q in sides:
        near = [c for c in cut.cut if off_line(c, p, q) == pytest.approx(allowance, abs=1e-6)]
        assert len(near) >= 2
    assert all(min(off_line(c, p, q) for p, q in sides) <= allowance + 1e-6 for c in cut.cut)


def test_a_curve_that_ends_along_a_side_gets_a_blunt_point():
    # the corner of an orange peel: a quarter circle of 8 in about (8, 8) that touches the top and the left side
    arc = [
        (8 - 8 * math.sin(t), 8 - 8 * math.cos(t)) for t in (k * math.pi / 90 for k in range(46))
    ]
    points = ((0.0, 0.0), *arc)
    cut = grown(points, 0.25)
    assert len(cut) == len(points) + 2  # both tips are cut off
    left, top, right, bottom = box_of(cut)
    # 8 in, an allowance on either side: beyond the tips, too, where the full point would lie yards away
    assert (left, top) == pytest.approx((-0.25, -0.25))
    assert (right, bottom) == pytest.approx((8.25, 8.25), abs=0.01)
    assert is_simple(cut)


@pytest.mark.parametrize("radius", [1, 3, 4, 7])
def test_a_quarter_circle_takes_its_radius_and_two_allowances(radius):
    path = commands(f"M 0 0 H {radius} A {radius} {radius} 0 0 1 0 {radius} Z")
    cut = cut_outline(path_outline(path, 1.0), QUARTER)
    assert extent(cut.cut) == pytest.approx((radius + 0.5, radius + 0.5), abs=1e-6)


def test_a_circle_takes_its_width_and_two_allowances():
    cut = cut_outline(
        path_outline(commands("M 3 0 A 3 3 0 0 1 -3 0 A 3 3 0 0 1 3 0 Z"), 0.5), QUARTER
    )
    assert extent(cut.cut) == pytest.approx((3.5, 3.5), abs=1e-6)  # 6 x 0.5 + 2 x 1/4
    assert all(math.hypot(*p) == pytest.approx(1.75, abs=1e-6) for p in cut.cut)


def test_a_hollow_beside_a_quarter_circle_keeps_its_allowance():
    # the rest of a square of 3 in beside a quarter circle of 2 in: its inner cut runs at 1 3/4 in
    cut = cut_outline(
        path_outline(commands("M 2 0 H 3 V 3 H 0 V 2 A 2 2 0 0 0 2 0 Z"), 1.0), QUARTER
    )
    assert extent(cut.cut) == pytest.approx((3.5, 3.5), abs=1e-6)
    inner = [p for p in cut.cut if 0.3 < p[0] < 2 and 0.3 < p[1] < 2]
    assert inner and all(math.hypot(*p) == pytest.approx(1.75, abs=1e-6) for p in inner)
