"""Every pattern of tests/patterns is sewn as the tool finds it, with as few turns as its points ask for."""

from functools import cache
from pathlib import Path

import pytest
import sampling
from sewing_blocks import assert_sound

from booklet.commands import run
from booklet.geometry import lay_out
from booklet.kit.records import replace
from booklet.pattern import By, TurnCosts
from booklet.recipe import checking
from booklet.sewing import assemble
from booklet.sewing.auto.finding import search_order
from booklet.sewing.auto.proposals import proposals
from booklet.sewing.auto.unscaled import question_of
from booklet.source.reader import read_folder

PATTERNS = Path(__file__).parent / "patterns"

# Turns: the inner points at which no two seams go straight on (three-way points), counted by hand.
# A rosette of r rings of hexagons has 6 r^2 of them; a star of n points one at each notch.
TURNS = {
    "brick": 0,
    "elongated_cross": 4,  # the four points where two hexagons and a square meet
    "elongated_ring": 4,  # the four corners of the square in the middle
    "herringbone": 0,
    "hexagon_rosette_1": 6,
    "hexagon_rosette_2": 24,
    "hexagon_rosette_3": 54,
    "kite_wheel": 0,
    "log_cabin": 0,
    "quarter_circles": 0,
    "quarter_round": 0,
    "square_in_frame": 4,  # the corners of the enclosed square
    "star_6": 6,
    "star_8": 8,
    "star_12": 12,
    "triangles_300": 0,
    "wheel_of_five": 1,
}


@cache
def laid(name):
    found = read_folder(PATTERNS / name).then(lay_out)
    assert found.value is not None and not any(d.is_error for d in found.diagnostics)
    return found.value


@pytest.mark.covering("patches", "blocks", "sewing", also=TURNS)
@pytest.mark.parametrize("name", sorted(path.name for path in PATTERNS.iterdir()))
def test_every_pattern_is_sewn_with_an_order_of_its_own(name):
    laid_out = laid(name)
    blocks = tuple(replace(block, steps=None) for block in laid_out.pattern.blocks)
    free = replace(laid_out, pattern=replace(laid_out.pattern, blocks=blocks))
    made = assemble(free, checking.of_one_run())  # in sizes sewn alike the order is found once
    assert not made.diagnostics
    assert set(made.value.assemblies) == set(laid_out.tilings)
    for assembly in made.value.assemblies.values():
        assert_sound(assembly)
        turns = sum(step.turns for step in assembly.steps)
        partial = sum(step.leave is not None for step in assembly.steps)
        if name in TURNS:
            assert turns + partial == TURNS[name]


@cache
def proposed(name):
    """The order proposed for the first size."""
    return next(iter(proposals(laid(name))))


def cards(name):
    """The cards of the first proposal: how often, the parts, the turns."""
    found = proposed(name)
    first = {}
    for step in found.assembly.steps:
        first.setdefault(step.card, (step.times, step.make, step.turns))
    return list(first.values())


def test_a_star_of_eight_is_made_of_four_alike_quarters():
    assert cards("star_8") == [
        (4, "three1", 0),
        (4, "quarter1", 1),
        (2, "half1", 1),
        (1, "star", 2),
    ]


def test_a_star_of_six_in_two_cloths_is_made_of_two_kinds_of_pairs():
    assert cards("star_6") == [
        (3, "pair1", 0),
        (3, "pair b1", 0),
        (2, "part1", 1),
        (1, "unit1", 1),  # dark, light, dark
        (1, "unit2", 1),  # light, dark, light
        (1, "star", 2),  # straight across the middle, two notches
    ]


def test_a_star_of_twelve_is_made_of_two_alike_halves():
    assert cards("star_12") == [
        (6, "three1", 0),
        (6, "sixth1", 1),
        (2, "part1", 1),
        (2, "half1", 1),
        (1, "star", 2),
    ]


def test_a_wheel_in_two_cloths_has_two_halves_of_three():
    assert cards("kite_wheel") == [(1, "three", 0), (1, "three b", 0), (1, "wheel", 0)]


def with_costs(name, **costs):
    """The proposals for a pattern where turns and partial seams cost something else."""
    laid_out = laid(name)
    sizes = tuple(
        replace(size, sewing=replace(size.sewing, costs=TurnCosts(**costs)))
        for size in laid_out.pattern.sizes
    )
    return list(proposals(replace(laid_out, pattern=replace(laid_out.pattern, sizes=sizes))))


