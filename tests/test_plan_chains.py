"""Chains: what the cards call a chain, what is drawn as one, and what the cutting page makes instead."""

import re
from pathlib import Path

import corpus
import pytest
from builders import ENGLISH

from booklet.drawing.ink.fills import looks_of
from booklet.drawing.steps.chains import chain_figures
from booklet.plan.cards.chaining import is_chained
from booklet.recipe import compiler

HERE = Path(__file__).parent
PATTERNS = HERE / "patterns"
TOP = """title: Chains
units: inch
sizes: {lap: {title: Lap, unit: 1 in, blocks: 3 x 2}}
fabrics: {ink: {name: Ink, colour: "#24306b"}, sand: {name: Sand, colour: "#e9dcc3"}}
"""


def plan_of(folder):
    return compiler.plan(compiler.check(folder).value)


def written(tmp_path, text):
    (tmp_path / "pattern.yaml").write_text(TOP + text, "utf-8")
    return plan_of(tmp_path)


def captions(plan, size=0):
    looks = looks_of(plan)
    return [
        f.caption for b in plan.sizes[size].blocks for f in chain_figures(b, looks, speaker=ENGLISH)
    ]


def said(card):
    return any(line.startswith("Chain-piece them") for line in card.sentences)


@pytest.mark.parametrize(
    "name", ["nine_patch", "wheel", "log_cabin", "star_8", "units_together", "plain_alternate"]
)
def test_a_card_that_says_chain_has_its_picture_and_no_other_has_one(name):
    plan = corpus.plan_of(PATTERNS / name)
    looks = looks_of(plan)
    for size in plan.sizes:
        for block in size.blocks:
            # a card of units made together says only where they come from
            chained = [card.n for card in block.cards if said(card) and card.together is None]
            assert chained == [card.n for card in block.cards if is_chained(card)]
            assert len(chain_figures(block, looks, speaker=ENGLISH)) == len(chained)
            tasks = [p for s in size.sittings for p in s.portions if p.block == block.block.title]
            assert {p.cards[0] for p in tasks if p.chain} == set(chained)


def test_a_partial_seam_is_no_chain():
    ((block,),) = (size.blocks for size in corpus.plan_of(PATTERNS / "wheel").sizes)
    first, *between, last = block.cards
    assert not said(first) and not said(
        last
    )  # its one end is watched, and the finish begins inside
    assert all(said(card) for card in between)  # 9 blocks: even the last blade is fed 9 times


def test_units_made_together_are_not_chained_as_single_triangles():
    plan = corpus.plan_of(PATTERNS / "units_together")
    eight, *_, singly = plan.sizes
    star, chain = eight.blocks
    assert [(card.n, card.together) for card in star.cards][:1] == [(1, "U3")]
    half_squares = [card for card in chain.cards if card.together in ("U1", "U2")]
    assert [card.total for card in half_squares] == [8, 8]  # one of either in each of 8 blocks
    assert not any(is_chained(card) for card in half_squares)
    assert not any("makes the same" in line for card in half_squares for line in card.sentences)
    tasks = [p for sitting in eight.sittings for p in sitting.portions]
    assert {p.together for p in tasks if p.together} == {"U1", "U2", "U3", "U4", "U5"}
    assert not any(p.chain for p in tasks if p.together)
    # from single triangles they are chained again
    assert any(is_chained(card) and card.make == 1 and card.step.level == 1 for card in singly.blocks[1].cards)  # fmt: skip


def test_handling_is_shared_by_those_made_at_once():
    plan = corpus.plan_of(PATTERNS / "units_together")
    eight = plan.sizes[0]
    (task,) = (p for s in eight.sittings for p in s.portions if p.together == "U1")
    # 8 half squares of 2 in, eight at a time: a seam of 2 sqrt 2 in at 10 in a minute each, and of the
    # minute that a join takes to lay out, pin and press an eighth
    assert task.minutes == pytest.approx(8 * (2 * 2**0.5 / 10 + 1 / 8))


def test_pairs_in_two_kinds_of_strip_sets_name_both(tmp_path):
    # ink and sand, once with ink and once with sand beside them: both rows come from strip sets
    text = """cutting: {strip sets: yes}
blocks:
  b:
    grid:
      - [ink, sand, ink]
      - [ink, sand, sand]
    sew:
      - {make: pair#, join: [r#c1, r#c2], times: 2}
      - {make: row#, join: [pair#, r#c3], times: 2}
      - {make: b, join: [row1, row2]}
quilt: {set: straight}
"""
    (block,) = written(tmp_path, text).sizes[0].blocks
    assert [card.together for card in block.cards] == ["U1 and U2", "U1", "U2", None]


