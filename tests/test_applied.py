"""Shapes laid on a block: what of their edges is covered, how they are cut, and how they are sewn down."""

import math
import random
import re
from functools import cache
from pathlib import Path

import corpus
import pytest
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import unary_union

from booklet.drawing.guides import guide_of
from booklet.drawing.ink.fills import looks_of
from booklet.drawing.layer import layer_figure
from booklet.drawing.quilts.quilt import colouring_figure, cover_figure
from booklet.drawing.templates.template_pages import templates_of
from booklet.exports.machines.flat import flat_sheet
from booklet.facts import facts
from booklet.geometry.overlay import covered_stretches, notch, thin_place
from booklet.geometry.placing.ribbons import ribbon
from booklet.kit.measure import Length
from booklet.kit.outlines.plane import box_of, length_of
from booklet.pages.pictures.figures import LARGE
from booklet.pages.views.cards import card_rows
from booklet.pattern import By
from booklet.plan.cards.laid_on import threads_of, web_length
from booklet.recipe import compiler

PATTERNS = Path(__file__).parent / "patterns"
CIRCLE, LEAVES = PATTERNS / "circle_on_a_square", PATTERNS / "leaves_over_leaves"
GROUND = """\
title: Night garden
sizes:
  mat: {title: Mat, unit: 1 in, blocks: 3}
fabrics:
  ink: {name: Ink, colour: "#243b6b"}
  sand: {name: Sand, colour: "#e9dcc3"}
  red: {name: Red, colour: "#aa3322"}
blocks:
  night:
    size: 6 x 6
    pieces: [{id: sky, fabric: ink, corners: [[0, 0], [6, 0], [6, 6], [0, 6]]}]
    applied:
"""


@cache
def plan_of(folder):
    checked = compiler.check(folder)
    assert checked.value is not None, checked.diagnostics
    (size,) = compiler.plan(checked.value).sizes
    return size


@cache
def looks_in(folder):
    """The looks of the cloths of a pattern."""
    return looks_of(compiler.plan(compiler.check(folder).value))


def planned(tmp_path, applied, ground=GROUND):
    """The plan of a block with these shapes."""
    lines = "".join(f"      - {{{entry}}}\n" for entry in applied)
    (tmp_path / "pattern.yaml").write_text(ground + lines, encoding="utf-8")
    checked = compiler.check(tmp_path)
    assert checked.value is not None, checked.diagnostics
    (size,) = compiler.plan(checked.value).sizes
    return size


def box(x, y, width, height):
    return f'outline: "M {x} {y} H {x + width} V {y + height} H {x} Z"'


@pytest.mark.parametrize(("later", "is_hidden"), [(3.9, False), (3.94, True)])
def test_a_shape_of_which_less_than_a_fiftieth_is_seen_is_hidden(tmp_path, later, is_hidden):
    """Of 4 square inches 0.1 are seen beside a later shape 3.9 in long, 2.5 in a hundred; beside one of 3.94 in 1.5."""
    shapes = f"      - {{id: a, {box(1, 1, 4, 1)}, fabric: sand}}\n      - {{id: b, {box(1, 1, later, 1)}, fabric: red}}\n"
    (tmp_path / "pattern.yaml").write_text(GROUND + shapes, encoding="utf-8")
    codes = {found.code for found in compiler.check(tmp_path).diagnostics}
    assert ("hidden-shape" in codes) == is_hidden


def test_a_hidden_ring_is_one_fault(tmp_path):
    """Four leaves of one line under a square that covers them all: one slip, not four."""
    ring = (
        f"      - {{id: a, {box(2, 2, 1, 1)}, fabric: sand, ring: {{centre: [3, 3], times: 4}}}}\n"
    )
    over = f"      - {{id: b, {box(1, 1, 4, 4)}, fabric: red}}\n"
    (tmp_path / "pattern.yaml").write_text(GROUND + ring + over, encoding="utf-8")
    found = [d for d in compiler.check(tmp_path).diagnostics if d.code == "hidden-shape"]
    assert [d.follows for d in found] == [False, True, True, True]
    assert len({d.cause for d in found}) == 1


