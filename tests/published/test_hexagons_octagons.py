"""Published figures on hexagons and octagons (topic 7), against outlines this tool makes."""

from __future__ import annotations

import itertools
import math

import pytest
from builders import pattern_of, piece, shape

from booklet.crafts.figure import figure_of
from booklet.geometry import lay_out
from booklet.geometry.placing.shapes import shape_outline
from booklet.kit.measure import Length, Rounding
from booklet.kit.outlines.plane import box_of
from booklet.kit.outlines.polygon import area_of

ONE = Length.of(1)


def outline(kind, **keys):
    return shape_outline(shape(kind, **keys), ONE)


def size(made):
    left, top, right, bottom = box_of(made.points)
    return right - left, bottom - top


def rosette(side: float, rounds: int):
    """Hexagons around one, round by round, each placed along a side of an earlier one."""
    pieces = [piece("r0", "hexagon", side=side, at=(0, 0))]
    step = side * math.sqrt(3)
    for q in range(-rounds, rounds + 1):
        for r in range(-rounds, rounds + 1):
            if (q, r) != (0, 0) and abs(q + r) <= rounds:
                at = (step * (q + r / 2), side * 1.5 * r)
                pieces.append(piece(f"h{q}_{r}".replace("-", "m"), "hexagon", side=side, at=at))
    outcome = lay_out(pattern_of(pieces=pieces))
    assert not outcome.diagnostics
    return outcome.value.tilings["s", "b"]


def test_point_to_point_is_two_sides():
    # check, tolerance 0: 2. Quiltmaker magazine blog, A Bit About the Infinite Hexagon, 2013
    assert size(outline("hexagon", side=1))[1] == 2


def test_flat_to_flat_is_173_sides():
    # check, tolerance 0.005: 1.73. Quiltmaker magazine blog, 2013
    assert size(outline("hexagon", side=1))[0] == pytest.approx(1.73, abs=0.005)


def test_angles_of_a_hexagon():
    # check, tolerance 0: 120 and 720. Scissortail Quilting, Hexagon glossary
    angles = figure_of(outline("hexagon", side=1).points).angles
    assert angles == pytest.approx([120] * 6)
    assert sum(angles) == pytest.approx(720)


def test_area_of_a_hexagon():
    # check, tolerance 0.005: 16.24. Quilting Reader's Garden, 2018
    assert area_of(outline("hexagon", side=2.5).points) == pytest.approx(16.24, abs=0.005)


def test_side_from_flat_to_flat():
    # derived, tolerance 0.0001: flat to flat 2.75 gives 1.5877. Quilting Hexagon Template Generator article
    assert size(outline("hexagon", side=1.5877))[0] == pytest.approx(2.75, abs=0.0002)


def test_a_three_inch_hexagon():
    # check, tolerance 0.06: 6 and 5.25. Dendaria blog
    width, height = size(outline("hexagon", side=3))
    assert height == 6
    assert width == pytest.approx(5.25, abs=0.06)


@pytest.mark.parametrize(
    ("side", "across_flats", "across_points", "tolerance"),
    [
        (3, 26.25, 24, 0.3),  # check. Faeries and Fibres, What size of hexagon should I use, 2015
        (
            1.25,
            10.5,
            10,
            0.34,
        ),  # check. Faeries and Fibres, 2015 (measured by the author; exact 10.83)
    ],
)
def test_rosettes_of_two_rounds(side, across_flats, across_points, tolerance):
    block = rosette(side, 2)
    # hexagons stand on a point here: the long way of the rosette lies across
    assert block.width == pytest.approx(across_flats, abs=tolerance)  # 5 sqrt3 s
    assert block.height == pytest.approx(across_points, abs=tolerance)  # (3 * 2 + 2) s


def test_each_round_adds_six_more():
    # fact: 6, 12, 18. Dendaria blog; Faeries and Fibres
    counts = [len(rosette(1, rounds).pieces) for rounds in range(4)]
    added = [b - a for a, b in itertools.pairwise(counts)]
    assert added == [6, 12, 18]
    # identity, derived: 1 + 3 r (r + 1)
    assert counts == [1 + 3 * r * (r + 1) for r in range(4)]
    assert 1 + 3 * 6 * 7 == 127


def test_rounds_of_squares_are_not_rounds_of_hexagons():
    # check: 14 rounds as printed make 365, which counts squares: k^2 + (k - 1)^2. Dendaria blog
    assert 14**2 + 13**2 == 365
    assert len(rosette(1, 4).pieces) == 61 != 4**2 + 5**2


@pytest.mark.parametrize(("side", "printed"), [(0.5, 208), (0.75, 92), (1, 52), (1.5, 23)])
def test_hexagons_in_ten_inches_square_are_fewer_than_printed(side, printed):
    # contradiction: printed figures are generous by their author's own word. Johanna Masko Quilts, 2014
    area = area_of(outline("hexagon", side=side).points)
    assert math.ceil(100 / area) < printed


def test_the_printed_width_of_a_one_inch_hexagon_is_an_erratum():
    # erratum: 1 5/8 was measured; 1.732 rounds to 1 3/4. Faeries and Fibres, 2013
    width = Length.of(size(outline("hexagon", side=1))[0])
    eighth = Length.of("1/8")
    assert (
        width.rounded(eighth.inches, Rounding.NEAREST) == Length.of("1 3/4") != Length.of("1 5/8")
    )


def test_angles_of_an_elongated_hexagon():
    # check, tolerance 0: two of 90, four of 135, 720 in all. Cinzia White, 2014
    angles = [round(a, 6) for a in figure_of(outline("elongated hexagon", side=1).points).angles]
    assert (angles.count(90), angles.count(135), sum(angles)) == (2, 4, 720)


def test_a_two_inch_elongated_hexagon():
    # derived, tolerance 0.001: 3.4142 x 1.4142. Debby Kratovil Quilts, Elongated Hexagons, 2020
    made = size(outline("elongated hexagon", side=1, middle=2))
    assert made == pytest.approx((3.4142, 1.4142), abs=0.001)


def test_identities():
    # identities, derived, tolerance 0.0001
    assert area_of(outline("hexagon", side=1).points) == pytest.approx(2.5981, abs=1e-4)
    octagon = outline("octagon", side=1)
    assert size(octagon) == pytest.approx((2.4142, 2.4142), abs=1e-4)
    # one octagon and one square of the side fill a square as wide as the octagon: 2 (1 + sqrt2) + 1
    assert area_of(octagon.points) + 1 == pytest.approx(5.8284, abs=1e-4)
    assert size(octagon)[0] ** 2 == pytest.approx(5.8284, abs=1e-4)
    hexagon = area_of(outline("hexagon", side=1).points)
    assert hexagon / area_of(outline("equilateral triangle", side=1).points) == pytest.approx(6)
    assert hexagon / area_of(outline("diamond", side=1, angle=60).points) == pytest.approx(3)
    # the strip for half hexagons of side 2: sqrt3 + 2 * 1/4 allowance
    assert size(outline("half hexagon", side=2))[1] + 0.5 == pytest.approx(2.2321, abs=1e-4)
