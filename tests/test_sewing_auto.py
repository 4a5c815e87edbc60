"""`sew: auto`: an order that can be sewn for every block, straight wherever the block allows it."""

import math
import random
from itertools import pairwise

import pytest
from builders import sewing_of, span
from sewing_blocks import (
    box,
    grid,
    guillotine,
    hand_sewing,
    polygon,
    quarter_circle,
    rosette,
    sew,
    sewn,
    star,
    tiling_of,
    wheel,
)

from booklet.kit.records import replace
from booklet.pattern import By
from booklet.sewing.auto.finding import planned
from booklet.sewing.totals import totals


def mosaic(pieces, side, seed):
    """Random pieces grown from the unit squares of a block, none with a hole or a pinched corner."""
    chance = random.Random(seed)
    cells = [(x, y) for x in range(side) for y in range(side)]
    while True:
        owner = dict.fromkeys(cells)
        for k, cell in enumerate(chance.sample(cells, pieces)):
            owner[cell] = k
        while free := [c for c in cells if owner[c] is None]:
            beside = [(c, n) for c in free for n in neighbours(c) if owner.get(n) is not None]
            cell, near = chance.choice(beside)
            owner[cell] = owner[near]
        outlines = [trace([c for c in cells if owner[c] == k]) for k in range(pieces)]
        if all(outlines):
            return [
                polygon(f"p{k + 1}", *o, fabric=("ink", "sand", "red")[k % 3])
                for k, o in enumerate(outlines)
            ]


def neighbours(cell):
    x, y = cell
    return [(x + 1, y), (x - 1, y), (x, y + 1), (x, y - 1)]


def trace(cells):
    """The corners round some unit squares, clockwise; None if they have a hole or a pinch."""
    edges = set()
    for x, y in cells:
        for edge in (
            ((x, y), (x + 1, y)),
            ((x + 1, y), (x + 1, y + 1)),
            ((x + 1, y + 1), (x, y + 1)),
            ((x, y + 1), (x, y)),
        ):
            if edge[::-1] in edges:
                edges.remove(edge[::-1])
            else:
                edges.add(edge)
    after = dict(edges)
    if len(after) < len(edges):
        return None
    start = min(after)
    loop = [start]
    while after[loop[-1]] != start:
        loop.append(after[loop[-1]])
    if len(loop) < len(edges):
        return None
    ring = [loop[-1], *loop, loop[0]]
    return [
        b
        for (a, b), (_, c) in zip(pairwise(ring), pairwise(ring[1:]), strict=False)
        if (b[0] - a[0]) * (c[1] - b[1]) != (b[1] - a[1]) * (c[0] - b[0])
    ]


def names(assembly):
    return [(step.make, step.join) for step in assembly.steps]


def test_a_nine_patch_is_sewn_in_rows():
    assert names(sewn(grid(3, 3))) == [
        ("row1", ("r1c1", "r1c2", "r1c3")),
        ("row3", ("r3c1", "r3c2", "r3c3")),
        ("row2", ("r2c1", "r2c2", "r2c3")),
        ("b", ("row1", "row2", "row3")),
    ]


@pytest.mark.parametrize(("columns", "rows"), [(2, 2), (3, 3), (5, 4)])
def test_a_grid_in_rows_takes_so_many_seams(columns, rows):
    done = sewn(grid(columns, rows))
    goes = sum(len(step.runs) for step in done.steps)
    assert goes == rows * (columns - 1) + (rows - 1)  # 3, 8, 19
    assert totals(done).turns == 0


@pytest.mark.parametrize("seed", range(25))
def test_what_was_cut_straight_is_sewn_straight(seed):
    done = sewn(guillotine(4 + seed % 20, seed))
    assert totals(done).turns == 0
    assert {step.by for step in done.steps} <= {By.MACHINE, By.HAND}


def test_a_star_is_sewn_with_its_eight_turns():
    assert totals(sewn(star())).turns == 8  # one at each of the 8 points where three patches meet


def test_a_rosette_is_sewn_with_its_six_turns():
    assert totals(sewn(rosette())).turns == 6


def test_a_curve_is_cut_through_like_a_line():
    (step,) = sewn(quarter_circle()).steps
    assert step.turns == 0 and len(step.runs) == 1


def test_the_wheel_has_no_straight_cut():
    done = sewn(wheel())  # one turn, or no turn and one partial seam
    assert totals(done).turns == 0 and sum(step.finish for step in done.steps) == 1