@pytest.mark.parametrize(
    ("entry", "code"),
    [
        ("id: leaf, at: nowhere, fabric: red", "wrong-kind"),
        ("id: leaf, fabric: {}", "wrong-kind"),
        ("id: sky, fabric: red", "duplicate-name"),
    ],
)
def test_a_shape_with_a_fault_is_laid_nowhere(tmp_path, entry, code):
    """It would lie outside the block: of that nothing is said, for nobody knows where it lies or of which cloth it is."""
    shape = f"      - {{{entry}, {box(7, 7, 2, 2)}}}\n"
    (tmp_path / "pattern.yaml").write_text(GROUND + shape, encoding="utf-8")
    assert [found.code for found in compiler.check(tmp_path).diagnostics] == [code]


# Edges


def test_a_third_of_an_edge_lies_under_a_later_shape(tmp_path):
    """A square of 3 in has an edge of 12 in. A later one lies on its right half inch: of the edge 3 in at the right and
    1/2 in at top and bottom are covered, 4 of 12 in; 8 are sewn down. Of the later one all 12 are."""
    size = planned(
        tmp_path, [f"{box(1, 1, 3, 3)}, fabric: sand", f"{box(3.5, 1, 2, 4)}, fabric: red"]
    )
    lower, upper = size.blocks[0].tiling.applied
    assert (lower.sewn, lower.flat) == (pytest.approx(8), pytest.approx(4))
    assert (upper.sewn, upper.flat) == (pytest.approx(12), 0)
    assert len(lower.seen) == len(lower.covered) == 1


@pytest.mark.parametrize(("x", "y"), [(1, 4), (4, 1)])
def test_wherever_shapes_lie_what_is_covered_counts_as_flat(tmp_path, x, y):
    """Of 1 1/2 x 1 in, 5 in round, a later one covers the left half inch: 1 in at the left, 1/2 in above and below."""
    size = planned(
        tmp_path,
        [f"{box(x, y, 1.5, 1)}, fabric: sand", f"{box(x - 0.5, y - 0.5, 1, 2)}, fabric: red"],
    )
    lower, _ = size.blocks[0].tiling.applied
    assert (lower.sewn, lower.flat) == (pytest.approx(3), pytest.approx(2))


def test_the_first_listed_lies_lowest(tmp_path):
    """The other way round the second is covered by nothing, and covers the first: 2 in wide, on it 1/2 x 3 in."""
    size = planned(
        tmp_path, [f"{box(3.5, 1, 2, 4)}, fabric: red", f"{box(1, 1, 3, 3)}, fabric: sand"]
    )
    lower, upper = size.blocks[0].tiling.applied
    assert (lower.piece.fabric, upper.flat) == ("red", 0)
    assert lower.flat == pytest.approx(3 + 0.5)  # its left side from 1 to 4, its top from 3.5 to 4


def test_a_circle_is_sewn_down_all_round():
    """A circle of radius 2 in: 2 pi 2 = 12.566 in, by chords no more than 0.002 in off the curve."""
    (shape,) = plan_of(CIRCLE).blocks[0].tiling.applied
    assert shape.sewn == pytest.approx(4 * math.pi, abs=0.01)
    assert shape.allowance is None
    assert shape.by is By.MACHINE


@pytest.mark.parametrize("seed", range(12))
def test_covered_edges_are_what_points_along_them_say(seed):
    """Points sampled along the edge of a random shape, each asked whether it lies under later ones."""
    dice = random.Random(seed)

    def leaf():
        x, y, r = dice.uniform(0, 4), dice.uniform(0, 4), dice.uniform(0.8, 2.0)
        turns = sorted(dice.uniform(0, 2 * math.pi) for _ in range(7))
        far = [r * dice.uniform(0.6, 1.0) for _ in turns]
        points = [
            (x + f * math.cos(t), y + f * math.sin(t)) for t, f in zip(turns, far, strict=True)
        ]
        return points if Polygon(points).is_valid and Polygon(points).area > 0.2 else leaf()

    shape, others = leaf(), [leaf() for _ in range(3)]
    covered, seen = covered_stretches(shape, others)
    ring, above = Polygon(shape).exterior, unary_union([Polygon(o) for o in others])
    samples = 4000
    under = sum(
        above.covers(Point(ring.interpolate((k + 0.5) / samples, normalized=True)))
        for k in range(samples)
    )
    assert sum(map(length_of, covered)) == pytest.approx(ring.length * under / samples, abs=0.02)
    assert sum(map(length_of, (*covered, *seen))) == pytest.approx(ring.length)