def test_some_units_of_a_card_may_come_with_larger_ones(tmp_path):
    # a goose with one wing, twice: above its other wing is on and geese are made four at a time; below
    # a larger piece takes the place of the wing, so that this one is sewn by itself
    text = """cutting: {flying geese: four at a time}
blocks:
  b:
    pieces:
      - {id: g1, corners: [[0, 1], [1, 0], [2, 1]], fabric: sand}
      - {id: l1, corners: [[0, 0], [1, 0], [0, 1]], fabric: ink}
      - {id: right, corners: [[1, 0], [2, 0], [2, 1]], fabric: ink}
      - {id: s, corners: [[2, 0], [3, 0], [3, 1], [2, 1]], fabric: sand}
      - {id: g2, corners: [[0, 2], [1, 1], [2, 2]], fabric: sand}
      - {id: l2, corners: [[0, 1], [1, 1], [0, 2]], fabric: ink}
      - {id: x, corners: [[1, 1], [3, 1], [3, 2], [2, 2]], fabric: ink}
    sew:
      - {make: pair#, join: [l#, g#], times: 2}
      - {make: geese, join: [pair1, right]}
      - {make: row1, join: [geese, s]}
      - {make: row2, join: [pair2, x]}
      - {make: b, join: [row1, row2]}
quilt: {set: straight}
"""
    (block,) = written(tmp_path, text).sizes[0].blocks
    pair, geese = block.cards[:2]
    assert geese.together == "U1" and pair.together is None
    said = "1 of the 2 in a block come with U1 of the cutting page: make only the others."
    assert said in pair.sentences


def test_two_of_one_letter_are_told_apart_by_cloth(tmp_path):
    plan = written(tmp_path, "blocks: {b: {grid: [[ink, sand]]}}\nquilt: {set: straight}\n")
    (caption,) = captions(plan)
    # pressed toward the darker cloth (common practice), which lies on top
    assert "On top lies A (ink), wrong side up, on A (sand);" in caption


def test_two_that_are_alike_lie_either_way(tmp_path):
    plan = written(tmp_path, "blocks: {b: {grid: [[ink, ink]]}}\nquilt: {set: straight}\n")
    (caption,) = captions(plan)
    assert "Either lies on the other" in caption and "On top lies" not in caption


def test_a_row_tells_its_first_two(tmp_path):
    plan = written(tmp_path, "blocks: {b: {grid: [[ink, sand, ink]]}}\nquilt: {set: straight}\n")
    (caption,) = captions(plan)
    assert "sew the first seam of all of them, A (" in caption


def test_rows_of_one_chain_stand_two_by_two_where_there_is_room():
    plan = corpus.plan_of(PATTERNS / "irish_chain")
    (size, *_), looks = plan.sizes, looks_of(plan)
    first = size.blocks[0]
    assert [len(card.step.runs) for card in first.cards] == [
        4,
        4,
        4,
        4,
    ]  # rows of five, then five rows
    wide, narrow = (
        chain_figures(first, looks, width, speaker=ENGLISH)[0] for width in (170.0, 100.0)
    )
    assert wide.height_mm < narrow.height_mm * 0.6
    for figure in (
        wide,
        narrow,
    ):  # four seams, in the words of the step's picture, in reading order
        words = re.findall(r">(first|then|last|… 36)<", figure.svg)
        assert [word for word in words if word != "… 36"] == ["first", "then", "then", "last"]
        assert words.count("… 36") == 4


def test_letters_of_a_chain_lie_clear_of_its_seam(tmp_path, monkeypatch):
    """Strips of 0.6 in joined to one across their ends: under the needle the seam runs along the first strip, whose letter
    lay half under it. No plate comes nearer than half a seam, 1/2 mm."""
    from booklet.drawing.ink import svg
    from booklet.drawing.lettering.labels import plate_radius
    from booklet.drawing.scene import Ink, Label, Line
    from booklet.pages.pictures.album import drawn
    from booklet.pages.pictures.figures import LARGE
    from booklet.recipe import compiler

    (tmp_path / "pattern.yaml").write_text(
        """\
title: Rails
sizes: {one: {unit: 1 in, blocks: 6}}
fabrics: {a: {name: A, colour: "#aa3322"}, b: {name: B, colour: "#e9dcc3"}}
blocks:
  s:
    columns: [3]
    rows: [0.6, 0.6, 0.6, 1]
    grid: [[a], [b], [a], [b]]
    sew:
      - {make: rails, join: [r1c1, r2c1, r3c1]}
      - {make: s, join: [rails, r4c1]}
""",
        encoding="utf-8",
    )
    plan, caught = compiler.plan(compiler.check(tmp_path).value), []
    monkeypatch.setattr(svg, "render", lambda scene: caught.append(scene) or "")
    album = drawn(plan)(plan.sizes[0], LARGE)
    for row in album.rows:
        album.series(row)
    plates = 0
    for scene in (scene for scene in caught if "chain" in scene.name):
        seams = [item for item in scene.items if isinstance(item, Line) and item.ink is Ink.MACHINE]
        for label in (i for i in scene.items if isinstance(i, Label) and i.plate):
            plates += 1
            reach = plate_radius(label.text, label.size)
            for seam in seams:
                (a, y), (b, _) = seam.points
                if min(a, b) <= label.at[0] <= max(a, b):
                    assert abs(label.at[1] - y) - reach >= 0.5
    assert plates
