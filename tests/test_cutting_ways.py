"""Ways to cut one cloth: borders along the selvedge or across, mirrored pairs from folded cloth."""

from __future__ import annotations

import pytest
from builders import METHODS
from cutting_helpers import cut_text, inches, pattern_text, plan_of

from booklet.source.reader import read_folder

from shapely import Polygon  # isort: skip

L = inches
INK = '  ink: {name: Ink, colour: "#224466"}'


def bordered(tmp_path, cut, width="5 in", blocks="5 x 6", binding="", fabric=INK, corners="butted"):
    border = f"{{width: {width}, fabric: ink, cut: {cut}, corners: {corners}}}"
    quilt = f"quilt:\n  set: straight\n  borders: [{border}]\n{binding}"
    sand = '  sand: {name: Sand, colour: "#eeddcc"}'
    piece = "      - {id: a, patch: p, fabric: sand, at: [6, 6]}\n      - {id: b, patch: s, fabric: ink, at: [6, 15]}"
    shapes = "  p: {shape: square, side: 12}\n  s: {shape: rectangle, width: 12, height: 6}"
    text = pattern_text(f"{fabric}\n{sand}", shapes, piece, blocks, quilt)
    return plan_of(tmp_path, text)


def of(plan, fabric="ink"):
    return next(cloth for cloth in plan.fabrics if cloth.fabric == fabric)


def names(plan, method):
    return [patch.name for patch in plan.patches if patch.method is method]


def inside(cloth):
    """Every cut lies in its strip and in the cloth, and no two overlap."""
    for strip in cloth.strips:
        for start, layout in zip(strip.starts, strip.layouts, strict=True):
            shapes = [Polygon(placed.outline) for placed in layout]
            for shape in shapes:
                left, top, right, bottom = shape.bounds
                assert left >= -1e-6 and right <= float(cloth.width) + 1e-6
                assert top >= start - 1e-6 and bottom <= start + float(strip.width) + 1e-6
            for i, one in enumerate(shapes):
                assert all(one.intersection(other).area < 1e-6 for other in shapes[i + 1 :])


def test_lengthwise_borders_lie_side_by_side_along_the_selvedge(tmp_path):
    # blocks 12 x 18, 5 x 6 of them: 60 x 108; sides 108 1/2, top and bottom 70 1/2; 4 x 5 1/2 across = 22
    cloth = of(plan := bordered(tmp_path, "lengthwise"))
    assert names(plan, METHODS["strip along the selvedge"]) == [
        "border 1 top and bottom",
        "border 1 sides",
    ]
    first = cloth.strips[0]
    assert first.lengthwise and first.width == L("108 1/2")
    inside(cloth)
    # beside them 18 in: 12 1/2 x 6 1/2 lies there once across; 30 of them take 16 rows and 14 more
    beside = [placed for placed in first.layouts[0] if placed.name == "A"]
    assert len(beside) >= 16
    assert all(min(x for x, _ in placed.outline) >= 22 for placed in beside)


def test_across_borders_are_joined(tmp_path):
    plan = bordered(tmp_path, "across")
    assert names(plan, METHODS["strip along the selvedge"]) == []
    assert not of(plan).strips[0].lengthwise


def test_auto_takes_whichever_is_less(tmp_path):
    for width in ("2 in", "5 in", "9 in"):
        amounts = {
            cut: of(bordered(tmp_path, cut, width)).buy.yards
            for cut in ("lengthwise", "across", "auto")
        }
        assert amounts["auto"] == min(amounts.values())


def test_four_alike_sides_may_take_less_lengthwise(tmp_path):
    # a top 36 x 36, mitred sides 36 + 2 x 9 1/2 + 2 = 57; four of 10 in fill 40 in: 57 in of cloth.
    # Across: 4 strips and 4 ends of 17 1/2, two in a strip: 6 strips of 10 in
    plan = bordered(tmp_path, "auto", "9 1/2 in", "3 x 2", corners="mitred")
    assert names(plan, METHODS["strip along the selvedge"]) == [
        "border 1 top and bottom",
        "border 1 sides",
    ]


def test_binding_lies_beside_lengthwise_borders(tmp_path):
    binding = "  binding: {width: 2 1/2 in, fabric: ink}\n"
    plan = bordered(tmp_path, "lengthwise", binding=binding)
    assert "binding" in names(plan, METHODS["strip along the selvedge"])
    # 70 x 118 in: 376 in and corners; 4 strips of 108 1/2 in give 4 * 108 1/2 - 4 joins
    assert plan.pieces("binding") == 4
    inside(of(plan))
    plain = of(bordered(tmp_path, "lengthwise")).length
    assert of(plan).length - plain < 10 * L("2 1/2")  # less than 10 strips across


def test_precuts_are_never_cut_lengthwise(tmp_path):
    fat = '  ink: {name: Ink, colour: "#224466", kind: fat quarter}'
    plan = bordered(tmp_path, "lengthwise", "2 in", "1 x 1", fabric=fat)
    assert names(plan, METHODS["strip along the selvedge"]) == []