def test_edges_drawn_along_each_other_are_one_whatever_their_rounding(tmp_path):
    """A plate of twelve blades of 30 degrees from 1 to 4 in of its middle, its corners rounded to three decimals: every side
    of 3 in lies along a neighbour. The first blade has later ones on both sides and is sewn down at its ends only, 8 sin 15
    and 2 sin 15 degrees; every other one along one side more, the last along both."""
    blade = 'outline: "M -0.259 -0.966 L -1.035 -3.864 L 1.035 -3.864 L 0.259 -0.966 Z"'
    ground = GROUND.replace("6 x 6", "10 x 10").replace(
        "[[0, 0], [6, 0], [6, 6], [0, 6]]", "[[0, 0], [10, 0], [10, 10], [0, 10]]"
    )
    ring = "at: [5, 5], ring: {centre: [5, 5], times: 12}"
    (block,) = planned(tmp_path, [f"{blade}, fabric: red, {ring}"], ground).blocks
    ends = 10 * math.sin(math.radians(15))
    sewn = [shape.sewn for shape in block.tiling.applied]
    assert sewn == pytest.approx([ends, *[ends + 3] * 10, ends + 6], abs=0.005)


def test_a_notch_and_a_thin_place_are_found():
    """A notch 0.4 in wide is too tight for 1/4 in on either side, not for 3/16 in; a bar 0.4 in wide likewise."""
    flag = [(0, 0), (4, 0), (4, 1), (2, 1), (2, 1.4), (4, 1.4), (4, 3), (0, 3)]
    assert notch(flag, 0.25) is not None
    assert notch(flag, 0.1875) is None
    bar = [(0, 0), (0.4, 0), (0.4, 3), (0, 3)]
    assert thin_place(bar, 0.25) is not None
    assert thin_place(bar, 0.1875) is None


def test_a_right_angle_is_no_notch_and_a_tip_no_thin_place():
    corner = [(0, 0), (4, 0), (4, 2), (2, 2), (2, 4), (0, 4)]
    assert notch(corner, 0.25) is None
    leaf = [(0, 0), (1.5, 1), (3, 0), (1.5, -1)][::-1]
    assert thin_place(leaf, 0.25) is None


# Cutting


def test_letters_follow_those_of_the_pieces_and_mirror_images_share_one():
    """On paper pieces have numbers, so the leaf is A; the other leaf is its mirror image."""
    (block,) = plan_of(LEAVES).blocks
    lower, upper = (shape.piece for shape in block.tiling.applied)
    assert (lower.patch, lower.reversed, upper.patch, upper.reversed) == ("A", False, "A", True)
    assert {piece.patch for piece in block.tiling.pieces} == {"B1", "B2", "C1", "C2"}


def test_a_shape_does_not_share_the_letter_of_a_piece(tmp_path):
    """A square of 3 in laid on squares of 3 in has a letter of its own, for its allowance is another thing."""
    ground = GROUND.replace(
        "pieces: [{id: sky, fabric: ink, corners: [[0, 0], [6, 0], [6, 6], [0, 6]]}]",
        "grid: [[ink, sand], [sand, ink]]",
    )
    size = planned(tmp_path, [f"{box(1.5, 1.5, 3, 3)}, fabric: red"], ground)
    assert size.letters == ("A", "B")
    by_name = {patch.name: patch for patch in size.cutting.patches}
    assert not by_name["A"].is_applied
    assert by_name["B"].is_applied
    assert by_name["B"].outline.allowance == Length.of("1/4 in")


def test_a_turned_edge_is_cut_with_its_allowance(tmp_path):
    """3 in + 2 x 1/8 in = 3 1/4 in; one for each of 3 blocks."""
    size = planned(tmp_path, [f"{box(1, 1, 3, 3)}, fabric: red, allowance: 1/8 in"])
    (patch,) = (p for p in size.cutting.patches if p.is_applied)
    assert patch.cut == (Length.of("3 1/4 in"), Length.of("3 1/4 in"))
    assert (patch.pieces, patch.per_block) == (3, (("night", 1),))
    left, top, right, bottom = box_of(patch.outline.cut)
    assert (right - left, bottom - top) == (pytest.approx(3.25), pytest.approx(3.25))


