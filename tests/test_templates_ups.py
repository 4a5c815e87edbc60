"""Templates of prints that may not be turned: an arrow for each way up, with how many lie so."""

from pathlib import Path

from booklet.compiler import check
from booklet.drawing.templates.template_pages import templates_of
from booklet.plan import make_plan

PATTERNS = Path(__file__).parent / "patterns"


def templates():
    (size,) = make_plan(check(PATTERNS / "one_way_templates").value).sizes
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
