"""One word, one meaning, one number: blocks made, and corners set in, wherever they are told."""

from __future__ import annotations

import re
from functools import cache

import corpus
import pytest
from source_helpers import PATTERNS

from booklet.drawing.quilts.quilt import told_quilt
from booklet.facts import facts
from booklet.pages.tables.methods import method_rows
from booklet.pages.tables.view import size_rows
from booklet.pages.texts.values import size_values
from booklet.pages.texts.words import Words


@cache
def plan_of(name):
    return corpus.plan_of(PATTERNS / name)


def told(name, size):
    """What the table of sizes says of the blocks of a size, and how many are made."""
    plan = plan_of(name)
    (one,) = (one for one in plan.sizes if one.size.id == size)
    (row,) = size_rows([one])
    return str(row.blocks), one


@pytest.mark.parametrize(
    ("name", "size", "said"),
    [
        ("small_plain_back", "cot", "20 (4 × 5)"),
        ("on_point_2_by_6", "runner", "17 (2 × 6 and 5 between them)"),  # 12 + 1 x 5
        ("on_point_2_by_6", "wall", "32 (5 × 4 and 12 between them)"),  # 20 + 4 x 3
        ("on_point_single", "plain", "1 (1 × 1)"),
        # parts of two patches: 4 at the top, 2 at the left and 2 at the right; 30 + 16 = 46 patches
        ("filled_rim_3_by_3", "wall", "18 (10 whole, 8 part blocks)"),
    ],
)
def test_blocks_made_are_counted_once_and_for_all(name, size, said):
    blocks, one = told(name, size)
    made = facts(plan_of(name))["sizes"][one.size.id]["quilt"]
    number = int(blocks.split(" ")[0])
    assert blocks == said
    assert number == len(one.quilt.placed) == sum(made["blocks"].values()) == made["blocks_made"]
    assert number == sum(block.count for block in one.blocks)  # "Make 12 blocks." in the steps
    assert size_values(one)["size.made"] == str(number)
    assert sum(map(int, re.findall(r"(\d+) [A-Z]", told_quilt(one).split(".")[0]))) == number
    assert (made["across"], made["down"]) == (one.size.across, one.size.down)


def test_rows_are_told_of_as_many_blocks_as_they_have():
    _, straight = told("small_plain_back", "cot")
    assert "5 rows of 4 blocks." in told_quilt(straight)
    _, point = told("on_point_2_by_6", "wall")
    assert "8 slanted rows." in told_quilt(point)  # 5 + 4 - 1


def test_corners_set_in_are_turns_and_not_runs():
    """A run may turn at several points: each of them is a corner set in."""
    plan = plan_of("hexagon_rosette_1")
    rows = method_rows(plan.sizes, Words.of("en"))
    for size, row in zip(plan.sizes, rows, strict=True):
        (block,) = facts(plan)["sizes"][size.size.id]["blocks"].values()
        turns = sum(step["turns"] for step in block["steps"])
        assert row.corners == turns == block["totals"]["turns"]
        assert turns == 6  # the corners of the hexagon in the middle, where three patches meet
        # runs that turn: by hand, patch by patch round the heart, four turn once and the last, which closes the ring,
        # twice; by machine only two runs turn
        assert block["totals"]["set_in_joins"] == {"mini": 5, "lap": 2}[size.size.id]