def test_a_fused_shape_is_cut_roughly_and_its_template_is_reversed(tmp_path):
    """A corner piece 3 in wide, its long side left, without an allowance; on the cloth 1/4 in lies round it. Web: three of
    3 1/2 x 4 1/2 in side by side, 13 1/2 in of 17: 3 1/2 in of it."""
    shape = 'outline: "M 1 1 H 4 L 1 5 Z"'
    size = planned(tmp_path, [f"{shape}, fabric: red, allowance: none"])
    (patch,) = (p for p in size.cutting.patches if p.is_fused)
    assert patch.outline.cut == patch.outline.seam.points
    assert patch.pieces == 3
    (template,) = (t for t in templates_of(size) if t.letter == patch.name)
    left = {round(x / 25.4, 3) for x, y in template.cut if y / 25.4 > 3.9}
    assert left == {3.0}  # the lower corner lies at the right of what is printed
    assert template.cut == template.seam


def test_fusible_web_is_laid_in_rows():
    """Two circles of 4 in, each with 1/4 in round it, lie side by side on 17 in: 4 1/2 in of web. On 8 in they lie below
    each other and take twice as much."""
    assert web_length(plan_of(CIRCLE).cutting, Length.of(17)) == Length.of("4 1/2 in")
    assert web_length(plan_of(CIRCLE).cutting, Length.of(8)) == Length.of(9)


def test_cloth_is_bought_for_what_is_laid_on():
    """Two circles in a strip of 4 1/2 in, straightened by 1/2 in: 5 in, 1/4 yd."""
    (moon,) = (line for line in plan_of(CIRCLE).materials if line.fabric.id == "moon")
    assert (moon.buy, moon.use) == ("1/4 yd", ("B circle × 2",))


# Sewing


def test_a_block_of_one_patch_is_worked_on_where_shapes_are_laid_on_it():
    (block,) = plan_of(CIRCLE).blocks
    assert not block.is_sewn
    assert block.is_worked
    (card,) = block.layers
    assert (card.n, card.make, card.total) == (1, 1, 2)
    assert card.title == "Lay B (circle) on the block"


def test_alike_shapes_that_lie_clear_are_one_step_and_others_two(tmp_path):
    clear = planned(
        tmp_path, [f"{box(1, 1, 1, 1)}, fabric: red", f"{box(3, 1, 1, 1)}, fabric: red"]
    )
    assert [card.make for card in clear.blocks[0].layers] == [2]
    over = planned(tmp_path, [f"{box(1, 1, 2, 2)}, fabric: red", f"{box(2, 2, 2, 2)}, fabric: red"])
    assert [card.make for card in over.blocks[0].layers] == [1, 1]


def test_each_stretch_takes_its_own_thread(tmp_path):
    """A bar laid across a square parts its edge in two, of 4 in each: a thread of 18 in for each. With threads of 3 in each
    stretch takes two."""
    applied = [f"{box(1, 1, 3, 3)}, fabric: sand", f"{box(0.5, 2, 5, 1)}, fabric: red"]
    (block,) = planned(tmp_path, applied).blocks
    lower = block.tiling.applied[0]
    assert [round(length_of(path), 6) for path in lower.seen] == [5, 5]
    assert threads_of([lower], Length.of(18)) == 2
    assert threads_of([lower], Length.of(3)) == 4
    assert "That takes 2 threads of 18 in." in block.layers[0].sentences


def test_a_sitting_counts_the_edges(tmp_path):
    """By hand 1 in a minute, and a minute to lay it: 12 + 1 = 13 minutes a block, 3 blocks."""
    size = planned(tmp_path, [f"{box(1, 1, 3, 3)}, fabric: red"])
    (sitting,) = size.sittings
    assert sitting.minutes == pytest.approx(39)
    assert sitting.portions[0].laid


