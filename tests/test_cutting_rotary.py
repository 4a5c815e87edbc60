"""Rotary methods: the figures of every form, with the sum beside the number; grain and prints with an up."""

from __future__ import annotations

import pytest
from builders import METHODS
from cutting_helpers import cut_text, inches, pattern_text, plan_of

INK = '  ink: {name: Ink, colour: "#224466"}'
SAND = '  sand: {name: Sand, colour: "#eeddcc"}'


def patch(tmp_path, shape, turn="", fabric=INK, at="[3, 3]", blocks="1"):
    """The cutting line of a block of one patch."""
    piece = f"      - {{id: a, patch: p, fabric: ink, at: {at}{turn}}}"
    text = pattern_text(fabric, f"  p: {shape}", piece, blocks)
    return plan_of(tmp_path, text).patches[0]


@pytest.mark.parametrize(
    ("shape", "method", "cut", "sum"),
    [
        (
            "{shape: square, side: 3}",
            METHODS["square"],
            ("3 1/2", "3 1/2"),
            "3 finished + 1/2 = 3 1/2",
        ),
        (
            "{shape: rectangle, width: 2 1/2, height: 5}",
            METHODS["rectangle"],
            ("2 1/2", "5"),
            "2 1/2 finished + 1/2 = 3; 5 finished + 1/2 = 5 1/2",
        ),
        (
            "{shape: half-square triangle, side: 3}",
            METHODS["half-square triangles"],
            ("3 7/8", "3 7/8"),
            "3 finished + 7/8 = 3 7/8",
        ),
        (
            "{shape: quarter-square triangle, base: 4}",
            METHODS["quarter-square triangles"],
            ("5 1/4", "5 1/4"),
            "4 finished + 1 1/4 = 5 1/4",
        ),
        (  # 1:2 triangle: + 0.6545 and + 1.3090, rounded up to 3/4 and 1 3/8
            "{shape: right triangle, width: 2, height: 4}",
            METHODS["half-rectangle triangles"],
            ("2 3/4", "5 3/8"),
            "2 finished + 3/4 = 2 3/4; 4 finished + 1 3/8 = 5 3/8",
        ),
        (  # 3 s on the height, 2 √3 s on the side, both rounded up, the side by more than a mark
            "{shape: equilateral triangle, side: 4}",
            METHODS["triangles from a strip"],
            ("4 1/4", "5"),
            "3.46 finished + 0.75 = 4.21, rounded up 4 1/4; 4 finished + 0.87 = 4.87, rounded up 5",
        ),
        (  # 2 in sides at 45 degrees: 1.41 high
            "{shape: diamond, side: 2, angle: 45, grain: side 1}",
            METHODS["diamonds from a strip"],
            ("2", "2"),
            "1.41 finished + 0.5 = 1.91, by template from 2",
        ),
        (
            "{shape: parallelogram, base: 4, height: 2, shift: 2}",
            METHODS["parallelograms from a strip"],
            ("2 1/2", "3 3/8"),
            "2 finished + 1/2 = 2 1/2; 2.83 finished + 0.5 = 3.33, by template from 3 3/8",
        ),
        (
            "{shape: trapezoid, base: 4, top: 2, height: 1}",
            METHODS["trapezoids from a strip"],
            ("1 1/2", "5 1/4"),
            "1 finished + 1/2 = 1 1/2; 4 finished + 1 1/4 = 5 1/4",
        ),
        (
            "{shape: hexagon, side: 2}",
            METHODS["hexagons from a strip"],
            ("4", "4 5/8"),
            "3.46 finished + 0.5 = 3.96, rounded up 4; 4 finished + 5/8 = 4 5/8",
        ),
        (  # drawn round a template: 5 √2 = 7.071 long, 1.05 √2 = 1.4849 wide. Half angles of 22.38 and 8.03 degrees at its ends
            # add 1/4 / sin 22.38 + 1/4 / sin 8.03 = 2.446; across 2 x 0.257 = 0.514: 9.517 and 1.9989, no more than 2
            "{shape: kite, length: 5*sqrt(2), width: 1.05*sqrt(2), cross: 2.55/sqrt(2)}",
            METHODS["kites from a strip"],
            ("9 5/8", "2"),
            "7.07 finished + 2.45 = 9.52, rounded up 9 5/8; 1.485 finished + 0.514 = 1.999, rounded up 2",
        ),
        (  # 2 (1 + √2) = 4.83 across
            "{shape: octagon, side: 2}",
            METHODS["octagons from a square"],
            ("5 3/8", "5 3/8"),
            "4.83 finished + 0.5 = 5.33, by template from 5 3/8",
        ),
    ],
)
def test_methods(tmp_path, shape, method, cut, sum):
    made = patch(tmp_path, shape)
    assert made.method is method
    if method == METHODS["rectangle"]:
        assert {str(x) for x in made.cut} == {"3", "5 1/2"}
        assert all(part in made.sum for part in sum.split("; "))
        return
    if method == METHODS["half-rectangle triangles"]:
        assert {str(x) for x in made.cut} == set(cut)
        assert sorted(made.sum.split("; ")) == sorted(sum.split("; "))
        return
    assert tuple(str(x) for x in made.cut) == cut
    assert made.sum == sum
    assert all(float(c) >= e - 1e-9 for c, e in zip(made.cut, made.exact, strict=True))