def test_a_piece_inside_others_is_sewn():
    sewn(
        [
            polygon("l", (0, 0), (3, 0), (3, 1), (1, 1), (1, 2), (3, 2), (3, 3), (0, 3)),
            box("m", 1, 1),
            box("n", 2, 1, fabric="red"),
        ]
    )


def test_no_unit_has_the_name_of_a_piece():
    pieces = [replace(p, id=f"row{k + 1}") for k, p in enumerate(grid(3, 3))]
    made = [step.make for step in sewn(pieces).steps]
    assert made == ["row10", "row12", "row11", "b"]


def closings(assembly):
    """How often a run goes on through each inner matching point."""
    passed = {}
    for step in assembly.steps:
        for run in step.runs:
            closed = run.points[0] == run.points[-1]
            for point in (*run.points[1:-1], *(run.points[:1] if closed else ())):
                passed[point] = passed.get(point, 0) + 1
    inside = {j.at for j in assembly.tiling.junctions if j.inside}
    return {point: count for point, count in passed.items() if point in inside}, inside


@pytest.mark.parametrize("seed", range(40))
def test_every_inner_point_is_closed_by_one_run(seed):
    """Of d patches round a point d - 1 are joined one by one; one of these runs goes on through it."""
    done = sewn(mosaic(3 + seed % 9, 5, seed))
    passed, inside = closings(done)
    assert set(passed) == inside
    assert set(passed.values()) <= {1}


@pytest.mark.parametrize("seed", range(40))
def test_any_order_of_joins_is_sound(seed):
    """Random joins, sewn by machine and by hand: ends stop where runs turn, threads keep the order."""
    pieces = mosaic(3 + seed % 9, 5, seed)
    tiling = tiling_of(pieces)
    chance = random.Random(seed)
    unit = {piece.id: piece.id for piece in tiling.pieces}
    steps = []
    while len(set(unit.values())) > 1:
        a, b = chance.choice(
            [s.between for s in tiling.seams if unit[s.between[0]] != unit[s.between[1]]]
        )
        ends = (unit[a], unit[b])
        make = f"u{len(steps) + 1}"
        steps.append(sew(*ends, make=make))
        unit = {piece: make if there in ends else there for piece, there in unit.items()}
    rules = [
        sewing_of(),
        sewing_of(set_in_by=By.MACHINE),
        hand_sewing(),
        sewing_of(machine_from="2 in"),
    ]
    done = sewn(pieces, steps, sewing=rules[seed % 4])
    passed, inside = closings(done)
    assert set(passed) == inside and set(passed.values()) <= {1}
    assert totals(done).turns >= must_turn(tiling)


def must_turn(tiling):
    """At how many inner points no two seams lie opposite: every order turns there once."""
    count = 0
    for junction in tiling.junctions:
        seams = [tiling.seam(id) for id in junction.seams]
        ways = [
            (b[0] - a[0], b[1] - a[1])
            for seam in seams
            for a, b in [(junction.at, seam.end if seam.start == junction.at else seam.start)]
        ]
        opposite = any(
            u[0] * v[1] == u[1] * v[0] and u[0] * v[0] + u[1] * v[1] < 0 for u in ways for v in ways
        )
        count += junction.inside and not opposite
    return count


@pytest.mark.parametrize("seed", range(12))
def test_turning_the_block_changes_neither_cards_nor_turns(seed):
    pieces = mosaic(4 + seed % 7, 4, seed)
    steps = [replace(step, span=span()) for step in planned(tiling_of(pieces), sewing_of())[1]]

    def turned(corner, degrees):
        a = math.radians(degrees)
        x, y = (float(c.value) for c in corner)
        return (x * math.cos(a) - y * math.sin(a), x * math.sin(a) + y * math.cos(a))

    def told(degrees):
        block = [
            polygon(p.id, *(turned(c, degrees) for c in p.shape.corners), fabric=p.fabrics[0])
            for p in pieces
        ]
        return [(s.card, s.turns, s.kind, s.by, s.times) for s in sewn(block, steps).steps]

    assert told(0) == told(90) == told(37)


def test_the_order_is_the_same_every_time():
    tiling = tiling_of(mosaic(9, 5, 3))
    assert planned(tiling, sewing_of())[1] == planned(tiling, sewing_of())[1]