def test_the_facts_hold_what_is_laid_on():
    (size,) = facts(compiler.plan(compiler.check(CIRCLE).value))["sizes"].values()
    (shape,) = size["blocks"]["moon"]["applied"]
    assert (shape["patch"], shape["fabric"], shape["by"], shape["step"]) == (
        "B",
        "moon",
        "machine",
        1,
    )
    assert shape["sewn_in"] == pytest.approx(4 * math.pi, abs=0.01)
    assert "allowance_in" not in shape
    assert size["fusible_web_in"] == [17, 4.5]
    assert [row["count"] for row in size["quilt"]["patches"] if row["letter"] == "B"] == [2]


# Pictures


def test_what_is_laid_on_is_painted_last():
    """On the cover the moon comes after the night; where it is to be coloured, it hides what it lies on."""
    size = plan_of(CIRCLE)
    svg = cover_figure(size, looks_in(CIRCLE)).svg
    assert svg.rindex("#f2e9d0") > svg.rindex("#2b2d42")
    assert 'fill="#ffffff"' in colouring_figure(size).svg


def test_the_picture_of_a_layer_says_what_is_left_flat():
    size = plan_of(LEAVES)
    (block,) = size.blocks
    looks = looks_in(LEAVES)
    lower, upper = (layer_figure(block, card, looks, 80.0, 80.0) for card in block.layers)
    assert "left flat" in lower.alt
    assert "left flat" not in upper.alt


def test_the_guide_is_the_block_at_full_size():
    """20 cm and an allowance of 0.75 cm on every side: 215 mm; and every edge of the leaves is drawn."""
    size = plan_of(LEAVES)
    (block,) = size.blocks
    guide = guide_of(size, block)
    left, top, right, bottom = box_of(guide.cut)
    assert (right - left, bottom - top) == (pytest.approx(215), pytest.approx(215))
    assert (len(guide.cells), guide.cells[0].text, guide.cells[1].text) == (2, "A", "Ar")
    drawn = sum(length_of(stroke) for stroke in guide.strokes) / 25.4
    seen = sum(shape.sewn for shape in block.tiling.applied)
    flat = sum(shape.flat for shape in block.tiling.applied)
    assert seen < drawn < seen + flat  # dashes leave gaps


def test_layers_have_cards_of_their_own():
    """The card of a layer follows those of the steps."""

    class Album:
        def figure(self, name):
            return None

    from booklet.pages.pictures.figures import Room

    size = plan_of(LEAVES)
    (block,) = size.blocks
    room = next(iter(_rooms(Room)))
    numbers = [card.n for row in card_rows(block, Album(), room) for card in row.cards]
    assert numbers == list(range(1, len(block.cards) + 3))


def _rooms(kind):
    from booklet.pages.pictures import figures

    return [value for value in vars(figures).values() if isinstance(value, kind)]


# Stems


def test_a_stem_is_a_ribbon_along_its_line(tmp_path):
    """A quarter circle of radius 3 in: pi 3 / 2 = 4.712 in. The ribbon is 3/8 in wide, so its area is 1.767 sq in, and its
    edges are quarter circles of 3 3/16 and 2 13/16 in, together as long as two of 3 in."""
    size = planned(tmp_path, ["stem: M 1 5 A 3 3 0 0 1 4 2, width: 3/8 in, fabric: red"])
    (stem,) = size.blocks[0].tiling.applied
    assert stem.is_stem
    assert stem.stem_length == pytest.approx(3 * math.pi / 2, abs=0.003)
    assert Polygon(stem.piece.outline.points).area == pytest.approx(4.712 * 0.375, abs=0.005)
    assert stem.sewn == pytest.approx(2 * 4.712 + 2 * 0.375, abs=0.01)


@pytest.mark.parametrize("seed", range(6))
def test_a_ribbon_is_what_a_buffer_makes(seed):
    """The same as shapely's buffer with flat ends, of random bends wide enough for it."""
    dice = random.Random(seed)
    line = [(0.1 * k, 0.6 * math.sin(0.1 * k + dice.uniform(-0.002, 0.002))) for k in range(60)]
    ours = Polygon(ribbon(line, 0.4).points)
    theirs = LineString(line).buffer(0.2, cap_style="flat", quad_segs=32)
    assert ours.is_valid
    assert ours.symmetric_difference(theirs).area < 0.004 * theirs.area


