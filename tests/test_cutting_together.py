"""Units sewn from larger pieces and cut afterwards: figures, counts, what is found, and what is said."""

import math
from functools import cache
from pathlib import Path

import pytest
from builders import METHODS
from source_helpers import faults

from booklet.crafts.rotary.rotary_sums import four_half_squares
from booklet.crafts.units import flying_geese, half_squares, square_in_square, strip_sets
from booklet.kit.measure import Length
from booklet.plan import make_plan
from booklet.recipe.compiler import check

FOLDER = Path(__file__).parent / "patterns" / "units_together"


@cache
def checked():
    outcome = check(FOLDER)
    assert outcome.diagnostics == ()
    return outcome.value


def units(size: str):
    return {unit.name: unit for unit in checked().cuts[size].together}


def cuts(unit):
    return [(cut.fabric, str(cut.cut[0]), str(cut.cut[1]), cut.count) for cut in unit.cuts]


def test_eight_half_squares_at_a_time():
    unit = units("eight")["U2"]
    assert (
        unit.how == half_squares.EIGHT and unit.units == 8
    )  # 8 chain blocks, one unit of ink and sand in each
    # 2 x (2 + 1/4 (2 + √2)) = 2 x 2.854 = 5.707, up to 5 3/4
    assert cuts(unit) == [("ink", "5 3/4", "5 3/4", 1), ("sand", "5 3/4", "5 3/4", 1)]
    assert unit.trimmed == (Length.of("2 1/2"), Length.of("2 1/2"))


def test_two_at_a_time_with_a_margin_to_trim():
    unit = units("two")["U1"]
    assert unit.how == half_squares.TWO
    # 2 + 0.854 + 0.125 = 2.979, up to 3
    assert cuts(unit) == [("clay", "3", "3", 1), ("sand", "3", "3", 1)]
    assert unit.oversize == Length.of("1/8")


def test_fewer_units_than_a_round_gives_are_made_two_at_a_time():
    unit = units("four")["U1"]
    assert unit.how == half_squares.TWO  # 2 blocks: 2 units, but four squares give 4
    assert "2 units needed, fewer than the 4 asked for at a time" in str(unit.sum)


@pytest.mark.parametrize("leg", [0.75, 2, 3.5])
def test_four_at_a_time_is_the_inverse_of_what_a_square_gives(leg: float):
    # the seam line of each quarter is the square less two seams; it is the diagonal of the unfinished unit
    square = four_half_squares(leg)
    assert math.isclose((square - 0.5) / math.sqrt(2) - 0.5, leg)


def test_flying_geese_four_at_a_time():
    unit = units("eight")["U3"]
    assert (unit.units, unit.rounds) == (32, 8)  # 8 stars x 4; 32 / 4
    # Large: 4 + 1/4 (2 + 2√2) = 5.207, up to 5 1/4; small: 2 + 0.854 = 2.854, up to 2 7/8, 4 for each.
    assert cuts(unit) == [("sand", "5 1/4", "5 1/4", 8), ("ink", "2 7/8", "2 7/8", 32)]
    assert unit.trimmed == (Length.of("4 1/2"), Length.of("2 1/2"))


SQUARES = FOLDER.parent / "square_in_square"


@pytest.mark.parametrize(
    ("size", "corner"),
    [
        ("lap", "2 7/8"),  # leg 4 / 2 = 2, + 1/4 (2 + √2) = 2.854
        ("trimmed", "3"),  # + 1/8 to trim = 2.979
    ],
)
def test_a_square_in_a_square(size: str, corner: str):
    outcome = check(SQUARES)
    # of size `singly` the centre, 3.33 in, is cut by template; made together it is trimmed with its unit
    assert [d.code for d in outcome.diagnostics] == ["off-the-ruler"]
    (unit,) = outcome.value.cuts[size].together
    assert (unit.how, unit.units, unit.rounds) == (
        square_in_square.WAY,
        20,
        20,
    )  # 4 x 5 blocks, one each
    # Centre: 4 / √2 = 2.828, + 1/2 = 3.328, up to 3 3/8; corners: 2 squares a unit, cut once.
    assert cuts(unit) == [("clay", "3 3/8", "3 3/8", 20), ("sand", corner, corner, 40)]
    assert unit.trimmed == (Length.of("4 1/2"), Length.of("4 1/2"))


def test_a_square_in_a_square_that_is_not_asked_for_is_offered():
    plan = check(SQUARES).value.cuts["singly"]
    assert plan.together == ()
    assert square_in_square.WAY in {unit.how for unit in plan.offers}


SCENE = """title: Quay
units: inch
sizes: {lap: {title: Lap, unit: 3 in, blocks: 2 x 2}}
fabrics:
  ink: {name: Ink, colour: "#243b6b"}
  sand: {name: Sand, colour: "#e9dcc3"}
  reed: {name: Reed, colour: "#7d9a5a", direction: one-way}
cutting: {WISH}
blocks:
  sail: {grid: GRID}
quilt: {arrange: [[sail]]}
"""