SHAPES = """\
  sail: {shape: polygon, corners: [[0, 0], [3, 0], [2, 4], [0, 4]]}
  fin: {shape: polygon, corners: [[3, 0], [4, 4], [2, 4]]}"""
PIECES = """\
      - {id: left, patch: sail, fabric: ink, at: [0, 0]}
      - {id: right, patch: sail, fabric: ink, flip: yes, at: [6, 0]}
      - {id: mid, patch: fin, fabric: sand, at: [0, 0]}"""


def sails(tmp_path, direction="any", turn=0, blocks="5 x 8"):
    """Blocks with a sail and its mirror image either side of a fin."""
    ink = f'  ink: {{name: Ink, colour: "#224466", direction: {direction}}}'
    sand = '  sand: {name: Sand, colour: "#eeddcc"}'
    pieces = PIECES
    if turn:  # the right one is turned upside down: no longer the mirror image on the cloth
        pieces = """\
      - {id: left, patch: sail, fabric: ink, at: [0, 0]}
      - {id: right, patch: sail, fabric: ink, flip: yes, turn: 180, at: [0, 8]}
      - {id: mid, corners: [[3, 0], [3, 8], [2, 4]], fabric: sand}"""
    return plan_of(tmp_path, pattern_text(f"{ink}\n{sand}", SHAPES, pieces, blocks))


def sail_of(plan):
    return next(patch for patch in plan.patches if patch.fabric == "ink")


def folded(plan):
    return [strip for strip in of(plan).strips if strip.folded]


def test_a_patch_mirrored_equally_often_is_cut_in_pairs(tmp_path):
    plan = sails(tmp_path)
    sail = sail_of(plan)
    assert (sail.pieces, sail.reversed, sail.pairs) == (80, 40, 40)  # 40 blocks
    strips = folded(plan)
    assert sum(use.pieces for strip in strips for use in strip.uses) == 80
    inside(of(plan))
    for strip in strips:  # every cut has its mirror image on the other side of the fold
        for layout in strip.layouts:
            left = {corners(placed.outline) for placed in layout}
            right = {corners(tuple((40 - x, y) for x, y in placed.outline)) for placed in layout}
            assert left == right


def corners(points):
    return frozenset((round(x, 6), round(y, 6)) for x, y in points)


def test_folded_cloth_never_costs_more(tmp_path):
    for blocks in ("1 x 1", "2 x 3", "3 x 5", "5 x 8", "9 x 9"):
        plan = sails(tmp_path, blocks=blocks)
        assert plan.fabrics[0].lower_bound <= plan.fabrics[0].length


def test_a_print_with_an_up_stays_upright_on_cloth_folded_along_the_selvedge(tmp_path):
    plan = sails(tmp_path, "one-way")
    assert [patch.pairs for patch in plan.patches if patch.fabric == "ink"] == [40, 40]
    for strip in folded(plan):
        for layout in strip.layouts:
            for placed in layout:  # as in the block: the long side is on top
                top = min(y for _, y in placed.outline)
                bottom = max(y for _, y in placed.outline)
                upper = [x for x, y in placed.outline if y < top + 1e-6]
                lower = [x for x, y in placed.outline if y > bottom - 1e-6]
                assert max(upper) - min(upper) > max(lower) - min(lower)
    assert folded(plan)


def test_a_print_with_an_up_is_not_folded_where_that_would_turn_it(tmp_path):
    plan = sails(tmp_path, "one-way", turn=180)
    assert not folded(plan)
    assert [patch.pairs for patch in plan.patches if patch.fabric == "ink"] == [0, 0]
    assert all(patch.no_fold for patch in plan.patches if patch.fabric == "ink")


def test_precuts_and_single_pieces_are_not_folded(tmp_path):
    fat = '  ink: {name: Ink, colour: "#224466", kind: fat quarter}'
    sand = '  sand: {name: Sand, colour: "#eeddcc"}'
    plan = plan_of(tmp_path, pattern_text(f"{fat}\n{sand}", SHAPES, PIECES, "2 x 2"))
    assert not folded(plan)


def test_what_does_not_fit_on_half_the_width_is_not_folded(tmp_path):
    # a sail is cut more than 3 1/2 in wide and 4 1/2 in high: on cloth of 7 in one fits, on half of it none
    ink = '  ink: {name: Ink, colour: "#224466", width: 7 in}'
    sand = '  sand: {name: Sand, colour: "#eeddcc"}'
    plan = plan_of(tmp_path, pattern_text(f"{ink}\n{sand}", SHAPES, PIECES, "2 x 2"))
    assert not folded(plan) and sail_of(plan).pairs == 0
    inside(of(plan))


