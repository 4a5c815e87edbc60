"""Where a patch has an inner corner no seam opens it: its allowance is clipped almost to the dot before the next side is
sewn (common practice). Over papers it is clipped when the patch is basted, and nothing opens or is passed through."""

import corpus
from source_helpers import PATTERNS

from booklet.drawing.ink import svg
from booklet.drawing.scene import Mark, Sign
from booklet.kit.outlines.plane import inward_corners
from booklet.kit.words import words_of
from booklet.pages.pictures.album import drawn
from booklet.pages.pictures.figures import LARGE
from booklet.pages.tables.view import tools
from booklet.pages.texts.words import Words
from booklet.pattern import Paper
from booklet.recipe import compiler

TWO = "Clip the allowances at the inner corners at dots {}, almost to the dots, so that they open."
SOLO = "Clip the allowance at the inner corner at dot 2, almost to the dot, so that it opens."
SCISSORS = "Small pointed scissors, to clip allowances"


def block_of(name, size=0):
    (block,) = corpus.plan_of(PATTERNS / name).sizes[size].blocks
    return block


def clips(block):
    return [[words for words in card.sentences if "Clip" in words] for card in block.cards]


def signs(name, monkeypatch):
    """The signs of all pictures of steps and threads of a pattern's first size."""
    plan, caught = corpus.plan_of(PATTERNS / name), []
    monkeypatch.setattr(svg, "render", lambda scene: caught.append(scene) or "")
    album = drawn(plan)(plan.sizes[0], LARGE)
    for card in album.cards():
        album.figure(card)
    for row in album.rows:
        album.series(row)
    return [i for scene in caught for i in scene.items if isinstance(i, Sign)]


def test_an_inner_corner_points_out_between_its_sides():
    """An L: its one inner corner opens to the upper right, 45 degrees clockwise from up."""
    ell = ((0, 0), (1, 0), (1, 1), (2, 1), (2, 2), (0, 2))
    assert inward_corners(ell) == {(1, 1): 45}
    assert inward_corners(((0, 0), (1, 0), (1, 1), (0, 1))) == {}


def test_each_turn_of_two_crosses_is_in_the_inner_corner_of_one():
    """Two crosses meet along three sides, with two turns: at one the first has its inner corner, at the other the second.
    Two pairs meet along six sides: four turns, and half way a crossing where the line goes straight on."""
    assert clips(block_of("crosses_in_lattice")) == [
        [TWO.format("2 and 3")],
        [TWO.format("2 and 3")],
        [TWO.format("2 to 5")],
    ]


def test_a_corner_that_a_seam_opens_is_not_clipped():
    """Hexagons and diamonds have no inner corners."""
    for name in ("hexagon_rosette", "star_6"):
        assert not any(clips(block_of(name)))


def test_a_dart_is_clipped_before_the_kite_goes_in(tmp_path):
    """A dart (its notch 1 below its tip) and the square that fills the notch: one turn, at the dart's inner corner."""
    (tmp_path / "pattern.yaml").write_text(
        """\
title: Dart
sizes: {one: {unit: 2 in, blocks: 1}}
fabrics: {a: {name: A, colour: "#aa3322"}, b: {name: B, colour: "#e9dcc3"}}
blocks:
  dart:
    pieces:
      - {id: d, corners: [[0, 0], [2, 0], [2, 2], [1, 2], [1, 1], [0, 1]], fabric: a}
      - {id: s, corners: [[0, 1], [1, 1], [1, 2], [0, 2]], fabric: b}
""",
        encoding="utf-8",
    )
    (size,) = compiler.plan(compiler.check(tmp_path).value).sizes
    assert clips(size.blocks[0]) == [[SOLO]]
    assert SCISSORS in map(str, tools((size,), Words(words_of("en")), Paper.LETTER))


def test_the_picture_shows_where_to_clip(monkeypatch):
    """Step 1 and 2: two inner corners each; step 3: four. The fork points out of the corner."""
    found = [sign for sign in signs("crosses_in_lattice", monkeypatch) if sign.mark is Mark.CLIP]
    assert len(found) == 8
    assert {sign.angle % 90 for sign in found} == {45}


def test_over_papers_nothing_is_opened_clipped_or_passed_through(monkeypatch):
    """Edges folded over papers are whip-stitched: no allowance lies in a seam."""
    marks = {sign.mark for sign in signs("over_papers", monkeypatch)}
    assert Mark.DOT in marks
    assert not marks & {Mark.OPENED, Mark.CLIP, Mark.THROUGH}


def test_a_ring_that_threads_close_is_clipped_and_spread_where_they_meet(monkeypatch):
    """Of the two patches of the frame each has four inner corners: where a cube turns outward, not where two cubes meet or
    the patches share a corner. Steps 2, 3 and 6 set a diamond into one each, the last join meets the other five. There
    one thread sews the first seam and another all else: where the second comes to the first, a seam between cubes ends.
    """
    block = block_of("cubes_in_frame")
    caught: list = []
    monkeypatch.setattr(svg, "render", lambda scene: caught.append(scene) or "")
    plan = corpus.plan_of(PATTERNS / "cubes_in_frame")
    album = drawn(plan)(plan.sizes[0], LARGE)
    counts = []
    for card in block.cards:
        caught.clear()
        album.figure(f"step cubes {card.n}")
        marks = [i.mark for scene in caught for i in scene.items if isinstance(i, Sign)]
        counts.append(marks.count(Mark.CLIP))
    assert counts == [0, 1, 1, 0, 0, 1, 0, 5]
    said = " ".join(map(str, block.cards[-1].sentences))
    assert "Clip the allowance of a patch at its inner corner" in said
    assert "Where two strokes part at a dot, spread the earlier seams open there" in said
    last = block.cards[-1].step
    # ten seams, ten corners: at three the line of sewing goes straight on, seven turn; one lies where the threads meet
    assert last.turns == 7 > sum(len(run.turns) for run in last.runs)
