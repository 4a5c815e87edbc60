"""Pressing on blocks of every kind: what must hold whatever the block."""

import math
import random

import pytest

from booklet.geometry.overlay import area, offset
from booklet.pattern import By, PressHabit, Quilt, SetKind, Setting
from booklet.pressing import press, rim_clashes
from booklet.pressing.equations.model import Model
from booklet.pressing.equations.problem import model_of
from booklet.pressing.equations.size_problem import problem_for
from booklet.pressing.equations.solve import solve
from booklet.pressing.layers.thickness import LONGEST, folded
from booklet.pressing.meetings.arrangement import every_second, neighbours_of
from booklet.pressing.meetings.facing import facing
from booklet.pressing.meetings.places import block_counts
from booklet.pressing.pressing import Layout
from booklet.pressing.strands import strands_of
from booklet.pressing.ways.explain import odd_cycles
from tests.builders import block_of, piece, size_of, span
from tests.pressing_helpers import (
    directions,
    four_patch,
    kinds,
    layered_area,
    pairs_then_halves,
    patch,
    pressed,
    sew,
    sewn,
    sewn_blocks,
    square,
)

W = 0.25
COLOURS = ("ink", "sand", "red", "white")


def cut_up(seed: int, cuts: int = 6):
    """A square of 4 x 4 cut up by random straight cuts across one part after the other."""
    pick = random.Random(seed)
    parts = [[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)]]
    for _ in range(cuts):
        parts.sort(key=lambda p: -area(p))
        part = parts.pop(0)
        i = pick.randrange(len(part))
        j = (i + pick.randrange(1, len(part))) % len(part)
        a, b = (_along(part, k, pick.uniform(0.35, 0.65)) for k in (min(i, j), max(i, j)))
        i, j = min(i, j), max(i, j)
        parts += [[*part[: i + 1], a, b, *part[j + 1 :]], [a, *part[i + 1 : j + 1], b]]
    return [patch(f"p{k}", part, pick.choice(COLOURS)) for k, part in enumerate(parts)]


def _along(part, k, share):
    (x, y), (u, v) = part[k], part[(k + 1) % len(part)]
    return (x + (u - x) * share, y + (v - y) * share)


@pytest.mark.parametrize("seed", range(12))
@pytest.mark.parametrize("by", [By.MACHINE, By.HAND])
def test_whatever_the_block(seed, by):
    pressing = pressed(cut_up(seed), None, by=by, unit="3 in")
    assembly = pressing.assembly
    tiling = assembly.tiling
    assert set(pressing.pressed) == {s.id for s in tiling.seams} == set(pressing.after)
    for seam in tiling.seams:
        assert pressing.pressed[seam.id].toward in seam.between
    for strand in strands_of(assembly).strands:  # one line of sewing lies to one side
        sides = {
            (pressing.pressed[s].toward == tiling.seam(s).between[0]) == forward
            for s, forward in zip(strand.seams, strand.forward, strict=True)
        }
        assert len(sides) == 1
    assert all(2 <= j.layers < 60 for j in pressing.junctions)
    toward = {s: p.toward for s, p in pressing.pressed.items()}
    cloth = folded(assembly, toward, frozenset(), W)
    cut_area = sum(area(offset(p.outline.points, W, LONGEST)) for p in tiling.pieces)
    assert sum(area(p) for parts in cloth.values() for p in parts) == pytest.approx(
        cut_area, abs=1e-9
    )
    assert layered_area(cloth) == pytest.approx(cut_area, abs=1e-6)


def test_a_wheel_with_a_partial_seam_is_pressed():
    pieces = [
        square("c", 1, 1), square("a1", 0, 0, "sand", 2), square("a2", 2, 0, "red", 1, 2),
        square("a3", 1, 2, "sand", 2), square("a4", 0, 1, "red", 1, 2),
    ]  # fmt: skip
    steps = [
        sew("one", "c", "a1", leave="a4"), sew("two", "one", "a2"), sew("three", "two", "a3"),
        sew("b", "three", "a4"), sew("", "c", "a1"),
    ]  # fmt: skip
    pressing = pressed(pieces, steps)
    assert set(kinds(pressing)) == {"free"}  # four tees: nothing clashes
    found = directions(pressing)
    # the first and last run make one line along a1: both of its seams to a1, or both away from it
    assert (found["a1", "c"], found["a1", "a4"]) in (("a1", "a1"), ("c", "a4"))


