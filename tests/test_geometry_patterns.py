"""Whole patterns read from their folders, with counts made by hand."""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path

import pytest
from test_geometry_congruence import check_that_patches_give_their_pieces

from booklet.geometry import lay_out
from booklet.source.reader import read_folder

PATTERNS = Path(__file__).parent / "patterns"
R2, R3 = math.sqrt(2), math.sqrt(3)

# pattern, pieces, letters with names and counts, seams, inner points, area in square units
COUNTS = [
    ("star_8", 16, {"A": ("quarter-square triangle", 4), "B": ("diamond", 8), "C": ("square", 4)}, 24, 9, (2 + R2) ** 2),
    ("star_6", 12, {"A": ("diamond", 12)}, 18, 7, 12 * R3 / 2),
    ("star_12", 24, {"A": ("diamond", 12), "B": ("diamond", 12)}, 36, 13, 12 * 0.5 + 12 * R3 / 2),
    ("hexagon_rosette_1", 7, {"A": ("hexagon", 7)}, 12, 6, 7 * 1.5 * R3),
    ("hexagon_rosette_2", 19, {"A": ("hexagon", 19)}, 42, 24, 19 * 1.5 * R3),
    ("hexagon_rosette_3", 37, {"A": ("hexagon", 37)}, 90, 54, 37 * 1.5 * R3),
    ("elongated_cross", 8, {"A": ("square", 4), "B": ("elongated hexagon", 4)}, 12, 5, 9 + 4 * (1 + 1.5 * R2)),
    ("elongated_ring", 9, {"A": ("half-square triangle", 4), "B": ("elongated hexagon", 4), "C": ("square", 1)}, 16, 8, (2 + 2 * R2) ** 2),
    ("brick", 14, {"A": ("square", 4), "B": ("rectangle", 10)}, 28, 15, 24),
    ("log_cabin", 9, {"A": ("square", 2), "B": ("rectangle", 2), "C": ("rectangle", 2), "D": ("rectangle", 2), "E": ("rectangle", 1)}, 20, 12, 25),
    ("wheel_of_five", 5, {"A": ("square", 1), "B": ("rectangle", 4)}, 8, 4, 9),
    ("herringbone", 10, {"A": ("rectangle", 10)}, 13, 4, 20),
    ("kite_wheel", 6, {"A": ("kite", 6)}, 6, 1, 1.5 * R3),
    ("square_in_frame", 3, {"A": ("square", 1), "B": ("eight-sided patch", 2)}, 8, 6, 9),
    ("triangles_300", 300, {"A": ("half-square triangle", 300)}, 425, 126, 150),
]  # fmt: skip


@cache
def tilings(name):
    outcome = read_folder(PATTERNS / name).then(lay_out)
    assert not outcome.diagnostics, outcome.diagnostics
    return outcome.value


@pytest.mark.parametrize(("name", "pieces", "patches", "seams", "inner", "area"), COUNTS)
def test_counts(name, pieces, patches, seams, inner, area):
    laid = tilings(name)
    for size in laid.pattern.sizes:
        for block in laid.of_size(size):
            unit = float(size.unit)
            assert len(block.pieces) == pieces
            assert {p.letter: (p.name, len(p.pieces)) for p in block.patches} == patches
            assert len(block.seams) == seams
            assert sum(j.inside for j in block.junctions) == inner
            assert block.area / unit**2 == pytest.approx(area, abs=1e-6)
            check_that_patches_give_their_pieces(block)


def test_a_quarter_circle_block():
    for block in tilings("quarter_circles").of_size(tilings("quarter_circles").pattern.sizes[0]):
        assert [p.name for p in block.patches] == ["quarter circle", "curved patch"]
        # quarters are a little short of pi r^2 / 4: their curve is a chain of chords; r = 2 units of 2 in
        assert block.patches[0].area == pytest.approx(math.pi * 4, rel=1e-3)
        assert sum(p.area * 4 for p in block.patches) == pytest.approx(144)
        assert len(block.seams) == 8  # four curves, four between neighbours
        check_that_patches_give_their_pieces(block)


@pytest.mark.parametrize("name", [entry[0] for entry in COUNTS])
def test_letters_agree_across_sizes(name):
    laid = tilings(name)
    first, *others = laid.pattern.sizes
    for size in others:
        for one, other in zip(laid.of_size(first), laid.of_size(size), strict=True):
            assert [p.patch for p in one.pieces] == [p.patch for p in other.pieces]
            assert [s.between for s in one.seams] == [s.between for s in other.seams]


def test_the_points_of_a_star_meet_in_one_place():
    (block, *_) = tilings("star_8").of_size(tilings("star_8").pattern.sizes[0])
    most = max(block.junctions, key=lambda j: len(j.seams))
    assert len(most.seams) == 8
    assert most.at == pytest.approx((2 + R2, 2 + R2))  # 1 + sqrt2 / 2 units of 2 in