def test_an_elongated_hexagon_takes_a_template(tmp_path):
    made = patch(tmp_path, "{shape: elongated hexagon, side: 2}")
    assert made.method == METHODS["template"]
    assert made.outline is not None


def test_a_grain_that_no_method_gives_takes_a_template(tmp_path):
    assert patch(tmp_path, "{shape: square, side: 3, grain: 45}").method == METHODS["template"]
    # half way between leg and long side: neither two nor four from a square
    assert (
        patch(tmp_path, "{shape: half-square triangle, side: 3, grain: 20}").method
        == METHODS["template"]
    )


def test_grain_chooses_between_two_and_four_triangles_from_a_square(tmp_path):
    two = patch(tmp_path, "{shape: half-square triangle, side: 4, grain: side 2}")
    four = patch(tmp_path, "{shape: half-square triangle, side: 4, grain: side 1}")
    assert (two.method, str(two.cut[0])) == (METHODS["half-square triangles"], "4 7/8")
    # the long side is 4 √2 = 5.66: 5.66 + 1.21 = 6.86, rounded up 6 7/8
    assert (four.method, str(four.cut[0])) == (METHODS["quarter-square triangles"], "6 7/8")


def test_the_rim_chooses_where_nobody_asked(tmp_path):
    """Common practice: the straight grain on the outside edge of the block."""
    triangles = "\n".join(
        f"      - {{id: {name}, corners: {corners}, fabric: {fabric}}}"
        for name, corners, fabric in (
            ("t", "[[0,0],[4,0],[2,2]]", "ink"),
            ("r", "[[4,0],[4,4],[2,2]]", "sand"),
            ("b", "[[4,4],[0,4],[2,2]]", "ink"),
            ("l", "[[0,4],[0,0],[2,2]]", "sand"),
        )
    )
    text = pattern_text(f"{INK}\n{SAND}", "  p: {shape: square, side: 1}", triangles, "3")
    for line in plan_of(tmp_path, text).patches:
        assert (line.method, str(line.cut[0])) == (METHODS["quarter-square triangles"], "5 1/4")
        assert (line.pieces, line.cuts) == (6, 2)  # 2 in each of 3 blocks; 6 / 4 = 1 1/2, so 2
        assert line.title == "A quarter-square triangle"


def test_two_triangles_from_a_square(tmp_path):
    made = patch(tmp_path, "{shape: half-square triangle, side: 3}", blocks="7")
    assert (made.pieces, made.cuts) == (7, 4)  # 7 / 2 = 3 1/2


def test_mirrored_half_rectangles_need_the_other_diagonal(tmp_path):
    pieces = """\
      - {id: a, corners: [[0,0],[2,4],[0,4]], fabric: ink}
      - {id: b, corners: [[2,0],[2,4],[0,0]], fabric: sand}
      - {id: c, corners: [[4,0],[4,4],[2,4]], fabric: ink}
      - {id: d, corners: [[2,0],[4,0],[2,4]], fabric: sand}"""
    text = pattern_text(f"{INK}\n{SAND}", "  p: {shape: square, side: 1}", pieces, "1")
    for line in plan_of(tmp_path, text).patches:
        # one plain and one mirrored: each takes a rectangle of its own, though one would give two
        assert (line.pieces, line.reversed, line.cuts) == (2, 1, 2)


def test_mirrored_parallelograms_lean_the_other_way(tmp_path):
    pieces = """\
      - {id: a, patch: p, fabric: ink, at: [3, 1]}
      - {id: b, patch: p, fabric: ink, at: [3, 3], flip: yes}"""
    shape = "  p: {shape: parallelogram, base: 4, height: 2, shift: 1}"
    plan = plan_of(tmp_path, pattern_text(INK, shape, pieces))
    assert (plan.patches[0].pieces, plan.patches[0].reversed) == (2, 1)
    placed = [p.outline for s in plan.fabrics[0].strips for layout in s.layouts for p in layout]
    leans = [
        max(outline, key=lambda p: (-p[1], p[0]))[0] > max(p[0] for p in outline) - 1e-6
        for outline in placed
    ]
    assert sorted(leans) == [False, True]  # whether the upper right corner is the farthest right


