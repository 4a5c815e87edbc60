"""A top whose seams between blocks are not straight is sewn like a block: the blocks are its patches."""

import math
import re
from functools import cache
from itertools import pairwise
from pathlib import Path

import corpus
import pytest
from corpus import documents

from booklet.drawing.places import piece_keys
from booklet.drawing.told import told_step
from booklet.facts import facts
from booklet.pattern import By
from booklet.pressing.pressing import JunctionKind
from booklet.quilt.assembling import joining
from booklet.recipe import compiler
from booklet.sewing.assembly import End

PATTERNS = Path(__file__).parent / "patterns"
LATTICES = [
    "filled_rim",
    "flowers_in_lattice",
    "long_hexagons_in_lattice",
    pytest.param("rosettes_in_lattice", marks=pytest.mark.everything),
    "zigzag_bricks",
]


@cache
def plan_of(name, *changes, tmp_path=None):
    text = (PATTERNS / name / "pattern.yaml").read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    folder = PATTERNS / name
    if changes:
        folder = tmp_path
        (folder / "pattern.yaml").write_text(text, encoding="utf-8")
    return corpus.plan_of(folder)


def top_of(name, *changes, tmp_path=None):
    return plan_of(name, *changes, tmp_path=tmp_path).sizes[0].joining


@pytest.mark.parametrize("name", LATTICES)
def test_every_seam_between_blocks_is_sewn_once_by_the_step_that_joins_them(name):
    for size in plan_of(name).sizes:
        top = size.joining
        home = {piece.id: {piece.id} for piece in top.tiling.pieces}
        done = []
        for step in top.assembly.steps:
            parts = [set(top.assembly.units.get(part, (part,))) for part in step.join]
            assert sum(map(len, parts)) == len(set().union(*parts)) == len(step.pieces)
            assert all(part in home.values() for part in parts)
            between = {
                seam.id
                for seam in top.tiling.seams
                if {*seam.between} <= set(step.pieces)
                and home[seam.between[0]] != home[seam.between[1]]
            }
            assert sorted(id for run in step.runs for id in run.seams) == sorted(between)
            done += between
            there = parts[0]  # each further part touches what hangs together already
            for part in parts[1:]:
                assert any(len({*s.between} & there) == 1 == len({*s.between} & part) for s in top.tiling.seams)  # fmt: skip
                there = there | part
            home |= {id: set(step.pieces) for id in step.pieces}
        assert sorted(done) == sorted(seam.id for seam in top.tiling.seams)
        assert len(top.assembly.steps[-1].pieces) == len(size.quilt.placed)


@pytest.mark.parametrize("name", LATTICES)
def test_wherever_a_join_turns_earlier_seams_stop_also_those_of_the_blocks(name):
    plan = plan_of(name)
    for size in plan.sizes:
        top = size.joining
        for step in top.assembly.steps:
            for run in step.runs:
                for k in run.turns:
                    for seam in top.tiling.seams:
                        sewn = top.assembly.sewn[seam.id]
                        for at, end in zip((seam.start, seam.end), sewn.ends, strict=True):
                            if at == run.points[k] and sewn.step <= step.n:
                                assert end is End.POINT
        for block in size.blocks:
            corners = set(block.tiling.outline.corners)
            for seam in block.tiling.seams:
                ends = block.assembly.sewn[seam.id].ends
                for at, end in zip((seam.start, seam.end), ends, strict=True):
                    a, b = _sides_at(at, block.tiling.outline.points)
                    if at in corners and abs(a[0] * b[1] - a[1] * b[0]) > 1e-6:
                        assert end is End.POINT, (block.block.id, seam.id)


def _sides_at(at, outline):
    """The directions of the outline before and after one of its points."""
    if at not in outline:
        return (1.0, 0.0), (1.0, 0.0)
    k = outline.index(at)
    before, here, after = outline[k - 1], outline[k], outline[(k + 1) % len(outline)]
    return tuple(
        tuple((q - p) / math.dist(one, other) for p, q in zip(one, other, strict=True))
        for one, other in ((before, here), (here, after))
    )


