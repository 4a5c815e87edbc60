"""The frames of a step drawn run by run, from rosettes that can be counted on a table."""

from pathlib import Path

import corpus
import pytest
from builders import ENGLISH

from booklet.drawing.steps.step_scale import TALLEST, StepScales
from booklet.drawing.told import told_step
from booklet.pattern import By
from booklet.plan.cards.frame_words import frame_heads, told_in_order
from booklet.plan.cards.frames import frames, is_framed, is_in_place, repeats, stages
from booklet.recipe import compiler

PATTERNS = Path(__file__).parent / "patterns"

ROSETTE = """
title: Rosette
units: inch
sizes: {small: {unit: 3/4 in, blocks: 1}}
fabrics: {leaf: {name: Leaf, colour: "#5f7f4f"}, sand: {name: Sand, colour: "#e0d0b0"}}
patches: {hex: {shape: hexagon, side: 1}}
blocks:
  rosette:
    pieces:
      - {id: c, patch: hex, fabric: sand, at: [0, 0]}
      - {id: p1, patch: hex, fabric: leaf, beside: {piece: c, side: 1, own: 4}}
      - {id: p2, patch: hex, fabric: F2, beside: {piece: c, side: 2, own: 5}}
      - {id: p3, patch: hex, fabric: leaf, beside: {piece: c, side: 3, own: 6}}
      - {id: p4, patch: hex, fabric: F2, beside: {piece: c, side: 4, own: 1}}
      - {id: p5, patch: hex, fabric: leaf, beside: {piece: c, side: 5, own: 2}}
      - {id: p6, patch: hex, fabric: F2, beside: {piece: c, side: 6, own: 3}}
    sew: [{make: rosette, join: [ORDER], by: hand}]
sewing: {set in by: hand, machine from: 9 in}
"""
ROUND = "c, p1, p2, p3, p4, p5, p6"


def block(folder, order=ROUND, second="leaf"):
    text = ROSETTE.replace("ORDER", order).replace("F2", second)
    (folder / "pattern.yaml").write_text(text, encoding="utf-8")
    checked = compiler.check(folder)
    assert checked.value is not None, checked.diagnostics
    return compiler.plan(checked.value).sizes[0].blocks[0]


def test_a_rosette_in_one_step_is_a_first_petal_four_alike_and_the_one_that_closes(tmp_path):
    made = block(tmp_path)
    (card,) = made.cards
    # p1: 1 seam; p2 to p5: the heart and the petal before, 2 seams; p6: both neighbours, 3 seams
    assert [len(run.seams) for run in card.step.runs] == [1, 2, 2, 2, 2, 3]
    told = [(len(frame.stages), frame.more) for frame in frames(card.step, made.assembly)]
    assert told == [(1, 0), (1, 3), (1, 0)]
    # what is there already grows by a petal each time
    assert [len(stage.parts[0]) for stage in stages(card.step, made.assembly)] == [1, 2, 3, 4, 5, 6]


def test_which_way_round_is_said_as_seen_on_the_page(tmp_path):
    forth = block(tmp_path)
    assert frames(forth.cards[0].step, forth.assembly)[1].clockwise is True
    back = block(tmp_path, "c, p6, p5, p4, p3, p2, p1")
    assert frames(back.cards[0].step, back.assembly)[1].clockwise is False
    assert any("Then the same, counterclockwise" in words for words in back.cards[0].sentences)


def test_petals_of_two_cloths_in_turn_are_two_frames_told_together(tmp_path):
    made = block(tmp_path, second="sand")
    row = frames(made.cards[0].step, made.assembly)
    # p1; p2 and p3 in turn, p4 and p5 the same once more; p6 closes
    assert [(len(frame.stages), frame.more) for frame in row] == [(1, 0), (2, 1), (1, 0)]
    assert [str(head) for head in frame_heads(row[1], False, False)] == [
        "Then, 2 times in turn"
    ] * 2


def test_a_seam_of_the_same_step_is_spread_where_a_later_corner_goes_in(tmp_path):
    (card,) = block(tmp_path).cards
    assert any("spread the earlier seams" in words for words in card.sentences)
    assert len(set(card.sentences)) == len(card.sentences)


def test_the_alternative_text_tells_the_frames_in_order(tmp_path):
    from booklet.drawing.told import told_step

    made = block(tmp_path)
    told = str(told_step(made, made.cards[0]))
    first, then, last = (told.index(f"Picture “{head}") for head in ("First”", "Then, 4 times, clockwise”", "Last”"))  # fmt: skip
    assert first < then < last < told.index("At the end, the unit made: 7 pieces.")


def test_rows_and_a_part_at_either_end_stay_one_picture(example_plan):
    cushion = next(size for size in example_plan.sizes if size.size.id == "cushion").blocks[0]
    # step 1 sews a triangle to either end, 3 to 5 are rows; 6 sets two rows in, on five seams each
    assert [is_framed(card.step, cushion.assembly) for card in cushion.cards] == [False] * 5 + [
        True
    ]


@pytest.mark.parametrize(
    "row,found",
    [
        ("", []),
        ("a", [(0, 1, 0)]),
        ("aaa", [(0, 1, 2)]),
        ("abab", [(0, 2, 1)]),
        ("abbbc", [(0, 1, 0), (1, 1, 2), (4, 1, 0)]),
        ("abcabca", [(0, 3, 1), (6, 1, 0)]),
    ],
)
def test_what_repeats_is_told_once(row, found):
    assert list(repeats(row)) == found


def test_no_way_of_sewing_is_told_twice(tmp_path):
    made = block(tmp_path)
    row = stages(made.cards[0].step, made.assembly)
    ways = [(By.HAND, False, what) for what in "abacab"]
    said = [str(words) for words in told_in_order(ways, row, made.assembly)]
    assert sum("by hand: a" in words for words in said) == 1
    assert said[-1] == "Last, once more in the same way, as drawn."


def test_every_step_is_told_without_repeating_itself(example_plan):
    for size in example_plan.sizes:
        for b in size.blocks:
            for card in b.cards:
                assert len(set(map(str, card.sentences))) == len(card.sentences)


def test_a_ring_of_many_cloths_is_drawn_with_its_patches_in_place():
    """Twelve patches of three cloths about a flower take a frame each: they would be a few millimetres wide. In place the block,
    5 x 1.732 in wide, stands twice beside each other: at 1 : 3.5 each is 63 mm wide."""
    garden = corpus.plan_of(PATTERNS / "scrappy_garden").sizes[0].blocks[0]
    flower, ring = (card.step for card in garden.cards)
    assert is_framed(flower, garden.assembly) and not is_in_place(flower, garden.assembly)
    assert len(ring.runs) == 12 and len(frames(ring, garden.assembly)) > 7
    assert is_in_place(ring, garden.assembly) and not is_framed(ring, garden.assembly)
    scales = StepScales(block=garden, step=ring, tallest=TALLEST, speaker=ENGLISH)
    assert scales.fitting(174.0).of <= 3.5
    told = ENGLISH.say(told_step(garden, garden.cards[1]))
    assert "First" in told and "Last" in told