def test_costs_decide_between_a_partial_seam_and_a_turn():
    (cheap,) = with_costs("wheel", partial=0.5, hand=2.0)
    assert [step.finish for step in cheap.assembly.steps] == [False] * 4 + [True]
    assert cheap.text.splitlines()[-2:] == [
        "  costs 0.5, with 1 for a turn by machine, 2 for one by hand, 0.5 for a partial seam: "
        "no order costs less",
        "  the order in the pattern: no turns and 1 partial seam; "
        "the cheapest order found has 1 turn or partial seam",
    ]
    (dear,) = with_costs("wheel", partial=3.0, hand=2.0)
    assert not any(step.finish for step in dear.assembly.steps)
    assert "costs 2, with 1 for a turn by machine, 2 for one by hand" in dear.text


def test_a_cross_is_made_of_four_alike_quarters():
    assert cards("elongated_cross") == [(4, "quarter1", 0), (2, "half1", 1), (1, "cross", 2)]


def test_a_rosette_is_sewn_in_rows_joined_alike_from_both_sides():
    found = cards("hexagon_rosette_2")
    assert [(times, name) for times, name, _ in found[:3]] == [
        (1, "row3"),  # the middle one of five, which the source names first
        (2, "row2"),  # and row 4
        (2, "row1"),  # and row 5
    ]
    assert (2, "part1", 5) in found  # a row of three and one of four: five points between them


def test_four_quarter_circles_are_four_alike_units():
    assert cards("quarter_circles")[0] == (4, "quarter1", 0)


def test_a_wheel_has_a_partial_seam_by_machine_and_a_turn_by_hand():
    lap, mini = proposals(laid("wheel_of_five"))
    assert [step.finish for step in lap.assembly.steps] == [False] * 4 + [True]
    assert {step.by for step in lap.assembly.steps} == {By.MACHINE}
    assert sum(step.turns for step in lap.assembly.steps) == 0
    assert not any(step.finish for step in mini.assembly.steps)
    assert sum(step.turns for step in mini.assembly.steps) == 1


def test_no_step_closes_a_ring_alone_but_where_one_patch_is_enclosed_by_two():
    for name in TURNS if sampling.everything else TURNS.keys() - sampling.LARGE:
        found = proposed(name)
        rings = sum(step.kind.value == "ring" for step in found.assembly.steps)
        assert (rings > 0) == (name == "square_in_frame")


def test_sizes_get_the_same_tree_of_joins():
    example = read_folder(PATTERNS.parent.parent / "example_pattern").then(lay_out).value
    ask = checking.of_one_run()
    blocks = [
        (size, example.tilings[size.id, block.id])
        for size in example.pattern.sizes
        for block in example.pattern.blocks
        if (size.id, block.id) in example.tilings
    ]
    joins = {
        tuple((step.make, step.join) for step in found.steps if not step.finish)
        for found in (ask(search_order, question_of(t, s.sewing, s.fabrics)) for s, t in blocks)
    }
    assert len(joins) == 1
    # with the routes of its threads a size that is sewn by hand may have another, which turns no more
    turns = {
        sum(step.turns for step in found.assembly.steps) for found in proposals(example, ask=ask)
    }
    assert turns == {12}


def test_text_of_an_order():
    (found,) = proposals(laid("wheel"))
    assert found.text == (
        "block `wheel`, size `lap`: 5 patches, 8 seams\n"
        "    1  pair = c + a1  (by machine, partial seam, stop short where a4 will come)\n"
        "    2  three = pair + a2  (by machine, straight)\n"
        "    3  unit1 = three + a3  (by machine, straight)\n"
        "    4  wheel = unit1 + a4  (by machine, straight)\n"
        "    5  finish the seam between c and a1  (by machine, partial seam)\n"
        "  no turns, 1 partial seam\n"
        "  no order has fewer\n"
        "  the order in the pattern: no turns and 1 partial seam; 1 turn or partial seam is needed\n"
    )


def test_what_is_laid_on_a_block_is_told():
    told = proposed("stem_and_bud").text
    assert "then laid on it, the first lowest:\n" in told
    assert "B  green  (by machine, 8 13/16 in of edge, 1 5/16 in left flat under others)" in told
    assert told.index("B  green") < told.index("C  red")


def test_what_the_class_makes_is_told(capsys):
    """Eleven students and one spare kit."""
    assert run(["plan", str(PATTERNS / "class_with_kits")]) == 0
    told = capsys.readouterr().out
    assert (
        "the class, size `banner`: each student makes 2 × block `pennant`, in these orders" in told
    )
    assert "12 kits, 1 of them spare" in told
