"""What the booklet says and shows of pressing: words, table, four blocks where they meet, layers."""

import re
from itertools import pairwise

import pytest

from booklet.drawing.pressed.bulk import bulk_figure, grey
from booklet.kit.colour import lightness
from booklet.kit.records import replace
from booklet.pattern import By, Ends, PressHabit
from booklet.plan.naming import Naming
from booklet.plan.pressed.pressing_conflicts import conflict_words
from booklet.plan.pressed.pressing_joins import version_words
from booklet.plan.pressed.pressing_table import press_table
from booklet.plan.pressed.pressing_words import how_to_press, pressing_summary
from booklet.pressing.meetings.meeting import as_laid, cell_of, together
from booklet.pressing.meetings.places import lattice_places
from tests.builders import block_of
from tests.drawing_helpers import block_plan
from tests.pressing_helpers import four_patch, pairs_then_halves, pressed, sew, square
from tests.test_pressing_lattice import ROOT3, hexagon_of_wedges, lattice
from tests.test_pressing_neighbours import set_of, straight

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
    assert "Press the center" in said[1] and "seen from the back" in said[1]
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
    told, lock = version_words(pressings["s", "b"], drawn=False, on_point=False)
    assert told.startswith("Press 6 blocks as drawn (version V1) and 3 the other way round")
    assert "V1 in the first column, V2 in the next" in told
    assert lock == "V1 and V2 then lock wherever they join."
    told, _ = version_words(pressings["s", "b"], drawn=True, on_point=False)
    assert "small plan" in told


def laid_straight(pressing, across=4, down=4):
    """Blocks of one kind in a straight set, as they lie."""
    side = pressing.assembly.tiling.width
    places = [("b", (x, y), 0, (x * side, y * side)) for y in range(down) for x in range(across)]
    return as_laid(places, {"b": pressing})


def test_four_blocks_show_what_nests_and_the_place_with_most_clashes():
    block = block_of(INK, id="b", steps=pairs_then_halves())
    _, pressings, _ = set_of([block], straight([("b", 0)]))
    four = together(laid_straight(pressings["s", "b"]))
    assert four is not None and four.clashes == 0 and len(four.blocks) == 4
    assert len(four.joins) == 4 and all(join.nests for join in four.joins)  # 4 edges, 1 seam each
    assert {laid.second for laid in four.blocks} == {True, False}
    _, pressings, _ = set_of([block], straight([("b", 0)]), habit=PressHabit.DARK)
    four = together(laid_straight(pressings["s", "b"]))
    assert four is not None and four.clashes == 2  # the middle seams, beside each other in two rows
    side = pressings["s", "b"].assembly.tiling.width
    places = sorted(join.at for join in four.joins if join.nests is False)
    assert places == [pytest.approx((side, side / 2)), pytest.approx((side, 1.5 * side))]


def test_hexagons_show_the_four_about_a_side():
    wedges = block_of(hexagon_of_wedges(), id="b", steps=None)
    quilt = lattice((ROOT3, 0), (ROOT3 / 2, 1.5), [("b", 0)])
    size, pressings, _ = set_of([wedges], quilt, across=3, down=2, by=By.HAND)
    tilings = {"b": pressings["s", "b"].assembly.tiling}
    laid = lattice_places(size, tilings)
    places = [("b", (k, 0), 0, lain.origin) for k, lain in enumerate(laid)]
    four = together(as_laid(places, {"b": pressings["s", "b"]}))
    assert four is not None and len(four.blocks) == 4 and four.clashes == 0
    # 5 sides between the four have 10 ends; two corners are shared by three sides each: 10 - 2 * 2
    assert len(four.joins) == 6


def test_blocks_that_do_not_touch_have_no_picture():
    block = block_of(INK, id="b", steps=pairs_then_halves())
    _, pressings, _ = set_of([block], straight([("b", 0)]))
    apart = [("b", (x, 0), 0, (9.0 * x, 0.0)) for x in range(3)]  # blocks of 8, strips of 1 between
    assert together(as_laid(apart, {"b": pressings["s", "b"]})) is None


def test_conflicts_are_told_with_ways_out_the_least_trouble_first():
    block = block_of(INK, id="b", steps=pairs_then_halves())
    _, pressings, _ = set_of([block], straight([("b", 0)]), habit=PressHabit.DARK)
    pressing = pressings["s", "b"]
    (told,) = conflict_words(pressing, naming(pressing))
    ways = told.split("the least trouble first: ")[1].removesuffix(".").split("; ")
    # the middle seam is what clashes, from block to block along a row; open it clashes with nothing
    assert ways == [
        "press the long seam of step 2 open (nothing clashes then)",
        "make two versions, 8 blocks V1 and 8 blocks V2, laid in alternate columns (nothing clashes then)",
    ]


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


def test_corners_on_a_ruler_s_marks_coincide_whatever_the_last_digit():
    # 1 1/16 in is 1062.5 thousandths: rounded to thousandths the last digit would decide
    for sixty_fourths in range(200):
        x = sixty_fourths / 64
        assert cell_of((x - 1e-12, 0.0)) == cell_of((x + 1e-12, 0.0))
