"""Blocks of one piece: nothing to sew, nothing to press, and everything else as with any block."""

import re
from pathlib import Path

import corpus

from booklet.facts import facts
from booklet.pages.composing import compose
from booklet.pages.tables.lessons import block_minutes
from booklet.recipe import compiler

PATTERNS = Path(__file__).parent / "patterns"


def plan_of(name):
    return corpus.plan_of(PATTERNS / name)


def page(plan, edition, size=None):
    """The words of one web edition, without markup."""
    found = next(e for e in plan.pattern.booklet.editions if e.id == edition)
    html = compose(plan, found, None, None, (size,) if size else ()).html
    return " ".join(re.sub(r"<[^>]*>", " ", html.split("<main", 1)[-1]).split())


def test_nine_patch_and_plain_square_are_counted_and_cut():
    # 3 x 3 places: 5 nine patches and 4 plain squares; a nine patch has 5 red and 4 white squares
    size = facts(plan_of("plain_alternate"))["sizes"]["cot"]
    assert size["quilt"]["blocks"] == {"nine": 5, "plain": 4}
    counts = {(p["block"], p["fabric"]): p["count"] for p in size["quilt"]["patches"]}
    assert counts == {("nine", "red"): 25, ("nine", "white"): 20, ("plain", "white"): 4}
    plain = size["blocks"]["plain"]
    assert (plain["steps"], plain["seams"], plain["threads"], plain["junctions"]) == (
        [],
        [],
        [],
        [],
    )
    assert plain["totals"]["seams"] == 0
    (cut,) = (line for line in size["rotary"] if line["for"] == plain["pieces"][0]["patch"])
    assert (cut["cut_in"], cut["pieces"]) == ([6.5, 6.5], 4)  # 6 in and an allowance on every side


def test_the_page_of_a_plain_block_says_that_there_is_nothing_to_sew():
    words = page(plan_of("plain_alternate"), "pattern")
    said = "4 blocks, whole when they are cut: one patch B (white) each, nothing to sew."
    assert said in words
    assert "Make 4 blocks" not in words
    assert "Plain square, pressing" not in words and "Pressing Plain square" not in words


def test_a_plain_block_has_no_card_no_sitting_and_no_pressing_picture():
    plan = plan_of("sampler_with_plain")
    (size,) = plan.sizes
    sewn = {block.block.id: block.is_sewn for block in size.blocks}
    assert sewn == {"windmill": True, "rails": True, "window": False, "rest": False}
    portions = {p.block for sitting in size.sittings for p in sitting.portions}
    assert portions == {"Windmill", "Rails"}
    assert [(b.patch, b.measure) for b in size.blocks if not b.is_sewn] == [
        ("C (birds)", "6 1/2 in × 6 1/2 in"),  # 4 x 1 1/2 in finished, an allowance on every side
        ("C (cream)", "6 1/2 in × 6 1/2 in"),
    ]


def test_a_pattern_of_one_plain_block_has_neither_steps_nor_a_picture_of_pressing():
    plan = plan_of("plain_squares")
    words = page(plan, "pattern", "runner")
    # on point 2 x 5: 10 blocks stand straight up and 1 x 4 between them
    assert "14 blocks, whole when they are cut" in words
    assert "Sew the steps in order" not in words and "How to read the pictures" not in words
    assert "shown from the back" not in words and "Where blocks join" in words
    assert "Sewing machine" in words  # the rows are sewn all the same
    assert page(plan, "handout", "lap")
    assert all(not size.sittings and not block_minutes(size) for size in plan.sizes)


def test_an_empty_list_of_steps_is_a_fault_only_where_there_is_something_to_sew(tmp_path):
    text = (PATTERNS / "plain_squares" / "pattern.yaml").read_text("utf-8")
    two = "- {id: top, corners: [[0, 0], [1, 0], [1, 0.5], [0, 0.5]], fabric: moss}\n      - {id: all, corners: [[0, 0.5], [1, 0.5]"
    (tmp_path / "pattern.yaml").write_text(
        text.replace("- {id: all, corners: [[0, 0], [1, 0]", two), "utf-8"
    )
    found = compiler.check(tmp_path)
    assert [d.message for d in found.diagnostics] == ["`sew` has no steps in it"]


def test_a_plain_block_cannot_be_joined_to_itself(tmp_path):
    text = (PATTERNS / "plain_squares" / "pattern.yaml").read_text("utf-8")
    (tmp_path / "pattern.yaml").write_text(
        text.replace("    sew: []", "    sew:\n      - {make: plain, join: [all, all]}"), "utf-8"
    )
    (fault,) = compiler.check(tmp_path).diagnostics
    assert fault.code == "used-twice" and fault.span.line == 17
