"""A curve of one piece beside several curves of its neighbours: a fan, and any curve cut anywhere on both sides."""

import math
from itertools import pairwise
from pathlib import Path

import pytest
from builders import pattern_of, piece
from hypothesis import given, settings, strategies as st

from booklet.geometry import lay_out
from booklet.recipe import compiler

PATTERNS = Path(__file__).parent / "patterns"
shares = st.lists(st.integers(1, 19), max_size=3, unique=True).map(
    lambda twentieths: [n / 20 for n in sorted(twentieths)]
)


def test_a_fan_has_the_seams_that_a_teacher_counts():
    """Five blades: 4 seams between them, 5 on the foot of a twentieth of a circle each, 5 on the ground likewise."""
    made = compiler.check(PATTERNS / "fan_of_five").value
    tiling = compiler.plan(made).sizes[0].blocks[0].tiling
    about = {name: [s for s in tiling.seams if name in s.between] for name in ("foot", "ground")}
    assert [s.length for s in about["foot"]] == pytest.approx([2 * math.pi * 3 / 20] * 5, abs=1e-3)
    assert [s.length for s in about["ground"]] == pytest.approx(
        [2 * math.pi * 10 / 20] * 5, abs=1e-3
    )
    assert [
        s.length for s in tiling.seams if not {"foot", "ground"} & set(s.between)
    ] == pytest.approx([7.0] * 4)
    assert sorted(patch.letter for patch in tiling.patches) == ["A", "B", "C"]


def split(controls, share):
    """The two parts of a curve at a share of its parameter (de Casteljau)."""
    left, right, points = [], [], controls
    while points:
        left.append(points[0])
        right.append(points[-1])
        points = [
            (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)
            for a, b in pairwise(points)
        ]
    return left, right[::-1]


def parts_of(controls, cuts):
    """A curve cut at shares of its parameter."""
    parts, rest, gone = [], controls, 0.0
    for cut in cuts:
        part, rest = split(rest, (cut - gone) / (1 - gone))
        parts.append(part)
        gone = cut
    return [*parts, rest]


def columns(controls, cuts, far, lift=0.0):
    """The pieces between a curve that runs from left to right and the level `far`, cut straight at shares of it."""
    for n, (start, one, other, end) in enumerate(parts_of(controls, cuts)):
        curve = f"M {start[0]} {start[1] + lift} C {one[0]} {one[1]} {other[0]} {other[1]} {end[0]} {end[1] + lift}"
        yield piece(
            f"p{int(far)}_{n}", "path", outline=f"{curve} L {end[0]} {far} L {start[0]} {far} Z"
        )


@given(above=shares, below=shares, bend=st.integers(1, 5), back=st.integers(1, 5))
def test_a_curve_is_shared_wherever_both_sides_are_cut(above, below, bend, back):
    curve = [(0.0, 3.0), (2.0, float(bend)), (4.0, float(back)), (6.0, 3.0)]
    pieces = [*columns(curve, above, 0), *columns(curve, below, 6)]
    laid = lay_out(pattern_of(pieces=pieces, size=(6, 6)))
    assert not laid.diagnostics
    (tiling,) = laid.value.tilings.values()
    along = [s for s in tiling.seams if len({name[:2] for name in s.between}) == 2]
    assert len(along) == len({*above, *below}) + 1
    points = [split(curve, n / 1000)[1][0] for n in range(1001)]
    whole = sum(math.dist(a, b) for a, b in pairwise(points))
    # chords of a curve that strays by 0.002 in at most lose far less than 0.01 in of its length
    assert sum(s.length for s in along) == pytest.approx(whole, abs=0.01)


@settings(max_examples=6)
@given(above=shares, lift=st.sampled_from([-0.02, 0.02]))
def test_curves_that_are_apart_are_still_named(above, lift):
    curve = [(0.0, 3.0), (2.0, 1.0), (4.0, 2.0), (6.0, 3.0)]
    pieces = [*columns(curve, above, 0), *columns(curve, [0.5], 6, lift)]
    assert lay_out(pattern_of(pieces=pieces, size=(6, 6))).diagnostics
