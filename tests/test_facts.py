"""Facts: one JSON object, in the form of its schema, from every pattern of the tests and the example."""

import json
from collections import Counter
from itertools import pairwise
from pathlib import Path

import corpus
import pytest

from booklet.facts import facts, facts_text
from booklet.recipe import compiler

HERE = Path(__file__).parent
FOLDERS = [corpus.EXAMPLE, *corpus.FOLDERS]


def plan_of(folder: Path):
    outcome = compiler.check(folder)
    assert outcome.value is not None, [d.message for d in outcome.diagnostics]
    return compiler.plan(outcome.value)


@pytest.fixture(scope="module")
def example():
    return facts(corpus.plan_of(corpus.EXAMPLE))


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_facts_satisfy_their_schema_and_add_up(folder: Path):
    found = json.loads(corpus.facts_told(folder))
    corpus.schema_of_facts().validate(found)
    for size in found["sizes"].values():
        for block in size["blocks"].values():
            assert sum(patch_area(block, piece) for piece in block["pieces"]) == pytest.approx(
                block["area"], abs=1e-3 + strays(block)
            )
            every_seam_is_sewn_once(block)
            every_hand_seam_is_on_one_thread(block)


def strays(block):
    """By how much areas may differ where one curve lies beside several: of each the chords stray 0.002 in at most."""
    about = Counter(
        piece for seam in block["seams"] if "curve_in" in seam for piece in seam["between"]
    )
    curved = sum(seam["length_in"] for seam in block["seams"] if "curve_in" in seam)
    return 0.002 * curved if any(len(sides(block, id)) < n for id, n in about.items()) else 0.0


def sides(block, id):
    """The corners of a patch, those along curves left out."""
    piece = next(piece for piece in block["pieces"] if piece["id"] == id)
    return next(p["corners_in"] for p in block["patches"] if p["letter"] == piece["patch"])


def patch_area(block, piece):
    return next(p["area"] for p in block["patches"] if p["letter"] == piece["patch"])


def every_seam_is_sewn_once(block):
    ids = [seam["id"] for seam in block["seams"]]
    sewn = {seam for step in block["steps"] for run in step["runs"] for seam in run}
    assert all(seam["step"] in {step["n"] for step in block["steps"]} for seam in block["seams"])
    runs = [seam for step in block["steps"] for run in step["runs"] for seam in run]
    twice = sorted(seam for seam in sewn if runs.count(seam) > 1)
    begun = sorted(
        seam["id"]
        for seam in block["seams"]
        for step in block["steps"]
        if step["n"] == seam["step"] and step["kind"] == "partial" and seam["id"] in twice
    )
    assert twice == begun  # only a partial seam is met again, when it is closed
    assert sorted(sewn) == sorted(ids)


def every_hand_seam_is_on_one_thread(block):
    hand = sorted(seam["id"] for seam in block["seams"] if seam["by"] == "hand")
    assert sorted(seam for thread in block["threads"] for seam in thread["seams"]) == hand


def test_a_run_that_turns_never_turns_over_a_seam_sewn_through_its_point(example):
    for size in example["sizes"].values():
        for block in size["blocks"].values():
            seams = {seam["id"]: seam for seam in block["seams"]}
            for step in block["steps"]:
                for run in step["runs"]:
                    for at in turns_of([seams[id] for id in run]):
                        for seam in block["seams"]:
                            if seam["step"] <= step["n"]:
                                assert end_at(seam, at) in (None, "point")


def turns_of(run):
    for one, two in pairwise(run):
        shared = {tuple(one["from_in"]), tuple(one["to_in"])} & {
            tuple(two["from_in"]),
            tuple(two["to_in"]),
        }
        dx1, dy1 = delta(one)
        dx2, dy2 = delta(two)
        if abs(dx1 * dy2 - dx2 * dy1) > 1e-6:
            yield from shared


def delta(seam):
    (x0, y0), (x1, y1) = seam["from_in"], seam["to_in"]
    return x1 - x0, y1 - y0


def end_at(seam, at):
    for key, end in zip(("from_in", "to_in"), seam["ends"], strict=True):
        if tuple(seam[key]) == at:
            return end
    return None


def test_the_smallest_size_is_all_hand_sewn_and_the_others_mixed(example):
    by = {
        id: {seam["by"] for seam in size["blocks"]["window"]["seams"]}
        for id, size in example["sizes"].items()
    }
    assert by == {"cushion": {"hand"}, "throw": {"machine", "hand"}, "bed": {"machine", "hand"}}


def test_the_throw_adds_up_by_hand(example):
    throw = example["sizes"]["throw"]
    # 5 blocks * 8 in + 2 * (1 + 4) in of borders; 6 blocks * 8 in + 10 in
    assert throw["quilt"]["finished_in"] == [50, 58]
    counts = {(p["letter"], p["fabric"]): p["count"] for p in throw["quilt"]["patches"]}
    assert counts == {
        ("A", "brass"): 240,  # 8 glints * 30 blocks
        ("B", "dusk"): 120,  # 4 ledges * 30
        ("C", "bloom"): 30,
        ("D", "fern"): 60,  # 2 corners * 30
        ("D", "mist"): 60,
        ("E", "pane"): 120,
    }


def test_sizes_can_be_chosen(example):
    outcome = compiler.check(FOLDERS[0])
    assert outcome.value is not None
    assert list(facts(compiler.plan(outcome.value, ["throw"]))["sizes"]) == ["throw"]


def test_the_same_source_gives_the_same_facts():
    assert facts_text(plan_of(FOLDERS[1])) == facts_text(plan_of(FOLDERS[1]))


def test_a_lattice_says_how_its_blocks_meet(tmp_path):
    (tmp_path / "pattern.yaml").write_text(LATTICE, encoding="utf-8")
    quilt = facts(plan_of(tmp_path))["sizes"]["one"]["quilt"]
    # halves of 4 x 2, the seam between them level: it meets that of the next block once in each of 2
    # rows; in version A it is pressed up, in B down
    assert quilt["joins_nest"] is True and quilt["seam_clashes"] == 0


LATTICE = """\
title: Lattice
sizes:
  one: {unit: 1 in, blocks: 2 x 2}
fabrics:
  sand: {name: Sand, colour: "#e9dcc3"}
patches:
  half: {shape: rectangle, width: 4, height: 2}
blocks:
  halves:
    pieces:
      - {id: a, patch: half, fabric: sand, at: [2, 1]}
      - {id: b, patch: half, fabric: sand, at: [2, 3]}
quilt: {set: lattice, arrange: [[halves]], lattice: {across: [4 u, 0], down: [0, 4 u]}}
"""
