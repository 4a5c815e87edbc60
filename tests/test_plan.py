"""The plan: counts, check sizes and sentences of small patterns, each worked out by hand."""

from pathlib import Path

import corpus
import pytest

from booklet.kit.words import area_text, large, phrase, small, with_unit
from booklet.plan.words import spoken
from booklet.recipe import compiler

HERE = Path(__file__).parent


@pytest.fixture(scope="module")
def throw(example_plan):
    return next(size for size in example_plan.sizes if size.size.id == "throw")


@pytest.fixture(scope="module")
def cushion(example_plan):
    return next(size for size in example_plan.sizes if size.size.id == "cushion")


def test_words():
    assert spoken("pair3", alike=True) == "pair"
    assert spoken("row3", alike=False) == "row 3"
    assert spoken("top_row", alike=False) == "top row"
    assert large("sew A") == "Sew A"
    assert small(phrase("Sew {part}", part="A")) == "sew A"
    assert with_unit(2.5, "inch") == "2 1/2 in"
    assert with_unit(2.5, "cm") == "6.4 cm"  # 2.5 * 2.54 = 6.35, to the millimetre
    assert area_text((8.5, 4.5), "inch") == "8 1/2 in × 4 1/2 in"


def test_cards_say_a_repeated_unit_once(throw):
    (window,) = throw.blocks
    assert [(card.n, card.make, card.total) for card in window.cards] == [
        (1, 4, 120),  # 4 wings in each of 30 blocks
        (2, 4, 120),
        (3, 1, 30),
        (4, 1, 30),
        (5, 1, 30),
        (6, 1, 30),
    ]


def test_titles_name_the_parts_and_tell_alike_cards_apart(throw):
    titles = [card.title for card in throw.blocks[0].cards]
    assert titles[0] == "Sew A to either end of B"
    assert titles[1] == "Set E into the wing"
    assert titles[2].startswith("Row 1: sew D (fern print)")
    assert titles[3].startswith("Row 3: sew D (fern print)")
    assert titles[5] == "Set row 1 and row 3 into the middle"
    assert len(set(titles)) == len(titles)


def test_the_block_measures_its_finished_size_and_two_allowances(throw, cushion):
    # common practice: finished size + 1/4 in on every side; 8 + 1/2 and 4 + 1/2
    assert throw.blocks[0].cards[-1].measure == "8 1/2 in × 8 1/2 in"
    assert cushion.blocks[0].cards[-1].measure == "4 1/2 in × 4 1/2 in"


def test_a_hand_run_turns_at_numbered_dots_and_a_machine_seam_stops_at_its_dot(throw):
    wing, side = throw.blocks[0].cards[:2]
    assert wing.sentences[0] == (
        "By machine, both seams: sew from the edge to the dot. Stop at the dot."
    )
    assert side.sentences[0] == (
        "By hand, on one thread: sew from dot 1 to dot 2, turn, to dot 3, turn, to dot 4. "
        "Stop at the last dot."
    )
    assert "120 in all" in wing.sentences[1]


def test_the_small_size_says_by_hand_everywhere(cushion):
    for card in cushion.blocks[0].cards:
        assert card.sentences[0].startswith("By hand")
        assert card.setting is None


def test_materials_name_what_each_cloth_is_for_and_both_units(throw):
    lines = {line.fabric.id: line for line in throw.materials}
    assert lines["fern"].use == ("D square × 60",)  # 2 corners * 30 blocks
    # 60 squares of 2 1/2 in, 16 to a strip of 40 in: 4 strips, 10 in + 1/2 in to straighten
    assert (lines["fern"].buy, lines["fern"].buy_other) == ("3/8 yd", "0.3 m")


def test_a_partial_seam_is_begun_and_later_closed():
    plan = corpus.plan_of(HERE / "patterns" / "wheel_of_five")
    (block,) = plan.sizes[0].blocks
    begun = [card for card in block.cards if "part of the way" in card.title]
    closed = [card for card in block.cards if card.title.startswith("Close the seam")]
    assert len(begun) == 1
    assert len(closed) == 1
    assert begun[0].n < closed[0].n
    assert "open circle" in begun[0].sentences[0]


def test_a_plan_can_be_made_for_some_sizes(example_checked):
    assert [size.size.id for size in compiler.plan(example_checked, ["bed"]).sizes] == ["bed"]
