"""Units sewn from larger pieces and cut afterwards: figures, counts, what is found, and what is said."""

import math
from functools import cache
from pathlib import Path

import pytest
from source_helpers import faults

from booklet.compiler import check
from booklet.cutting.cutting_plan import Method, Together
from booklet.cutting.methods import four_half_squares, four_half_squares_from
from booklet.measure import Length
from booklet.plan import make_plan

FOLDER = Path(__file__).parent / "patterns" / "units_together"


@cache
def checked():
    outcome = check(FOLDER)
    assert outcome.diagnostics == ()
    return outcome.value


def units(size: str):
    return {unit.name: unit for unit in checked().cut.plans[size].together}


def cuts(unit):
    return [(cut.fabric, str(cut.cut[0]), str(cut.cut[1]), cut.count) for cut in unit.cuts]


def test_eight_half_squares_at_a_time():
    unit = units("eight")["U2"]
    assert (
        unit.how is Together.EIGHT and unit.units == 8
    )  # 8 chain blocks, one unit of ink and sand in each
    # 2 x (2 + 1/4 (2 + √2)) = 2 x 2.854 = 5.707, up to 5 3/4
    assert cuts(unit) == [("ink", "5 3/4", "5 3/4", 1), ("sand", "5 3/4", "5 3/4", 1)]
    assert unit.trimmed == (Length.of("2 1/2"), Length.of("2 1/2"))


def test_two_at_a_time_with_a_margin_to_trim():
    unit = units("two")["U1"]
    assert unit.how is Together.TWO
    # 2 + 0.854 + 0.125 = 2.979, up to 3
    assert cuts(unit) == [("clay", "3", "3", 1), ("sand", "3", "3", 1)]
    assert unit.oversize == Length.of("1/8")


def test_fewer_units_than_a_round_gives_are_made_two_at_a_time():
    assert units("four")["U1"].how is Together.TWO  # 2 blocks: 2 units, but four squares give 4


@pytest.mark.parametrize("leg", [0.75, 2, 3.5])
def test_four_at_a_time_is_the_inverse_of_what_a_square_gives(leg: float):
    square = four_half_squares(leg)
    assert math.isclose(four_half_squares_from(square)[1], leg)


def test_flying_geese_four_at_a_time():
    unit = units("eight")["U3"]
    assert (unit.units, unit.rounds) == (32, 8)  # 8 stars x 4; 32 / 4
    # Large: 4 + 1/4 (2 + 2√2) = 5.207, up to 5 1/4; small: 2 + 0.854 = 2.854, up to 2 7/8, 4 for each.
    assert cuts(unit) == [("sand", "5 1/4", "5 1/4", 8), ("ink", "2 7/8", "2 7/8", 32)]
    assert unit.trimmed == (Length.of("4 1/2"), Length.of("2 1/2"))


def test_strip_sets_cut_across():
    unit = units("eight")["U4"]
    assert unit.how is Together.STRIPS
    assert unit.units == 16  # rows 2 and 4 of 8 chain blocks
    assert unit.across == Length.of("2 1/2")  # 2 + 2 x 1/4
    assert unit.each == 15  # (40 - 1/2) / 2 1/2 = 15.8
    assert unit.rounds == 2  # 16 / 15, rounded up
    assert cuts(unit) == [
        ("clay", "40", "2 1/2", 2),
        ("sand", "40", "2 1/2", 2),
        ("ink", "40", "2 1/2", 2),
        ("sand", "40", "2 1/2", 2),
    ]
    short = units("eight")["U5"]  # 8 of row 3: one set of 1/2 + 8 x 2 1/2 = 20 1/2 in
    assert str(short.cuts[0].cut[0]) == "20 1/2" and short.rounds == 1


def test_no_piece_is_cut_twice_and_none_is_forgotten():
    for size, plan in checked().cut.plans.items():
        quilt = checked().cut.set.quilts[size]
        laid_out = checked().cut.set.pressed.assembled.laid_out
        in_units = [
            (block, id) for unit in plan.together for block, ids in unit.members for id in ids
        ]
        assert len(in_units) == len(set(in_units))
        whole = sum(
            len(tiling.pieces) * quilt.blocks[tiling.block]
            for tiling in laid_out.of_size(laid_out.pattern.size(size))
        )
        together = sum(quilt.blocks[block] for block, _ in in_units)
        singly = sum(p.pieces for p in plan.patches if p.outline is not None)
        assert singly + together == whole


def test_singly_is_cut_from_triangles_as_ever():
    plan = checked().cut.plans["singly"]
    assert {unit.how for unit in plan.together} == {Together.GEESE, Together.STRIPS}
    halves = [p for p in plan.patches if p.method is Method.HALF_SQUARE]
    assert {str(p.cut[0]) for p in halves} == {"2 7/8"}  # 2 + 7/8


def test_what_is_not_made_so_is_offered_in_the_facts():
    plans = checked().cut.plans
    assert plans["eight"].offers == ()
    # singly: two half-square units of each kind, which could be made two at a time
    assert [(unit.how, unit.units) for unit in plans["singly"].offers] == [
        (Together.TWO, 2),
        (Together.TWO, 2),
    ]


def test_a_step_that_makes_such_a_unit_says_so():
    plan = make_plan(checked(), ["eight"])
    star = next(b for b in plan.sizes[0].blocks if b.block.id == "star")
    marked = [(len(card.step.pieces), card.together, card.together_whole) for card in star.cards]
    assert (2, "U3", False) in marked and (3, "U3", True) in marked


def test_triangles_cut_singly_with_a_margin_are_trimmed_when_sewn(tmp_path: Path):
    text = (FOLDER.parent / "nine_patch" / "pattern.yaml").read_text("utf-8")
    (tmp_path / "pattern.yaml").write_text(
        text.replace("units: inch", "cutting: {trim: 1/8 in}"), "utf-8"
    )
    outcome = check(tmp_path)
    plan = make_plan(outcome.value)
    patch = next(p for p in plan.sizes[0].cutting.patches if p.method is Method.HALF_SQUARE)
    # the middle cell has legs of 2 x 3/4 in: 1.5 + 0.854 + 0.125 = 2.479, up to 2 1/2
    assert str(patch.cut[0]) == "2 1/2" and "1/8 of it to trim" in str(patch.sum)
    assert any(card.trim for card in plan.sizes[0].blocks[0].cards)


def test_the_keys_are_checked():
    text = (FOLDER / "pattern.yaml").read_text("utf-8")
    assert (
        faults(text.replace("half squares: eight at a time", "half squares: ten at a time"))[0][0]
        == "wrong-kind"
    )
    assert faults(text.replace("trim: 1/8 in", "trim: 30 in"))[0][0] == "bad-length"
    assert faults(text.replace("strip sets:", "strip set:"))[0][0] == "unknown-key"