def test_alike_rows_are_one_card_and_then_the_rows_are_joined():
    top = top_of("flowers_in_lattice")
    rows, whole = top.cards
    # two flowers of seven share 3 edges of 1 1/2 in: in each of 3 rows 2 joins of 3 seams, each turning twice
    assert (rows.make, rows.title, rows.takes) == (3, "Sew the blocks of each row", ("3 × Flower",))  # fmt: skip
    assert [(len(run.seams), len(run.turns)) for run in rows.step.runs] == [(3, 2), (3, 2)]
    # between two rows of three flowers: 5 pairs touch, each along 3 edges
    assert sum(len(run.seams) for run in whole.step.runs) == 2 * 5 * 3
    assert (whole.title, whole.takes, whole.makes) == ("Join the rows", ("all rows",), "The top")
    # 6 x 3 + 30 = 48 seams of 1 1/2 in are 72 in: 4 threads of 18 in at least
    assert sum(seam.length for seam in top.tiling.seams) == pytest.approx(72)
    assert 4 <= top.assembly.fewest_threads <= len(top.assembly.threads) == 8


def test_a_top_can_grow_from_its_middle(tmp_path):
    top = top_of("long_hexagons_in_lattice")
    first, then = top.assembly.steps
    # of 3 x 3 blocks of which each has a square at its lower right corner the middle one touches the four beside it,
    # and by the squares those at the upper left and the lower right; it begins above and goes round clockwise
    assert first.join == ("r2c2", "r1c2", "r2c3", "r3c3", "r3c2", "r2c1", "r1c1")
    assert (first.make, then.make) == ("middle1", joining.TOP)
    assert then.join == (first.make, "r1c3", "r3c1")
    assert top.cards[0].title == "Sew 6 blocks round the middle one"
    again = top_of("long_hexagons_in_lattice", ("  join: from the middle\n", ""), tmp_path=tmp_path)
    assert [step.make for step in again.assembly.steps] == ["row1", "row2", "row3", joining.TOP]
    sewn = {frozenset(seam.between) for seam in top.tiling.seams}
    assert sewn == {frozenset(seam.between) for seam in again.tiling.seams}


def test_the_rules_of_sewing_say_who_sews_a_join():
    # by machine where it may set in: 9 joins of 1 in (half a square of 2 in), and two zigzags of 16 in and 7 steps
    top = top_of("zigzag_bricks")
    assert {sewn.by for sewn in top.assembly.sewn.values()} == {By.MACHINE}
    lengths = [sum(top.tiling.seam(id).length for run in s.runs for id in run.seams) for s in top.assembly.steps]  # fmt: skip
    assert lengths == pytest.approx([3, 3, 3, 2 * (16 + 7)])
    assert [step.turns for step in top.assembly.steps] == [0, 0, 0, 2 * 14]
    # by hand where corners are set in by hand, but the straight joins of 2 1/2 in by machine
    top = top_of("filled_rim")
    assert [step.by for step in top.assembly.steps] == [By.MACHINE] * 6 + [By.HAND]


def test_joins_come_in_the_sittings_and_the_facts():
    plan = plan_of("flowers_in_lattice")
    (size,) = plan.sizes
    joins = [p for sitting in size.sittings for p in sitting.portions if p.joins]
    assert [p.cards for p in joins] == sorted(p.cards for p in joins)
    assert sum(p.count for p in joins if p.cards == (1,)) == 3 * 2
    assert sum(p.count for p in joins if p.cards == (2,)) == 2
    # rows: 18 seams of 1 1/2 in by hand, 1 in a minute, and a minute for each of 6 parts sewn on
    assert sum(p.minutes for p in joins if p.cards == (1,)) == pytest.approx(18 * 1.5 + 6)
    quilt = facts(plan)["sizes"]["lap"]["quilt"]
    assert quilt["joined"] == "rows"
    assert [piece["block"] for piece in quilt["joining"]["pieces"]] == ["flower"] * 9
    assert quilt["joining"]["totals"]["hand_in"] == 72