@pytest.mark.parametrize("direction", ["any", "one-way", "stripe"])
def test_a_template_lies_face_down_for_each_piece_that_is_reversed_and_for_no_other(
    tmp_path, direction
):
    """A patch that is no mirror image of itself, with its mirror image beside its short side, and half turned above its
    long one: three, so that they are no pairs to cut from folded cloth."""
    pieces = """\
      - {id: a, patch: p, fabric: ink, at: [3, 0]}
      - {id: b, patch: p, fabric: ink, at: [3, 0], flip: yes}
      - {id: c, patch: p, fabric: ink, at: [6, 0], turn: 180}"""
    shape = '  p: {shape: path, outline: "M0 0 H3 C3 1 2.5 2 2 2 L0 1 Z"}'  # a curve is no ruler's
    fabric = f'  ink: {{name: Rain, colour: "#224466", direction: {direction}}}'
    plan = plan_of(tmp_path, pattern_text(fabric, shape, pieces))
    placed = [p for s in plan.fabrics[0].strips for layout in s.layouts for p in layout]
    assert {line.method for line in plan.patches} == {METHODS["template"]}
    assert sorted(p.reversed for p in placed) == [False, False, True]


ONE_WAY = '  ink: {name: Rain, colour: "#224466", direction: one-way}'


def test_an_upright_print_is_cut_as_it_lies(tmp_path):
    """A 2 x 4 piece and the same turned by 90 degrees are two cuts of a one-way print."""
    pieces = """\
      - {id: a, patch: p, fabric: ink, at: [1, 2]}
      - {id: b, patch: p, fabric: ink, at: [4, 1], turn: 90}
      - {id: c, patch: q, fabric: sand, at: [4, 3]}"""
    shapes = (
        "  p: {shape: rectangle, width: 2, height: 4}\n  q: {shape: rectangle, width: 4, height: 2}"
    )
    text = pattern_text(f"{ONE_WAY}\n{SAND}", shapes, pieces)
    plan = plan_of(tmp_path, text)
    cuts = {tuple(str(x) for x in p.cut) for p in plan.patches if p.fabric == "ink"}
    assert cuts == {("2 1/2", "4 1/2"), ("4 1/2", "2 1/2")}
    free = plan_of(tmp_path, pattern_text(f"{INK}\n{SAND}", shapes, pieces))
    assert len([p for p in free.patches if p.fabric == "ink"]) == 1


def test_upright_triangles_of_one_diagonal_share_squares(tmp_path):
    """Of a one-way print a square gives one triangle each way up: 4 + 4 triangles from 4 squares."""
    pieces = """\
      - {id: a, corners: [[0,0],[3,3],[0,3]], fabric: ink}
      - {id: b, corners: [[0,0],[3,0],[3,3]], fabric: ink}"""
    text = pattern_text(ONE_WAY, "  p: {shape: square, side: 1}", pieces, "4")
    (line,) = plan_of(tmp_path, text).patches
    assert (line.pieces, line.cuts) == (8, 4)
    alone = pieces.splitlines()[0] + "\n" + pieces.splitlines()[1].replace("ink", "sand")
    text = pattern_text(f"{ONE_WAY}\n{SAND}", "  p: {shape: square, side: 1}", alone, "4")
    ink, sand = plan_of(tmp_path, text).patches
    assert (ink.pieces, ink.cuts) == (4, 4)  # the other half of each square is upside down
    assert (sand.pieces, sand.cuts) == (4, 2)


def test_an_upright_square_on_its_point_takes_a_template(tmp_path):
    made = patch(tmp_path, "{shape: square, side: 3}", ", turn: 45", ONE_WAY)
    assert made.method == METHODS["template"]
    assert patch(tmp_path, "{shape: square, side: 3}", ", turn: 45").method == METHODS["square"]


def test_stripes_may_be_turned_upside_down(tmp_path):
    striped = ONE_WAY.replace("one-way", "stripe")
    pieces = """\
      - {id: a, corners: [[0,0],[3,3],[0,3]], fabric: ink}
      - {id: b, corners: [[0,0],[3,0],[3,3]], fabric: sand}"""
    text = pattern_text(f"{striped}\n{SAND}", "  p: {shape: square, side: 1}", pieces, "4")
    assert plan_of(tmp_path, text).patches[0].cuts == 2


def test_centimetres_round_up_to_a_millimetre(tmp_path):
    text = pattern_text(
        INK,
        "  p: {shape: half-square triangle, side: 1}",
        "      - {id: a, patch: p, fabric: ink, at: [1, 1]}",
    )
    text = (
        text.replace("units: inch", "units: cm")
        .replace("1/4 in", "7.5 mm")
        .replace("1 in", "10 cm")
    )
    (line,) = plan_of(tmp_path, text).patches
    # 100 + 7.5 (2 + √2) = 125.6 mm, rounded up 126
    assert line.cut[0] == inches("126 mm")
    assert line.sum == "10 finished + 2.6 = 12.6"


def test_faults_are_told_once(tmp_path):
    text = pattern_text(
        INK,
        "  p: {shape: square, side: 40}",
        "      - {id: a, patch: p, fabric: ink, at: [20, 20]}",
        "3",
    )
    outcome = cut_text(tmp_path, text)
    assert [d.code for d in outcome.diagnostics] == ["wider-than-cloth"]
    assert outcome.value is not None