def test_a_curved_seam_is_pressed_and_folded():
    outer = piece("o", "path", outline="M 0 0 H 2 V 2 A 2 2 0 0 0 0 0 Z", fabric="sand")
    inner = piece("i", "path", outline="M 0 0 A 2 2 0 0 1 2 2 H 0 Z", fabric="ink")
    pressing = pressed([outer, inner], [sew("b", "o", "i")], unit="3 in")
    assert directions(pressing) == {("i", "o"): "i"}  # toward the dark
    toward = {s: p.toward for s, p in pressing.pressed.items()}
    cloth = folded(pressing.assembly, toward, frozenset(), W)
    cut_area = sum(
        area(offset(p.outline.points, W, LONGEST)) for p in pressing.assembly.tiling.pieces
    )
    assert sum(area(p) for parts in cloth.values() for p in parts) == pytest.approx(
        cut_area, rel=1e-6
    )


def grid_model(colours, mirrored) -> Model:
    pieces = [
        square(f"r{r}c{c}", (2 - c) if mirrored else c, r, colours[3 * r + c])
        for r in range(3)
        for c in range(3)
    ]
    steps = [sew(f"row{r}", *[f"r{r}c{c}" for c in range(3)]) for r in range(3)]
    steps.append(sew("b", "row0", "row1", "row2"))
    assembled = sewn(pieces, steps)
    size = assembled.pattern.sizes[0]
    return model_of(problem_for(size, {"b": assembled.assemblies["s", "b"]}))


@pytest.mark.parametrize("seed", range(12))
def test_a_mirrored_block_is_pressed_at_the_same_cost(seed):
    pick = random.Random(seed)
    colours = [pick.choice(COLOURS) for _ in range(9)]
    assert solve(grid_model(colours, False)).cost == solve(grid_model(colours, True)).cost


# --- the explanation ---------------------------------------------------------------------------


def rows_of(block, across, down, **keys):
    quilt = Quilt(set=SetKind.STRAIGHT, arrange=((Setting("b", 0, span()),),), span=span())
    assembled = sewn_blocks([block], across=across, down=down, quilt=quilt, **keys)
    size = assembled.pattern.sizes[0]
    return size, assembled


def test_every_conflict_is_an_odd_cycle_of_what_was_asked():
    wishes = {"top": "toward a", "low": "toward c"}
    steps = pairs_then_halves(wishes["top"], wishes["low"])
    size, assembled = rows_of(block_of(four_patch(), id="b", steps=steps), 3, 3)
    problem = problem_for(size, {"b": assembled.assemblies["s", "b"]})
    solution = solve(model_of(problem))
    cycles = odd_cycles(problem, solution.values)
    assert {c.asked.kind for c in cycles} == {"nest", "rim"}
    for cycle in cycles:
        differ = 0  # the number of things asked that want their two seams to differ is odd …
        for ask in (cycle.asked, *cycle.others):
            signs = [positive for x, positive in ask.literals if x in cycle.unknowns]
            differ += len(set(signs)) - 1
        differ += len({solution.values[x] for x in cycle.fixed}) == 2  # … with what is fixed
        assert differ % 2 == 1


def test_ways_out_are_tried_before_they_are_named():
    steps = pairs_then_halves()
    block = block_of(four_patch(*["ink"] * 4), id="b", steps=steps)
    size, assembled = rows_of(block, 4, 4, habit=PressHabit.DARK)
    pressings = press(assembled).value.pressings
    assert rim_clashes(size, pressings)[1] == 12
    conflict = pressings["s", "b"].conflicts[0]
    ways = {way.kind: way for way in conflict.ways_out}
    assert list(ways) == ["open", "two versions"]
    assert ways["two versions"].clashes == 0
    # of 16 blocks every second column
    assert (ways["two versions"].first, ways["two versions"].second) == (8, 8)
    assert ways["two versions"].layout is Layout.COLUMNS