@pytest.mark.parametrize("name", ["flowers_in_lattice", "zigzag_bricks"])
def test_no_page_tells_of_rows_where_an_edge_is_not_straight(name):
    plan = plan_of(name)
    html = "".join(
        document.html
        for edition in plan.pattern.booklet.editions[:1]
        for document in documents(plan, edition, ())
    )
    assert "they are joined like the patches of a block" in html
    assert "Sew them into rows" not in html and "then sew the long" not in html


def test_straight_seams_need_no_cards():
    assert top_of("plain_alternate") is None
    size = plan_of("nine_patch").sizes[0]
    assert size.joining is None and "joining" not in facts(plan_of("nine_patch"))["sizes"][size.size.id]["quilt"]  # fmt: skip


def test_of_very_many_blocks_no_cards_are_made(monkeypatch):
    monkeypatch.setattr(joining, "MOST", 8)
    plan = compiler.plan(compiler.check(PATTERNS / "flowers_in_lattice").value)  # not as remembered
    assert plan.sizes[0].joining is None
    html = next(iter(documents(plan, plan.pattern.booklet.editions[0], ()))).html
    assert "Sew them into rows" not in html and "turn at every corner" in html


@pytest.mark.parametrize("name", LATTICES)
def test_blocks_lie_in_the_top_where_the_quilt_has_them(name):
    for size in plan_of(name).sizes:
        centres = sorted(_middle(piece.outline.points) for piece in size.joining.tiling.pieces)
        for one, other in pairwise(centres):
            assert math.dist(one, other) > 0.5
        area = sum(size.joining.tiling.patch(p.patch).area for p in size.joining.tiling.pieces)
        assert area == pytest.approx(size.joining.tiling.area, abs=1e-6)


def test_a_picture_of_the_top_is_told_of_blocks_in_words():
    """Of three by three flowers each row has three blocks; the top has nine."""
    top = top_of("flowers_in_lattice")
    told = [str(told_step(top, card)) for card in top.cards]
    assert "the unit made: 3 blocks." in told[0] and "the unit made: 9 blocks." in told[-1]
    assert re.search(r"lies .* block ", told[0])
    assert not any("piece" in each or "atch" in each.replace("matching", "") for each in told)


def test_rows_of_curved_blocks_sewn_from_edge_to_edge_are_pressed_as_rows():
    """Waves have straight sides and curved tops: no join turns, so no point can be fanned. Each row's seams lie one way, the
    next row's the other, and they lock where they meet, at each inner point once for either row."""
    plan = plan_of("waves_filled")
    size = plan.sizes[0]
    assert not any(run.turns for step in size.joining.assembly.steps for run in step.runs)
    nests = [j for j in size.joining.pressing.junctions if j.kind is JunctionKind.NEST]
    lines = {str(line.seams): line for line in size.join_table}
    assert str(lines.pop("between the rows").press) == "down"
    assert sorted(str(line.press) for line in lines.values()) == ["to the left", "to the right"]
    assert all(line.seams.startswith("in row") for line in lines.values())
    # each joint lies between two rows, pressed to either side
    assert sum(line.locks for line in lines.values()) == 2 * len(nests)
    html = "".join(
        document.html for document in documents(plan, plan.pattern.booklet.editions[0], ())
    )
    assert "turn corners" not in html and "own seams stop at the dot" not in html
    assert "Their edges are not straight" in html


def _middle(points):
    return sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)


def test_a_block_of_a_joined_top_is_shown_as_a_block_and_as_no_patch():
    size = plan_of("filled_rim").sizes[0]
    made = {block.tiling.block for block in size.blocks}
    seen = [piece_keys(size.joining.tiling.block, p) for p in size.joining.tiling.pieces]
    assert len(seen) == len(size.quilt.placed) > 1
    assert {block for _, block in seen} == {f"block/{id}" for id in made}
    first = size.blocks[0].tiling
    assert piece_keys(first.block, first.pieces[0])[1] == f"patch/{first.pieces[0].patch}"