def test_a_stem_is_cut_on_the_bias(tmp_path):
    """Folded 3/8 in: cut 3/4 in wide. Long: 4.712 + 2 x 1/4 = 5.212 in, and 3/4 in more for the slanting ends:
    5.962 / sqrt 2 = 4.216, up to 4 1/4 in of cloth. Three stems, one for each block."""
    size = planned(tmp_path, ["stem: M 1 5 A 3 3 0 0 1 4 2, width: 3/8 in, fabric: red"])
    (patch,) = (p for p in size.cutting.patches if p.is_applied)
    assert patch.cut == (Length.of("4 1/4 in"), Length.of("3/4 in"))
    assert (patch.pieces, patch.angle, patch.outline) == (3, 45.0, None)
    assert patch.name not in {template.letter for template in templates_of(size)}
    (strip,) = next(cloth for cloth in size.cutting.fabrics if cloth.fabric == "red").strips
    for placed in strip.layouts[0]:
        usable = _longest_within(placed.outline, 0.75)
        assert usable >= 3 * math.pi / 2 + 0.5 - 0.001


def _longest_within(outline, width):
    """The length of the rectangle so wide that lies in a parallelogram of that width with slanting ends."""
    above, below = outline[1], outline[2]
    lean = math.atan2(below[1] - above[1], abs(below[0] - above[0]))
    return math.dist(above, below) - width / math.tan(lean)


def test_stems_of_a_print_with_an_up_may_lie_as_they_come():
    """A stem turns with its line, so the print has no up in it: no piece is bound, mirrored ones are plain ones."""
    size = plan_of(PATTERNS / "stem_and_bud")
    stem = size.blocks[0].tiling.applied[0]
    assert not stem.piece.reversed
    assert "Lay it along its line" in " ".join(size.blocks[0].layers[0].sentences)


def test_a_fused_shape_is_one_line_for_a_machine_that_cuts(tmp_path):
    """Its cutting line is its seam line: drawn twice it would be cut twice."""
    size = planned(tmp_path, ['outline: "M 1 1 H 4 L 1 5 Z", fabric: red, allowance: none'])
    (fused,) = (flat for flat in flat_sheet(size).templates if flat.letter == "B")
    assert fused.cut
    assert not fused.seam


def test_the_way_up_is_mirrored_with_a_reversed_template(tmp_path):
    """Two are laid. The template is drawn as the first lies: up is up. For the second, a quarter turned
    to the right, the top of the print lies at the left of the shape, at 270 degrees; mirrored, at the right, at 90."""
    ground = GROUND.replace('colour: "#aa3322"', 'colour: "#aa3322", direction: one-way')
    shape = 'outline: "M 2 1 H 3 L 2 2.5 Z", fabric: red, allowance: none, turn: 0'
    turned = shape.replace("turn: 0", "at: [6, 0], turn: 90")
    size = planned(tmp_path, [shape, turned], ground)
    (template,) = (t for t in templates_of(size) if t.letter == "B")
    ways = sorted(way for row in template.ups for way, _ in row.ways)
    assert ways == [0, 90]


def test_papers_come_out_before_anything_is_laid_on():
    """The last step of the ground does not ask to leave them in, and the first layer has them torn out."""
    (block,) = plan_of(LEAVES).blocks
    assert not any("Leave the rest of the paper in" in line for line in block.cards[-1].sentences)
    first = block.layers[0].sentences[0]
    assert first == "Tear the papers out and press the block before anything is laid on it."
    assert not any("papers" in line for line in block.layers[1].sentences)


def test_a_stem_too_thin_for_its_letter_has_it_at_the_end_of_a_leader():
    """At 1 : 2.5 a stem of 3/8 in is 3.8 mm wide: the plate of a letter with its room is 4.4 mm at the least."""
    folder = corpus.HERE / "patterns" / "stem_and_bud"
    (size,) = corpus.plan_of(folder).sizes
    (block,) = size.blocks
    stem, bud = (
        corpus.figures_of(folder)(size, LARGE).figure(f"step bud {card.n}").svg
        for card in block.all_cards
    )
    assert re.findall(r">([A-C])</text>", stem) == ["B"] and re.findall(
        r">([A-C])</text>", bud
    ) == ["C"]
    assert 'text-anchor="end"' in stem and 'text-anchor="end"' not in bud