def unheard(
    tmp_path: Path, wish: str, grid: str, sewing: str = "", fabric: str = "", blocks: str = "2 x 2"
) -> list[str]:
    text = SCENE.replace("{WISH}", "{" + wish + "}").replace("GRID", grid) + sewing
    text = text.replace("2 x 2", blocks)
    if fabric:
        text = text.replace("Sand,", f"Sand, {fabric},")
    (tmp_path / "pattern.yaml").write_text(text, "utf-8")
    found = check(tmp_path).diagnostics
    return [f.message for f in found if f.code == "no-unit-to-make"]


@pytest.mark.parametrize(
    ("grid", "sewing", "fabric", "reason"),
    [
        ("[[ink, sand]]", "", "", "no step joins two half-square triangles"),
        ("[[ink/reed]]", "", "", "`reed` is a one-way print"),
        (
            "[[ink/sand]]",
            "",
            "kind: strips 2 1/2 in",
            "a piece of 3 7/8 in x 3 7/8 in does not lie on `sand`, which is sold ready cut (`strips 2 1/2 in`)",
        ),
        ("[[ink/sand]]", "sewing: {machine from: 20 in}", "", "it is sewn by hand"),
    ],
)
def test_a_wish_that_finds_no_unit_says_why(tmp_path, grid, sewing, fabric, reason):
    (message,) = unheard(tmp_path, "half squares: two at a time", grid, sewing, fabric)
    assert reason in message


def test_too_few_rows_for_a_strip_set_are_told(tmp_path: Path):
    assert unheard(tmp_path, "strip sets: yes", "[[ink, sand]]") == []  # 2 x 2 rows: enough
    (message,) = unheard(tmp_path, "strip sets: yes", "[[ink, sand]]", blocks="1 x 3")
    assert "at most `3` are alike" in message


def test_a_wish_that_one_size_follows_is_heard():
    # `eight at a time` is written once; the size of four blocks makes its units two at a time.
    assert checked().cuts["eight"].together  # and `checked` found no warning


def test_strip_sets_cut_across():
    unit = units("eight")["U4"]
    assert unit.how == strip_sets.WAY
    assert unit.units == 16  # rows 2 and 4 of 8 chain blocks
    assert unit.across == Length.of("2 1/2")  # 2 + 2 x 1/4
    assert unit.rounds == 2  # the cloth is long enough for (40 - 1/2) / 2 1/2 = 15.8
    assert unit.each == 8  # 16 / 2: no set is longer than is wanted, 1/2 + 8 x 2 1/2 = 20 1/2
    assert cuts(unit) == [
        ("clay", "20 1/2", "2 1/2", 2),
        ("sand", "20 1/2", "2 1/2", 2),
        ("ink", "20 1/2", "2 1/2", 2),
        ("sand", "20 1/2", "2 1/2", 2),
    ]
    short = units("eight")["U5"]  # 8 of row 3: one set of 1/2 + 8 x 2 1/2 = 20 1/2 in
    assert str(short.cuts[0].cut[0]) == "20 1/2" and short.rounds == 1


def test_no_piece_is_cut_twice_and_none_is_forgotten():
    for size, plan in checked().cuts.items():
        quilt = checked().quilts[size]
        laid_out = checked()
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
    plan = checked().cuts["singly"]
    assert {unit.how for unit in plan.together} == {flying_geese.WAY, strip_sets.WAY}
    halves = [p for p in plan.patches if p.method == METHODS["half-square triangles"]]
    assert {str(p.cut[0]) for p in halves} == {"2 7/8"}  # 2 + 7/8


def test_what_is_not_made_so_is_offered_in_the_facts():
    plans = checked().cuts
    assert plans["eight"].offers == ()
    # singly: two half-square units of each kind, which could be made two at a time
    assert [(unit.how, unit.units) for unit in plans["singly"].offers] == [
        (half_squares.TWO, 2),
        (half_squares.TWO, 2),
    ]


def test_a_step_that_makes_such_a_unit_says_so():
    plan = make_plan(checked(), ["eight"])
    star = next(b for b in plan.sizes[0].blocks if b.block.id == "star")
    marked = [(len(card.step.pieces), card.together, card.together_whole) for card in star.cards]
    assert (
        3,
        "U3",
        True,
    ) in marked  # the last step of a goose; one before it, if any, is a part of it
    assert all(name == "U3" for pieces, name, _ in marked if pieces <= 3)


def test_triangles_cut_singly_with_a_margin_are_trimmed_when_sewn(tmp_path: Path):
    text = (FOLDER.parent / "nine_patch" / "pattern.yaml").read_text("utf-8")
    (tmp_path / "pattern.yaml").write_text(
        text.replace("units: inch", "cutting: {trim: 1/8 in}"), "utf-8"
    )
    outcome = check(tmp_path)
    plan = make_plan(outcome.value)
    patch = next(
        p for p in plan.sizes[0].cutting.patches if p.method == METHODS["half-square triangles"]
    )
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
