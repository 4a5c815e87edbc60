"""Path data: letters, curves, and that a curve gives the same points from either side."""

from __future__ import annotations

import contextlib
import math

import pytest
from hypothesis import assume, given, strategies as st

from booklet.geometry.placing.paths import FLATNESS, path_outline
from booklet.kit.outlines.path_data import PathError, commands
from booklet.kit.outlines.polygon import area_of


def read_path(data, unit):
    """The outline of path data."""
    return path_outline(commands(data), unit)


def corners(data, unit=1.0):
    return read_path(data, unit).corners


def test_every_straight_letter_in_both_cases():
    square = ((0, 0), (2, 0), (2, 2), (0, 2))
    assert corners("M0 0 L2 0 L2 2 L0 2 Z") == square
    assert corners("M0,0 H2 V2 H0 Z") == square
    assert corners("m0 0 l2 0 l0 2 l-2 0 z") == square
    assert corners("m0 0h2v2h-2z") == square
    assert corners("M0 0 2 0 2 2 0 2") == square  # numbers go on as L; left open, it is closed
    assert corners("M0 0 L2 0 L2 2 L0 2 L0 0 Z") == square  # back at the start: no fifth side
    assert corners("M1e0 0.5 L+2.5.5 L2-1z", 2.0) == ((2, 1), (5, 1), (4, -2))  # 2 in a unit


def test_arc_flags_may_be_written_together():
    one = read_path("M0 0H2A2 2 0 0 1 0 2Z", 1)
    assert read_path("M0 0H2A2 2 0 010 2Z", 1) == one


def test_a_quarter_circle_lies_on_its_circle():
    side = read_path("M0 0 H2 A2 2 0 0 1 0 2 Z", 1).sides[1]
    assert len(side.points) % 2 == 1
    for point in side.points:
        assert math.hypot(*point) == pytest.approx(2, abs=1e-12)
    middles = [
        ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        for a, b in zip(side.points, side.points[1:], strict=False)
    ]
    assert all(2 - math.hypot(*m) <= FLATNESS for m in middles)
    quarter = area_of(read_path("M0 0 H2 A2 2 0 0 1 0 2 Z", 1).points)
    assert quarter == pytest.approx(math.pi, rel=2e-3)  # r^2 pi / 4 with r = 2


def test_large_and_small_arcs_and_radii_too_small_to_reach():
    small = area_of(read_path("M1 0 A1 1 0 0 1 0 1 Z", 1).points)
    large = area_of(read_path("M1 0 A1 1 0 1 0 0 1 Z", 1).points)
    assert small == pytest.approx(math.pi / 4 - 0.5, abs=0.01)
    assert abs(large) == pytest.approx(math.pi * 3 / 4 + 0.5, abs=0.02)
    half = read_path("M0 0 A0.1 0.1 0 0 1 2 0 Z", 1)  # made into a half circle of radius 1
    assert area_of(half.points) == pytest.approx(math.pi / 2, rel=0.01)


coordinate = st.floats(-5, 5).map(lambda v: round(v, 3))
point = st.tuples(coordinate, coordinate)


@given(st.lists(point, min_size=3, max_size=4), st.sampled_from([0.25, 0.75, 1.0, 3.0]))
def test_a_curve_run_backwards_has_the_same_points(controls, unit):
    assume(math.dist(controls[0], controls[-1]) > 0.01)
    letter = "Q" if len(controls) == 3 else "C"
    there = _curve(letter, controls, unit)
    back = _curve(letter, controls[::-1], unit)
    assume(there is not None and back is not None)
    assert len(there) == len(back)
    for a, b in zip(there, back[::-1], strict=True):
        assert math.dist(a, b) < 1e-9


def _curve(letter, controls, unit):
    text = [f"{x} {y}" for x, y in controls]
    try:
        return read_path(f"M{text[0]} {letter}{' '.join(text[1:])} L9 9 Z", unit).sides[0].points
    except PathError:
        return None


@given(st.floats(5, 175), st.floats(0, 360), st.sampled_from([0.5, 1.0, 2.5]))
def test_an_arc_run_backwards_has_the_same_points(angle, start, radius):
    a = math.radians(start)
    b = a + math.radians(angle)
    p = (radius * math.cos(a), radius * math.sin(a))
    q = (radius * math.cos(b), radius * math.sin(b))
    there = read_path(f"M{p[0]} {p[1]} A{radius} {radius} 0 0 1 {q[0]} {q[1]} L0 0 Z", 1).sides[0]
    back = read_path(f"M{q[0]} {q[1]} A{radius} {radius} 0 0 0 {p[0]} {p[1]} L9 9 Z", 1).sides[0]
    assert len(there.points) == len(back.points)
    for one, other in zip(there.points, back.points[::-1], strict=True):
        assert math.dist(one, other) < 1e-9


def test_arcs_of_one_circle_share_their_points_at_multiples_of_15_degrees():
    half = read_path("M2 0 A2 2 0 0 1 -2 0 Z", 1).sides[0].points
    quarter = read_path("M2 0 A2 2 0 0 1 0 2 L0 0 Z", 1).sides[0].points
    for point in quarter:
        assert min(math.dist(point, other) for other in half) < 1e-9


@pytest.mark.parametrize(
    ("data", "says"),
    [
        ("L0 0", "begins with `M`"),
        ("", "empty"),
        ("M0 0 L1", "too few numbers after `L`"),
        ("M0 0 L L1 1", "too few numbers after `L`"),
        ("M0 0 S1 1 2 2", "the letter `S`"),
        ("M0 0 L1 0 L1 1 Z L3 3", "goes on after"),
        ("M0 0 L1 0 L1 1 M4 4 L5 5", "two parts"),
        ("M0 0 L1 0 # L1 1", "# L1 1"),
        ("M0 0 L1e9 0 L1 1", "larger than any quilt"),
        ("M0 0", "encloses nothing"),
        ("M0 0 L1 0 L1 1 Z 3", "a number without a letter"),
    ],
)
def test_what_makes_no_outline_is_refused(data, says):
    with pytest.raises(PathError, match=says):
        read_path(data, 1)


@given(st.text(alphabet="MLHVAQCZmlhvaqcz0123456789 .,-+e", max_size=40))
def test_no_text_makes_it_stumble(data):
    with contextlib.suppress(PathError):
        read_path(data, 1)