def test_what_a_way_out_leaves_is_what_pressing_that_way_leaves():
    # both pairs wished to one side: they clash at the crossing, in each of 9 blocks
    steps = pairs_then_halves("toward a", "toward c")
    size, assembled = rows_of(block_of(four_patch(), id="b", steps=steps), 3, 3)
    pressings = press(assembled).value.pressings
    (conflict,) = (c for c in pressings["s", "b"].conflicts if c.kind == "nest")
    ways = {way.kind: way for way in conflict.ways_out}
    assert next(iter(ways)) == "open" and list(ways)[-1] == "fan"
    now = 9 + rim_clashes(size, pressings)[1]
    opened = pairs_then_halves(*(
        "open" if seam in ways["open"].seams else wish
        for seam, wish in zip(conflict.seams, ("toward a", "toward c"), strict=True)
    ))  # fmt: skip
    for way, again in (("open", opened), ("fan", pairs_then_halves("toward a", "toward c", "fan"))):
        size, assembled = rows_of(block_of(four_patch(), id="b", steps=again), 3, 3)
        made = press(assembled).value.pressings
        inside = sum(j.kind.value == "clash" for j in made["s", "b"].junctions)
        assert ways[way].clashes == 9 * inside + rim_clashes(size, made)[1] < now


def test_a_line_of_several_seams_is_opened_whole():
    block = block_of(four_patch(*["ink"] * 4), id="b", steps=pairs_then_halves())
    _, assembled = rows_of(block, 4, 4, habit=PressHabit.DARK)
    pressing = press(assembled).value.pressings["s", "b"]
    way = pressing.conflicts[0].ways_out[0]
    assert way.kind == "open" and way.clashes == 0
    pairs = {frozenset(pressing.assembly.tiling.seam(id).between) for id in way.seams}
    assert pairs == {frozenset("ac"), frozenset("bd")}  # the long middle seam, both its halves


# --- arrangements ------------------------------------------------------------------------------


def test_seams_face_each_other_as_mirrored_across_the_line():
    def at(degrees):
        return (math.cos(math.radians(degrees)), math.sin(math.radians(degrees)))

    below = [("a", at(90)), ("b", at(45))]
    above = [("c", at(-45)), ("d", at(-90))]
    assert facing((1.0, 0.0), below, above) == (("b", "c"), ("a", "d"))
    assert facing((1.0, 0.0), below, above[1:]) == (("a", "d"),)
    assert facing((1.0, 0.0), below, []) == ()


@pytest.mark.parametrize(("across", "down"), [(1, 1), (2, 2), (3, 4), (5, 2)])
def test_neighbours_on_point(across, down):
    rows = ((Setting("b", 0, span()),), (Setting("c", 0, span()),))
    size = size_of(
        across=across, down=down, quilt=Quilt(set=SetKind.ON_POINT, arrange=rows, span=span())
    )
    between = (across - 1) * (down - 1)  # each has a neighbour at all four sides
    found = neighbours_of(size)
    assert sum(found.values()) == 4 * between
    counts = block_counts(size)
    assert (counts["b"], counts.get("c", 0)) == (across * down, between)
    assert sum(n for pair, n in found.items() if pair.at_right) == 2 * between


def test_every_second_block_is_named_apart():
    quilt = Quilt(set=SetKind.STRAIGHT, arrange=((Setting("b", 0, span()),),), span=span())
    made = every_second(size_of(across=3, down=3, quilt=quilt), "′")
    assert [[s.block for s in row] for row in made.quilt.arrange] == [["b", "b′"], ["b′", "b"]]
    assert block_counts(made) == {"b": 5, "b′": 4}  # a chessboard of 3 x 3


def test_open_blocks_have_no_clashes_anywhere():
    steps = pairs_then_halves()
    size, assembled = rows_of(block_of(four_patch(), id="b", steps=steps), 3, 3)
    del size
    again = sewn_blocks(
        [block_of(four_patch(), id="b", steps=steps)], PressHabit.OPEN, across=3, down=3,
        quilt=assembled.pattern.sizes[0].quilt,
    )  # fmt: skip
    pressings = press(again).value.pressings
    assert rim_clashes(again.pattern.sizes[0], pressings) == (True, 0)
