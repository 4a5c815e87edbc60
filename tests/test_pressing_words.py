"""What the booklet says and shows of pressing: words, table, four blocks where they meet, layers."""

import re
from dataclasses import replace
from itertools import pairwise

import pytest

from booklet.drawing.bulk import bulk_figure, grey
from booklet.drawing.colours import lightness
from booklet.pattern import By, Ends, PressHabit, Sashing
from booklet.plan.pressing_words import (
    conflict_words,
    how_to_press,
    press_table,
    pressing_summary,
    version_words,
)
from booklet.plan.sentences import Naming
from booklet.pressing.meeting import four_blocks
from tests.builders import block_of, span
from tests.drawing_helpers import block_plan
from tests.pressing_helpers import four_patch, pairs_then_halves, pressed, sew, square
from tests.test_pressing_neighbours import INCH, set_of, straight

INK = four_patch(*["ink"] * 4)
NAMES = {"ink": "Dark blue", "sand": "Sand", "red": "Red", "white": "White"}


def naming(pressing):
    return Naming.of(pressing.assembly, NAMES)


def cards(pressing):
    """The pressing sentences, step by step."""
    return [list(how_to_press(s, pressing, naming(pressing))) for s in pressing.assembly.steps]


def test_a_card_says_which_side_and_that_it_is_the_darker():
    pressing = pressed(
        [square("a", 0, 0, "ink", w=2), square("b", 2, 0, "sand")], [sew("b", "a", "b")]
    )
    assert cards(pressing) == [["Press toward B, the darker side."]]
    (line,) = press_table(pressing, naming(pressing))
    assert (line.cards, line.seams, line.count, line.toward) == ((1,), "A to B", 1, "toward B")
    assert (line.when, line.how) == ("as sewn", "iron")


def test_what_stops_at_its_points_is_pressed_at_the_end_and_that_is_said_once():
    pressing = pressed(INK, pairs_then_halves(ends=Ends.POINTS), by=By.HAND)
    assert pressing.at_end
    said = list(pressing_summary(pressing))
    assert said[0].startswith("Every seam stops at its points")
    assert sum("stops at its points" in line for line in said) == 1
    assert "Press the centre" in said[1] and "seen from the back" in said[1]
    assert cards(pressing)[:2] == [[], []] and cards(pressing)[2][0].startswith("Now press")
    assert all(line.when == "at the end" for line in press_table(pressing, naming(pressing)))


def test_the_table_holds_every_seam_once():
    pressing = pressed(four_patch(), pairs_then_halves())
    table = press_table(pressing, naming(pressing))
    assert sum(line.count for line in table) == 4  # a-b, c-d, a-c, b-d
    assert all(re.fullmatch(r"A \(.+\) to A \(.+\)", line.seams) for line in table)


def test_two_versions_are_told_with_their_numbers_and_places():
    block = block_of(INK, id="b", steps=pairs_then_halves())
    _, pressings, _ = set_of([block], straight([("b", 0)]), across=3, down=3)
    (told,) = version_words(pressings["s", "b"], others=False, on_point=False)
    assert told.startswith("Press 6 blocks as drawn (version A) and 3 the other way round")
    assert "A in the first column, B in the next" in told
    (told,) = version_words(pressings["s", "b"], others=True, on_point=False)
    assert "small plan" in told


def test_four_blocks_show_what_nests_and_the_place_with_most_clashes():
    block = block_of(INK, id="b", steps=pairs_then_halves())
    size, pressings, _ = set_of([block], straight([("b", 0)]))
    four = four_blocks(size, {"b": pressings["s", "b"]})
    assert four is not None and four.clashes == 0
    assert len(four.joins) == 4 and all(join.nests for join in four.joins)  # 4 edges, 1 seam each
    assert {laid.second for laid in four.blocks} == {True, False}
    size, pressings, _ = set_of([block], straight([("b", 0)]), habit=PressHabit.DARK)
    four = four_blocks(size, {"b": pressings["s", "b"]})
    assert four is not None and four.clashes == 2  # the middle seams, beside each other in two rows
    side = four.side[0]
    places = sorted(join.at for join in four.joins if join.nests is False)
    assert places == [pytest.approx((side, side / 2)), pytest.approx((side, 1.5 * side))]


def test_strips_between_blocks_leave_nothing_to_meet():
    block = block_of(INK, id="b", steps=pairs_then_halves())
    sash = Sashing(INCH, "ink", None, False, span())
    size, pressings, _ = set_of([block], straight([("b", 0)], sashing=sash))
    assert four_blocks(size, {"b": pressings["s", "b"]}) is None


def test_conflicts_are_told_with_ways_out_the_least_trouble_first():
    block = block_of(INK, id="b", steps=pairs_then_halves())
    _, pressings, _ = set_of([block], straight([("b", 0)]), habit=PressHabit.DARK)
    pressing = pressings["s", "b"]
    (told,) = conflict_words(pressing, naming(pressing))
    ways = told.split("the least trouble first: ")[1]
    assert ways.index("open") < ways.index("another way") < ways.index("turn every second block")
    assert "nothing clashes then" in ways


def test_thick_points_are_named_above_the_limit():
    pressing = pressed(four_patch(), pairs_then_halves())
    assert pressing.junctions[0].layers == 7  # nested: 7, as in the table of a four-patch
    (advice,) = (line for line in pressing_summary(pressing, limit=6) if "layers" in line)
    assert advice.startswith("At 1 point more than 6 layers of cloth lie on each other, up to 7.")
    assert "open" in advice and "trim" in advice
    assert not any("layers" in line for line in pressing_summary(pressing, limit=7))


def test_the_greys_of_layers_stay_apart_and_darken():
    for most in range(2, 10):
        steps = [lightness(grey(n, most)) for n in range(1, most + 1)]
        assert all(a - b > 6 for a, b in pairwise(steps))


def test_no_map_of_layers_for_very_many_pieces():
    pressing = pressed(four_patch(), pairs_then_halves())
    plan = replace(block_plan(pressing.assembly, pressing), pressing=pressing)
    figure = bulk_figure(plan)
    assert figure is not None and "The most is 7, at 1 place." in figure.caption
