"""Pieces in their places: at, turn, flip, ring, beside."""

from __future__ import annotations

import math

import pytest
from builders import pattern_of, piece, shape

from booklet.geometry import lay_out
from booklet.geometry.placing.placing import place_pieces
from booklet.kit.measure import Length
from booklet.kit.outlines.polygon import area_of
from booklet.pattern import Anchor, AnchorKind

R2, R3 = math.sqrt(2), math.sqrt(3)


def placed(*pieces, unit="1 in"):
    pattern = pattern_of(pieces=pieces, unit=unit)
    laid, faults = place_pieces(pattern.blocks[0], Length.of(unit), "inch")
    assert not faults, faults
    return {one.id: one for one in laid}


def near(points):
    return [pytest.approx(point, abs=1e-9) for point in points]


def test_at_places_the_origin_in_units():
    corners = placed(piece("a", "square", side=2, at=(3, "1 in")), unit="1/2 in")[
        "a"
    ].outline.corners
    # 2 u = 1 in; origin at 3 u = 1 1/2 in across, 1 in down
    assert list(corners) == near([(1, 0.5), (2, 0.5), (2, 1.5), (1, 1.5)])


def test_turn_is_clockwise_on_the_page():
    corners = placed(piece("a", "quarter-square triangle", base=2, at=(0, 0), turn=90))[
        "a"
    ].outline.corners
    assert corners[0] == (0.5, 0)  # the top now points right


def test_flip_mirrors_before_turning_and_counts_sides_clockwise():
    made = placed(
        piece("a", "parallelogram", base=2, height=1, shift=1, at=(0, 0), flip=True),
        piece("b", "parallelogram", base=2, height=1, shift=1, at=(0, 0), flip=True, turn=90),
    )
    # top left (-0.5, -0.5) goes to (0.5, -0.5); then clockwise down the right side
    assert list(made["a"].outline.corners) == near(
        [(0.5, -0.5), (1.5, 0.5), (-0.5, 0.5), (-1.5, -0.5)]
    )
    assert area_of(made["a"].outline.points) == pytest.approx(2)  # clockwise again
    assert made["b"].outline.corners[0] == pytest.approx((0.5, 0.5))


def test_a_ring_is_numbered_clockwise_and_meets_exactly():
    made = placed(
        piece(
            "d",
            "diamond",
            side=1,
            angle=45,
            anchor=Anchor(AnchorKind("corner"), 3),
            at=(2, 2),
            ring=((2, 2), 8),
        )
    )
    assert list(made) == [f"d{n}" for n in range(1, 9)]
    assert made["d1"].outline.corners[0] == pytest.approx((2, 2 - 2 * math.cos(math.pi / 8)))
    assert made["d3"].outline.corners[0] == pytest.approx((2 + 2 * math.cos(math.pi / 8), 2))
    assert [one.turn for one in made.values()] == [45 * n for n in range(8)]


def test_fabrics_of_a_ring_go_round():
    made = placed(
        piece("s", "square", side=1, at=(0, -1), ring=((0, 0), 4), fabric=["ink", "sand"])
    )
    assert [one.fabric for one in made.values()] == ["ink", "sand", "ink", "sand"]


def test_beside_lays_side_along_side_on_the_other_side():
    made = placed(
        piece("a", "square", side=1, at=(0, 0)),
        piece("t", "equilateral triangle", side=1, beside=("a", 1, 2)),
        piece("k", "square", side=1, beside=("t", 1, 3)),
    )
    # the top of the square runs from (-0.5, -0.5) to (0.5, -0.5); the triangle stands on it
    assert made["t"].outline.corners[0] == pytest.approx((0, -0.5 - R3 / 2))
    ends = {tuple(round(v, 9) for v in p) for p in made["k"].outline.corners}
    assert {(0, round(-0.5 - R3 / 2, 9)), (0.5, -0.5)} <= ends


def test_beside_a_member_of_a_ring_and_a_ring_of_pieces_beside():
    made = placed(
        piece("c", "hexagon", side=1, at=(0, 0)),
        piece("h", "hexagon", side=1, beside=("c", 1, 4), ring=((0, 0), 6)),
        piece("o", "hexagon", side=1, beside=("h2", 1, 4)),
    )
    assert len(made) == 8
    # the ring turned h2 by 60 degrees, so its side 1 looks right: two steps of sqrt3 from the centre
    xs, ys = zip(*made["o"].outline.corners, strict=True)
    assert (sum(xs) / 6, sum(ys) / 6) == pytest.approx((2 * R3, 0), abs=1e-9)


def test_beside_a_flipped_piece():
    outcome = lay_out(
        pattern_of(
            pieces=[
                piece("a", "half-square triangle", side=2, at=(1, 1), flip=True),
                piece("b", "half-square triangle", side=2, flip=True, beside=("a", 3, 3)),
            ]
        )
    )
    assert not outcome.diagnostics
    (patch,) = outcome.value.tilings["s", "b"].patches
    assert patch.pieces == ("a", "b")
    assert not patch.reversed_too  # turning alone does it


def test_beside_a_curve():
    quarter = shape("path", outline="M0 0 H2 A2 2 0 0 1 0 2 Z")
    around = shape("path", outline="M2 0 H3 V3 H0 V2 A2 2 0 0 0 2 0 Z")
    outcome = lay_out(
        pattern_of(pieces=[piece("q", quarter), piece("r", around, beside=("q", 2, 5))])
    )
    assert not outcome.diagnostics
    assert outcome.value.tilings["s", "b"].area == pytest.approx(9)


def faults(*pieces, units="inch"):
    return lay_out(pattern_of(pieces=pieces, units=units)).diagnostics


def test_sides_of_different_length_are_told_with_both():
    square = piece("n1", "square", side=1, at=(0, 0))
    (fault,) = faults(square, piece("k", "rectangle", width=1.5, height=2, beside=("n1", 2, 1)))
    assert fault.code == "side-mismatch"
    assert fault.message == "side 2 of `n1` is 1 in long but side 1 of `k` is 1 1/2 in"
    (fault,) = faults(square, piece("k", "rectangle", width=1.5, height=1, beside=("n1", 2, 1)))
    assert fault.hint == "try `own: 2`, which has the right length"
    (fault,) = faults(square, piece("k", "square", side=2, beside=("n1", 2, 1)), units="cm")
    assert "is 2.54 cm long" in fault.message


def test_a_side_that_is_not_there_and_pieces_that_are_not_there():
    square = piece("a", "square", side=1, at=(0, 0))
    assert [f.code for f in faults(square, piece("b", "square", side=1, beside=("a", 5, 1)))] == [
        "bad-number"
    ]
    assert [f.code for f in faults(square, piece("b", "square", side=1, beside=("z", 1, 1)))] == [
        "unknown-name"
    ]


def test_what_lies_beside_a_faulty_piece_is_not_told_again():
    bad = piece("a", corners=[(0, 0), (1, 1), (2, 2)])
    found = faults(bad, piece("b", "square", side=1, beside=("a", 1, 1)))
    assert [f.code for f in found] == ["impossible-shape"]