def test_a_sash_is_a_rectangle_a_cornerstone_a_square_and_the_fullest_strip_is_cut_first(tmp_path):
    # 4 x 5 blocks: 3 x 5 + 4 x 4 = 31 sashes and 3 x 4 = 12 cornerstones between them; 20 squares of 2 1/2 in, of which
    # 16 lie across 40 in and 4 are left
    sand = '  sand: {name: Sand, colour: "#eeddcc"}'
    quilt = "quilt:\n  sashing: {width: 1 in, fabric: sand, cornerstones: sand}\n"
    piece = "      - {id: a, patch: p, fabric: ink, at: [1, 1]}"
    square = "  p: {shape: square, side: 2}"
    plan = plan_of(tmp_path, pattern_text(f"{INK}\n{sand}", square, piece, "4 x 5", quilt))
    assert [(line.name, line.method, line.pieces) for line in plan.patches] == [
        ("A", METHODS["square"], 20),
        ("sash", METHODS["rectangle"], 31),
        ("cornerstone", METHODS["square"], 12),
    ]
    assert [len(layout) for strip in of(plan).strips for layout in strip.layouts] == [16, 4]


@pytest.mark.parametrize("wish", ["lenghtwise", "3"])
def test_an_unknown_cut_is_a_fault(tmp_path, wish):
    with pytest.raises(AssertionError):
        bordered(tmp_path, wish)


def faults_of(tmp_path, text):
    return [d.message for d in cut_text(tmp_path, text).diagnostics if d.code == "wider-than-cloth"]


def test_what_no_precut_is_high_enough_for_is_a_fault(tmp_path):
    strips = '  ink: {name: Ink, colour: "#224466", kind: strips 2 1/2 in}'
    piece = "      - {id: a, patch: p, fabric: ink, at: [2, 2]}"
    quilt = "quilt:\n  set: straight\n  binding: {width: 3 in, fabric: ink}\n"
    text = pattern_text(strips, "  p: {shape: square, side: 4}", piece, "2 x 2", quilt)
    high, patch = sorted(faults_of(tmp_path, text))
    assert high.startswith("`binding` needs a strip of `3 in`, but a 2 1/2 in strip of `ink`")
    assert "needs a strip of `4 1/2 in`" in patch


def test_a_motif_wider_than_the_cloth_is_a_fault(tmp_path):
    rose = '  ink: {name: Ink, colour: "#224466", repeat: {across: 6 in, along: 6 in, drop: half}}'
    piece = "      - {id: a, patch: p, fabric: ink, at: [25, 25]}"
    text = pattern_text(rose, "  p: {shape: square, side: 50, motif: yes}", piece)
    assert len(faults_of(tmp_path, text)) == 1


def test_a_drop_is_half_or_a_length(tmp_path):
    for drop, lower in (("half", "4"), ("3 in", "3"), ("0", "0")):
        rose = f'  ink: {{name: I, colour: "#224466", repeat: {{across: 6 in, along: 8 in, drop: {drop}}}}}'
        (tmp_path / "pattern.yaml").write_text(
            pattern_text(rose, "  p: {shape: square, side: 2, motif: yes}", PIECE), encoding="utf-8"
        )
        pattern = read_folder(tmp_path).value
        assert pattern is not None
        assert pattern.sizes[0].fabrics["ink"].drop == L(lower)
    rose = '  ink: {name: I, colour: "#224466", repeat: {across: 6 in, along: 8 in, drop: quarter}}'
    text = pattern_text(rose, "  p: {shape: square, side: 2, motif: yes}", PIECE)
    (tmp_path / "pattern.yaml").write_text(text, encoding="utf-8")
    (fault,) = read_folder(tmp_path).diagnostics
    assert (fault.code, fault.hint) == ("wrong-kind", "write `drop: half`")


PIECE = "      - {id: a, patch: p, fabric: ink, at: [1, 1]}"


def test_of_equal_amounts_the_way_with_fewest_joins_is_taken(tmp_path):
    """A top of 24 x 60 in with a border of 2 in, its long sides 60 1/2 in: across, from 40 in wide cloth, two whole strips and two
    of 21 in, each joined to one, and the short sides of 28 1/2: no two of these lie in one strip, 6 x 2 1/2 + 1/2 = 15 1/2 in, 1/2 yd.
    Along the selvedge all four lie side by side in 61 in. Of a cloth sold by 2 yd either takes 2 yd, and strips in one piece win."""
    text = """
title: Runner
units: inch
sizes: {{a: {{unit: 6 in, blocks: 4 x 10}}}}
fabrics: {{a: {{colour: red}}, x: {{colour: navy, sold by: {step}}}}}
blocks: {{b: {{grid: [[a]]}}}}
quilt: {{arrange: [[b]], borders: [{{width: 2 in, fabric: x}}]}}
"""
    joined = plan_of(tmp_path, text.format(step="1/8 yd"), "a")
    whole = plan_of(tmp_path, text.format(step="2 yd"), "a")
    assert (of(joined, "x").buy.yards_text, len(joined.joins)) == ("1/2", 1)
    assert (of(whole, "x").buy.yards_text, len(whole.joins)) == ("2", 0)
