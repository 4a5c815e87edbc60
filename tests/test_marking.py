"""Pages for a hand piecer: sheets of seam-line shapes, the route sheet, the pocket card."""

import itertools
import re
from collections import Counter
from pathlib import Path

import corpus
import pytest
from shapely import Polygon

from booklet.drawing.ink import svg
from booklet.drawing.scene import Area, Ink, Label, Mark, Sign
from booklet.drawing.templates import marking
from booklet.drawing.templates.marking import GAP, marking_figures, shapes_of
from booklet.kit.records import replace
from booklet.kit.words import words_of
from booklet.pages.composing import compose
from booklet.pages.pictures.album import drawn
from booklet.pages.pictures.figures import LARGE
from booklet.pattern import Paper

PATTERNS = Path(__file__).parent / "patterns"
A4 = (196.0, 270.0)


def size_of(name, n=0):
    return corpus.plan_of(PATTERNS / name).sizes[n]


def scenes(name, monkeypatch, whole=False, n=0, room=A4):
    caught = []
    monkeypatch.setattr(svg, "render", lambda scene: caught.append(scene) or "")
    marking_figures(size_of(name, n), *room, whole=whole)
    return caught


def outlines(scene):
    return [i.points for i in scene.items if isinstance(i, Area) and i.ink is Ink.CUT]


def test_a_sheet_has_every_patch_of_a_block_once(monkeypatch):
    # a heart, four triangles, four trapezoids
    assert sum(len(outlines(s)) for s in scenes("hand_pages", monkeypatch)) == 9
    letters = Counter(
        i.text for s in scenes("hand_pages", monkeypatch) for i in s.items
        if isinstance(i, Label) and re.fullmatch(r"[A-C]r?", i.text)
    )  # fmt: skip
    assert letters == {"A": 4, "B": 1, "C": 4}
    # four blocks in the quilt: 36 of all
    assert sum(len(outlines(s)) for s in scenes("hand_pages", monkeypatch, True)) == 36


def test_blocks_of_few_patches_share_a_sheet(monkeypatch):
    size = size_of("flowers_over_papers_filled")
    # hexagons of 2 cm are 34.6 mm from flat to flat, so that five and four gaps of 2.5 mm lie across 196 mm, and 40 mm from
    # corner to corner: of 270 - 12 - 29 = 229 mm down two rows of the flower take 82.5, each part below it 12 + 40:
    # with two of them 186.5, with a third 238.5
    assert [len(block.tiling.pieces) for block in size.made_here] == [7, 2, 5, 3, 1, 4]
    sheets = scenes("flowers_over_papers_filled", monkeypatch)
    assert [len(outlines(sheet)) for sheet in sheets] == [14, 8]
    titles = [
        [i.text for i in sheet.items if isinstance(i, Label) and i.anchor == "start" and i.bold]
        for sheet in sheets
    ]
    assert [len(row) for row in titles] == [3, 3]
    for block, title in zip(size.made_here, itertools.chain(*titles), strict=True):
        assert words_of("de").say(block.block.title) in title
    for sheet in sheets:  # every title stands clear of all shapes
        for label in (
            i for i in sheet.items if isinstance(i, Label) and i.anchor == "start" and i.bold
        ):
            assert all(
                not min(y for _, y in o) - 1 < label.at[1] < max(y for _, y in o) + 1
                for o in outlines(sheet)
            )


@pytest.mark.parametrize(
    "name", ["hand_pages", "hexagon_rosette_2", "clamshells", "star_8", "asymmetric_templates"]
)
@pytest.mark.parametrize("room", [A4, (135.0, 175.0)])
def test_shapes_lie_on_the_sheet_true_to_size_and_apart(name, room, monkeypatch):
    size = size_of(name)
    wanted = sum(shape.wanted for shape in shapes_of(size, size.blocks))
    found = 0
    for scene in scenes(name, monkeypatch, room=room):
        shapes = [Polygon(points) for points in outlines(scene)]
        found += len(shapes)
        for shape in shapes:
            left, top, right, low = shape.bounds
            assert left >= 0 and top >= 12 and right <= room[0] and low <= room[1] - 29 + 1e-6
        for one, other in itertools.combinations(shapes, 2):
            # a gap is measured along the row: between slanted sides it is narrower, but never nothing
            assert one.distance(other) > GAP / 4
    assert found == wanted
    areas = sorted(p.area for b in size.blocks for p in (Polygon(x.outline.points) for x in b.tiling.pieces))  # fmt: skip
    seen = sorted(
        Polygon(o).area / 25.4**2 for s in scenes(name, monkeypatch, room=room) for o in outlines(s)
    )
    assert seen == pytest.approx(areas, rel=1e-3)


def test_shapes_are_drawn_as_the_wrong_side_lies():
    size = size_of("hand_pages")
    (trapezoid,) = [shape for shape in shapes_of(size, size.blocks) if shape.letter == "C"]
    # `n` is 0 0, 4 0, 4 2, 2 2 with its slant from 2 2 back to 0 0, at the left; from behind it is at the right
    slant = max(trapezoid.outline, key=lambda p: p[0])
    level = [p for p in trapezoid.outline if abs(p[1] - slant[1]) < 1e-6]
    assert len(level) == 2 and not any(
        abs(p[0] - slant[0]) < 1e-6 and p != slant for p in trapezoid.outline
    )


def test_a_patch_used_both_ways_has_both_shapes():
    size = size_of("asymmetric_templates")
    shapes = shapes_of(size, size.blocks)
    pieces = [piece for block in size.blocks for piece in block.tiling.pieces]
    for letter in {shape.letter for shape in shapes if shape.reversed_one}:
        both = {s.reversed_one: s.wanted for s in shapes if s.letter == letter}
        assert both.get(True, 0) == sum(p.patch == letter and p.reversed for p in pieces)
    assert sum(s.wanted for s in shapes) == len(pieces)


def test_a_quilt_of_very_many_patches_gets_the_sheets_of_a_block(monkeypatch):
    assert len(scenes("triangles_300", monkeypatch, True)) == 13
    monkeypatch.undo()
    monkeypatch.setattr(marking, "MOST_SHEETS", 12)
    assert scenes("triangles_300", monkeypatch, True) == []
    monkeypatch.undo()
    monkeypatch.setattr(marking, "MOST_SHEETS", 12)
    made = compose_page("triangles_300", "marking-quilt")
    assert "more patches than fit 12 sheets" in made


def compose_page(name, page):
    plan = corpus.plan_of(PATTERNS / name)
    edition = plan.pattern.booklet.editions[0]
    own = replace(edition, pages=tuple(replace(edition.pages[0], name=n) for n in ("cover", page)))
    return compose(plan, own, paper=Paper.A4, sizes=(plan.sizes[0].size.id,)).html


def test_the_route_sheet_bears_no_number_and_a_dot_at_every_end(monkeypatch):
    caught = []
    monkeypatch.setattr(svg, "render", lambda scene: caught.append(scene) or "")
    size = size_of("hand_pages")
    drawn(corpus.plan_of(PATTERNS / "hand_pages"))(size, LARGE).figure("route sheet star")
    (scene,) = caught
    assert not any(isinstance(item, Label) for item in scene.items)
    # the corners of the heart, of the block, and four points where a trapezoid's straight end meets the rim
    assert sum(isinstance(i, Sign) and i.mark is Mark.DOT for i in scene.items) == 4 + 4 + 4


def test_a_block_without_hand_work_has_neither():
    made = compose_page("four_patch", "pocket-card")
    assert 'class="pocket-row"' not in made
    assert "Your own routes" not in compose_page("four_patch", "route-sheet")
