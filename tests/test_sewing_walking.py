"""The card of a step and the hand routes: one order of seams, and each seam sewn the same way."""

import random
from collections import Counter

import pytest
import sampling
from planner_mosaics import merged, square_cells, triangle_cells
from sewing_blocks import (
    assert_agrees,
    assert_sound,
    box,
    finish,
    grid,
    hand_sewing,
    outcome,
    polygon,
    rosette,
    sew,
    sewn,
    wheel,
)

from booklet.geometry import lay_out
from booklet.kit.measure import Length
from booklet.kit.records import replace
from booklet.pattern import By, HandRoutes


def random_block(seed):
    """A random block, in a random order of joins of two to four parts, by hand or now and then by machine."""
    chance = random.Random(seed)
    cells = chance.choice([square_cells, triangle_cells])(chance.choice([2, 3]))
    pieces = [
        polygon(f"p{k}", *corners)
        for k, corners in enumerate(merged(cells, chance.randint(4, 9), seed), 1)
    ]
    tiling = lay_out(pattern(pieces)).value.tilings["s", "b"]
    beside = {p.id: set() for p in tiling.pieces}
    for seam in tiling.seams:
        one, other = seam.between
        beside[one].add(other)
        beside[other].add(one)
    units, steps = {p.id: {p.id} for p in tiling.pieces}, []
    while len(units) > 1:
        join = [chance.choice(sorted(units))]
        for _ in range(chance.choice([1, 1, 2, 3])):
            there = set().union(*(units[name] for name in join))
            near = [
                n for n, u in units.items() if n not in join and any(beside[p] & there for p in u)
            ]
            join += [chance.choice(sorted(near))] if near else []
        name = f"u{len(steps)}"
        by = chance.choice([By.HAND, By.HAND, By.HAND, None])
        steps.append(sew(*join, make=name, by=by))
        units[name] = set().union(*(units.pop(part) for part in join))
    return pieces, steps


def pattern(pieces):
    from builders import pattern_of

    return pattern_of(pieces=pieces)


@pytest.mark.parametrize("routes", list(HandRoutes))
@pytest.mark.parametrize("thread", ["18 in", "3 in"])
def test_card_and_threads_of_random_blocks_agree(routes, thread):
    orders, seeds = 0, sampling.some(range(60))
    for seed in seeds:
        pieces, steps = random_block(seed)
        rules = replace(hand_sewing(), routes=routes, thread=Length.of(thread))
        found = outcome(pieces, steps, sewing=rules)
        if any(d.is_error for d in found.diagnostics):
            continue  # an order that no needle can sew
        assembly = found.value.assemblies["s", "b"]
        assert_agrees(assembly)
        for step in assembly.steps:  # each seam on the card once, and whole runs stay whole
            seams = Counter(seam for run in step.runs for seam in run.seams)
            assert set(seams.values()) <= {1}
        orders += 1
    assert 3 * orders > 2 * len(seeds)


def test_ends_are_those_of_the_order_on_the_card():
    for seed in sampling.some(range(60)):
        pieces, steps = random_block(seed)
        found = outcome(pieces, steps)
        if not any(d.is_error for d in found.diagnostics):
            assert_sound(found.value.assemblies["s", "b"])


def test_a_join_is_told_in_the_order_its_thread_takes():
    # low (1, 1) to (0, 1) under a square and two triangles that meet on the slant from (1, 0) to (2, 1).
    # Joined up, down, left, low: the slant, the seam at x = 1, low. One thread does all of it if it begins
    # with left: up from (1, 1) to (1, 0), down the slant to (2, 1), and along low to (0, 1).
    pieces = [
        polygon("up", (1, 0), (2, 0), (2, 1), fabric="sand"),
        polygon("down", (1, 0), (2, 1), (1, 1)),
        box("left", 0, 0),
        box("low", 0, 1, 2, 1),
    ]
    done = sewn(pieces, [sew("up", "down", "left", "low")], sewing=hand_sewing())
    (thread,) = done.threads
    assert thread.points == ((1, 1), (1, 0), (2, 1), (1, 1), (0, 1))
    (step,) = done.steps
    assert [run.points for run in step.runs] == [
        ((1, 1), (1, 0)),
        ((1, 0), (2, 1)),
        ((2, 1), (1, 1), (0, 1)),
    ]
    assert step.join == ("up", "down", "left", "low")


def test_what_no_thread_asks_for_stays_as_joined():
    # three in a row: two seams that no thread can sew one after the other
    for join in (("r1c1", "r1c2", "r1c3"), ("r1c3", "r1c2", "r1c1")):
        done = sewn(grid(3, 1), [sew(*join)], sewing=hand_sewing())
        joined = [done.tiling.seam(run.seams[0]).between for run in done.steps[0].runs]
        assert [set(pair) for pair in joined] == [set(join[:2]), set(join[1:])]


def test_a_run_kept_whole_is_one_go_even_where_it_is_sewn_second():
    done = sewn(rosette(), [sew("c", *(f"a{k}" for k in range(1, 7)))], sewing=hand_sewing())
    # 6 joins, of which the last has two seams at the ring and one at the centre: 6 runs, 12 seams
    (step,) = done.steps
    assert sum(len(run.seams) for run in step.runs) == 12
    assert_agrees(done)


def test_where_threads_part_a_run_the_card_has_its_parts():
    four = [sew("r1c1", "r1c2", make="top"), sew("r2c1", "r2c2", make="low"), sew("low", "top")]
    rules = replace(hand_sewing(), routes=HandRoutes.FEWEST_THREADS)
    done = sewn(grid(2, 2), four, sewing=rules)
    # the long seam is sewn from the centre outward, half by the thread of either row
    assert [len(run.seams) for run in done.steps[2].runs] == [1, 1]
    assert {run.points[0] for run in done.steps[2].runs} == {(1, 1)}
    assert_agrees(done)


def test_a_partial_seam_by_hand_stays_open_at_its_end_and_its_thread_waits_there():
    order = [sew("c", "a1", make="u", leave="a4"), sew("u", "a2", make="v")]
    order += [sew("v", "a3", make="w"), sew("w", "a4", make="x"), finish("c", "a1")]
    done = sewn(wheel(), order, sewing=hand_sewing())
    assert_agrees(done)
    begun, closed = done.steps[0].runs[0], done.steps[4].runs[0]
    # a4 comes at (1, 1): sewn from (2, 1) toward it, and on from there to the rim
    assert begun.points == ((2, 1), (1, 1)) and closed.points == ((2, 1), (1, 1), (0, 1))
    (thread,) = (t for t in done.threads if begun.seams[0] in t.seams)
    assert thread.points == closed.points  # nothing is sewn with it in between
    assert [done.sewn[seam].step for seam in thread.seams] == [1, 5]
