"""Patches basted over papers: cloth, papers, sentences. The trade facts are common practice."""

import math
from functools import cache
from pathlib import Path

import pytest

from booklet.commands import run
from booklet.facts import facts
from booklet.pages.composing import compose
from booklet.pattern import By
from booklet.recipe import compiler

FOLDER = Path(__file__).parent / "patterns" / "over_papers"


@cache
def plan():
    checked = compiler.check(FOLDER)
    assert checked.value is not None, checked.diagnostics
    return compiler.plan(checked.value)


def words(size):
    edition = plan().pattern.booklet.editions[0]
    return compose(plan(), edition, sizes=(size,)).html


def test_cloth_is_cut_with_what_is_folded_over_the_paper():
    told = facts(plan())["sizes"]
    # a hexagon of side 1 is sqrt(3) in from flat to flat; 3/8 in on both sides where nothing is said
    assert told["coaster"]["paper_allowance_in"] == 0.375
    (row, *_) = told["coaster"]["rotary"]
    assert row["exact_in"][0] == pytest.approx(math.sqrt(3) + 0.75, abs=1e-5)
    # of side 1/2 with 1/4 in, as its size asks for
    (row, *_) = told["small"]["rotary"]
    assert row["exact_in"][0] == pytest.approx(math.sqrt(3) / 2 + 0.5, abs=1e-5)


def test_all_seams_are_sewn_by_hand_from_corner_to_corner_and_lie_open():
    for size in plan().sizes:
        (block,) = size.blocks
        for sewn in block.assembly.sewn.values():
            assert sewn.by is By.HAND and all(end.value == "point" for end in sewn.ends)
        assert all(seam.toward is None for seam in block.pressing.pressed.values())


def test_the_steps_say_what_is_done_over_papers_and_nothing_of_running_stitches():
    said = words("coaster")
    assert "whip-stitch through the two folds alone" in said
    assert "fold the papers until the next two edges lie on each other" in said
    assert "cut 7 papers" in said and "When all papers are out" in said
    for other in (
        "running stitch",
        "Spread the earlier seam",
        "Test your allowance",
    ):
        assert other not in said.replace("\xa0", " "), other


def test_the_papers_of_a_block_stand_among_the_templates():
    assert "Papers, for one “Rosette”" in words("coaster")


@pytest.mark.parametrize(
    ("rule", "code", "line"),
    [
        ("machine from: 1 in", "conflicting-keys", 21),
        ("set in by: machine", "conflicting-keys", 21),
        ("paper allowance: 0 in", "bad-length", 21),
        ("by: paper", "duplicate-name", 21),
    ],
)
def test_what_cannot_be_over_papers_is_said(tmp_path, capsys, rule, code, line):
    text = (FOLDER / "pattern.yaml").read_text(encoding="utf-8") + f"  {rule}\n"
    (tmp_path / "pattern.yaml").write_text(text, encoding="utf-8")
    assert run(["check", str(tmp_path), "--format", "lines"]) == 1
    assert f"[{code}]" in (out := capsys.readouterr().out) and f"pattern.yaml:{line}:" in out, out
