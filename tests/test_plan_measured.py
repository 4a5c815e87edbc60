"""What the reader is told to measure: whole units at the ruler, and slanted cuts square to the cut."""

from pathlib import Path

import corpus
import pytest

from booklet.drawing.cloths.angled import angled_figure
from booklet.drawing.ink.fills import looks_of
from booklet.drawing.quilts.block import patch_measure
from booklet.pages.tables.cutlist import cut_lines
from booklet.pages.tables.view import tools
from booklet.pages.texts.true_fractions import NO_BREAK
from booklet.pages.texts.words import Words
from booklet.pattern import Direction, Paper
from booklet.plan.cuts.cut_words import how_cut
from booklet.recipe import compiler

PATTERNS = Path(__file__).parent / "patterns"


def plan_of(name):
    return corpus.plan_of(PATTERNS / name)


@pytest.mark.parametrize("name", ["wheel", "wheel_by_hand"])
def test_a_unit_with_an_open_seam_is_not_measured(name):
    ((block,),) = (size.blocks for size in plan_of(name).sizes)
    *earlier, last = block.cards
    assert [card.measure for card in earlier] == [None] * len(earlier)
    # 3 squares of 2 in across and an allowance of 1/4 in at both ends, once the seam is finished
    assert last.step.finish and last.measure == "6 1/2 in × 6 1/2 in" == block.measure
    assert (
        earlier[-1].step.pieces == last.step.pieces
    )  # the last blade is on, the first seam still open


def test_units_beside_an_open_seam_are_measured_all_the_same(tmp_path):
    # two squares make a blade first: 2 x 4 in finished, with nothing open in it
    text = (PATTERNS / "wheel" / "pattern.yaml").read_text("utf-8")
    ring = (
        "{id: a, patch: blade, fabric: spoke, at: [1, 0.5], ring: {centre: [1.5, 1.5], times: 4}}"
    )
    blades = "\n      - ".join(
        [
            "{id: a1, patch: blade, fabric: spoke, at: [1, 0.5]}",
            "{id: p, patch: centre, fabric: spoke, at: [2.5, 0.5]}",
            "{id: q, patch: centre, fabric: hub, at: [2.5, 1.5]}",
            "{id: a3, patch: blade, fabric: spoke, at: [2, 2.5]}",
            "{id: a4, patch: blade, fabric: spoke, at: [0.5, 2], turn: 90}",
        ]
    )
    assert ring in text
    text = text.replace(ring, blades)
    text = text.replace("      - {make: two, ", "      - {make: a2, join: [p, q], by: machine}\n      - {make: two, ")  # fmt: skip
    (tmp_path / "pattern.yaml").write_text(text, "utf-8")
    plan = compiler.plan(compiler.check(tmp_path).value)
    measures = [card.measure for card in plan.sizes[0].blocks[0].cards]
    assert measures == [None, "2 1/2 in × 4 1/2 in", None, None, None, "6 1/2 in × 6 1/2 in"]


def test_a_slanted_cut_is_measured_square_to_the_cut():
    (size,) = plan_of("slants_from_strips").sizes
    (slant,) = {p.name: p for p in size.cutting.patches if p.angle is not None}.values()
    # 1.5 sqrt 2 in along the strip at 45 degrees: the slanted sides lie 1.5 in apart, and 1/4 in on either
    # side makes 2; the strip is 2 + 1/2 high
    assert slant.exact == pytest.approx((2.5, 2.0), abs=1e-6)
    (said, *_) = how_cut(slant, (), Direction.ANY, str)
    assert said.endswith(", measured square to the cut.")


def test_a_picture_shows_where_the_ruler_lies():
    plan = plan_of("slants_from_strips")
    (size,) = plan.sizes
    looks = looks_of(plan)
    drawn = {
        (patch.fabric, patch.name): angled_figure(size, cloth, patch, looks, 60.0)
        for cloth in size.cutting.fabrics
        for patch in size.cutting.patches
        if patch.fabric == cloth.fabric
    }
    shown = {name: figure for (_, name), figure in drawn.items() if figure}
    assert set(shown) == {p.name for p in size.cutting.patches if p.angle is not None}
    assert len(shown) == 1
    for figure in shown.values():
        assert "45°" in figure.svg and ">2 in<" in figure.svg
        assert figure.width_mm <= 60.5
        assert figure.caption.endswith("lies on the slanted edge; cut along the ruler.")


def test_no_ruler_is_shown_for_a_slant_that_is_cut_by_its_template():
    plan = plan_of("storm_at_sea")
    (size,) = plan.sizes
    diamond = next(p for p in size.cutting.patches if p.angle is not None)
    # the diagonals are 2 and 4 in: sides of sqrt 5, 4 / sqrt 5 = 1.789 in apart, and 1/2 in is 2.289,
    # which no ruler shows
    assert diamond.exact[0] == pytest.approx(4 / 5**0.5 + 0.5, abs=1e-6)
    looks = looks_of(plan)
    cloth = next(c for c in size.cutting.fabrics if c.fabric == diamond.fabric)
    assert angled_figure(size, cloth, diamond, looks, 60.0) is None


def test_a_square_on_its_corner_is_measured_along_its_sides():
    (size,) = plan_of("storm_at_sea").sizes
    said = {p.letter: str(patch_measure(p, size)) for p in size.blocks[0].tiling.patches}
    # diagonals of 4 and 2 in: sides of 2.83 and 1.41 in, printed to 1/16
    assert said["F"] == "2 13/16 in × 2 13/16 in"
    assert said["C"] == "1 7/16 in × 1 7/16 in"


@pytest.mark.parametrize(
    ("name", "mark"),
    [
        ("storm_at_sea", "⅛ in"),
        ("sawtooth_one_way", "1⁄16 in"),
        ("metric", "1 mm"),
        ("ruler_5_mm", "5 mm"),
    ],
)
def test_the_ruler_that_is_listed_has_the_marks_by_which_is_cut(name, mark):
    first = tools(plan_of(name).sizes, Words.of("en"), Paper.LETTER)[0].striptags()
    assert first.replace(NO_BREAK, " ").endswith(f"a ruler with marks every {mark}")


def test_a_triangle_drawn_round_its_template_names_the_template(tmp_path):
    # 60-degree triangles of 3 in: 3 sqrt 3 / 2 + 3/4 = 3.348 in high with their points, which no ruler shows
    text = """title: Spires
units: inch
allowance: 1/4 in
sizes: {wall: {title: Wall, unit: 3 in, blocks: 2}}
fabrics: {slate: {name: Slate, colour: "#3d405b"}}
patches: {spire: {shape: equilateral triangle, side: 1}}
blocks:
  pair:
    pieces:
      - {id: a, patch: spire, fabric: slate, at: [0, 0]}
      - {id: b, patch: spire, fabric: slate, beside: {piece: a, side: 1, own: 1}}
"""
    (tmp_path / "pattern.yaml").write_text(text, "utf-8")
    (size,) = compiler.plan(compiler.check(tmp_path).value).sizes
    (cloth,) = size.cutting.fabrics
    (row,) = cut_lines(size, cloth, Words.of("en"))
    (gives,) = row.gives
    assert gives.figure == "Template A"
    assert gives.how == "Draw round the template, then cut."
