"""Templates of prints that may not be turned: an arrow for each way up, with how many lie so."""

from pathlib import Path

from booklet.drawing.scene import Ink, Line
from booklet.drawing.templates.template_pages import templates_of
from booklet.drawing.templates.template_parts import tiles
from booklet.exports.machines.flat import flat_sheet
from booklet.kit.records import replace
from booklet.plan import make_plan
from booklet.recipe.compiler import check

PATTERNS = Path(__file__).parent / "patterns"


def one_way():
    (size,) = make_plan(check(PATTERNS / "one_way_templates").value).sizes
    return size


def templates():
    size = one_way()
    return {template.letter: template for template in templates_of(size)}


def test_a_one_way_print_has_an_arrow_for_each_way_up():
    # one piece of each quarter turn in a block, 4 blocks: the patch as drawn has its top up, the piece turned
    # clockwise by 90 degrees lies on the cloth turned back: up is then at its left, 270
    (row,) = templates()["B"].ups
    assert sorted(row.ways) == [(0.0, "× 4"), (90.0, "× 4"), (180.0, "× 4"), (270.0, "× 4")]
    assert row.words == "top of Rain:" and not row.both


def test_stripes_have_two_ways_up_for_one():
    (row,) = templates()["A"].ups  # turned by 180 they run alike: 8 and 8 of 16
    assert sorted(way % 180 for way, _ in row.ways) == [0.0, 90.0]
    assert {count for _, count in row.ways} == {"× 8"} and row.both


def test_arrows_turn_with_the_template():
    template = templates()["B"]
    (row,), (turned,) = template.ups, template.turned().ups
    assert [(way + 90) % 360 for way, _ in row.ways] == [way for way, _ in turned.ways]


def test_a_cloth_is_named_once_with_all_its_patches():
    assert "for one “Wheel”: 4 Rain" in templates()["B"].lines


def test_a_machine_that_cuts_gets_the_same_way_up():
    sheet = {template.letter: template for template in flat_sheet(one_way()).templates}
    # the grain runs both ways, a line and two strokes at either end: 5; a way up has strokes at its tip alone: 3
    assert len(sheet["B"].lines) == 5 + 4 * 3
    assert len(sheet["A"].lines) == 5 + 2 * 5  # stripes have two ways up for one


def test_the_parts_of_a_large_template_say_which_way_is_up():
    # the triangle as large as a table: on the part with its words stand an arrow for each of four ways and one of the grain
    small = templates()["B"]

    def large(points):
        return tuple((5 * x, 5 * y) for x, y in points)

    template = replace(
        small, cut=large(small.cut), seam=large(small.seam), points=large(small.points), strokes=()
    )
    parts = tiles(template, 180.0, 250.0)
    arrows = [
        item
        for _, _, items in parts
        for item in items
        if isinstance(item, Line) and item.ink is Ink.GRAIN
    ]
    ways = [item for item in arrows if not item.start_arrow]
    assert len(parts) > 1 and len(ways) >= 4 and len(ways) % 4 == 0


TRIANGLES = """\
title: Two triangles
units: inch
sizes: {s: {unit: 2 in, blocks: 3}}
fabrics:
  plain: {colour: navy}
  rain: {colour: silver, direction: one-way}
patches:
  tri: {shape: equilateral triangle, side: 2}
blocks:
  two:
    pieces:
      - {id: a, patch: tri, fabric: plain, at: [1, 0.8660254]}
      - {id: b, patch: tri, fabric: rain, at: [2, 0.8660254], turn: 180}
"""


def test_the_grain_of_a_patch_lies_along_or_across_the_top_of_the_print(tmp_path):
    # the plain triangle has its grain along the long edge of the block, the print its top square to that edge; the three
    # sides of the triangle are alike, so one template shows both, and its arrows are parallel or square to each other
    (tmp_path / "pattern.yaml").write_text(TRIANGLES, encoding="utf-8")
    (size,) = make_plan(check(tmp_path).value).sizes
    (template,) = templates_of(size)
    ((way, count),) = template.ups[0].ways
    assert count == "× 3"
    assert round((template.grain - way) % 90, 6) in (0, 90)
