"""Steps, runs and turns of blocks that can be counted by hand."""

import math

import pytest
from builders import piece, sewing_of
from sewing_blocks import (
    box,
    finish,
    grid,
    hand_sewing,
    polygon,
    quarter_circle,
    rosette,
    sew,
    sewn,
    star,
    wheel,
)

from booklet.geometry.patches.headings import leaving
from booklet.pattern import By, ShortSeams
from booklet.sewing.assembly import StepKind
from booklet.sewing.totals import totals


def seams_of(assembly, *pieces):
    """The seam between two pieces."""
    return next(s.id for s in assembly.tiling.seams if set(s.between) == set(pieces))


def test_a_four_patch_takes_two_pairs_and_one_long_seam():
    steps = [
        sew("r1c1", "r1c2", make="top"),
        sew("r2c1", "r2c2", make="bottom"),
        sew("top", "bottom", make="all"),
    ]
    done = sewn(grid(2, 2), steps)
    assert [step.make for step in done.steps] == ["top", "bottom", "b"]  # the last makes the block
    assert [step.kind for step in done.steps] == [StepKind.STRAIGHT] * 3
    assert [len(step.runs[0].seams) for step in done.steps] == [1, 1, 2]
    assert [step.level for step in done.steps] == [1, 1, 2]
    assert [step.rectangle for step in done.steps] == [(2, 1), (2, 1), (2, 2)]
    # the half turn carries the top pair onto the bottom one: same fabrics, so one card
    assert [step.times for step in done.steps] == [2, 2, 1]
    assert [step.card for step in done.steps] == [1, 1, 2]
    assert [step.batch for step in done.steps] == [1, 1, 2]
    assert done.units["top"] == ("r1c1", "r1c2")
    assert totals(done).machine_in == pytest.approx(4)  # 1 + 1 + 2
    assert totals(done).turns == 0
    assert all(end.value == "edge" for how in done.sewn.values() for end in how.ends)


def test_a_join_of_three_is_one_step_with_two_runs():
    rows = [sew(*(f"r{r}c{c}" for c in (1, 2, 3)), make=f"row{r}") for r in (1, 2, 3)]
    done = sewn(grid(3, 3), [*rows, sew("row1", "row2", "row3")])
    assert [len(step.runs) for step in done.steps] == [2, 2, 2, 2]
    assert [len(run.seams) for run in done.steps[-1].runs] == [3, 3]
    assert [step.times for step in done.steps] == [2, 1, 2, 1]  # rows 1 and 3 are alike
    assert [step.card for step in done.steps] == [1, 2, 1, 3]


def test_a_log_cabin_round_is_straight_throughout():
    logs = [
        box("c", 2, 2, fabric="red"),
        box("l1", 3, 2, 1, 1),
        box("l2", 2, 3, 2, 1),
        box("l3", 1, 2, 1, 2),
        box("l4", 1, 1, 3, 1),
    ]
    steps = [sew("c", "l1", make="u1")]
    steps += [sew(f"u{k - 1}", f"l{k}", make=f"u{k}") for k in (2, 3, 4)]
    done = sewn(logs, steps)
    assert [len(step.runs[0].seams) for step in done.steps] == [1, 2, 2, 3]
    assert all(step.kind is StepKind.STRAIGHT and step.by is By.MACHINE for step in done.steps)
    assert [step.rectangle for step in done.steps] == [(2, 1), (2, 2), (3, 2), (3, 3)]


def test_a_star_has_its_squares_and_triangles_set_in():
    steps = [sew(f"d{k}", f"d{k + 1}", make=f"pair{k}") for k in (1, 3, 5, 7)]
    steps += [sew("pair1", "pair3", make="half1"), sew("pair5", "pair7", make="half2")]
    steps += [sew("half1", "half2", make="star")]
    unit = "star"
    for k in (1, 2, 3, 4):
        steps.append(sew(unit, f"s{k}", make=f"with s{k}"))
        unit = f"with s{k}"
    for k in (1, 2, 3, 4):
        steps.append(sew(unit, f"t{k}", make=f"with t{k}"))
        unit = f"with t{k}"
    done = sewn(star(), steps)
    assert (
        len(done.tiling.seams) == 24
    )  # 8 between diamonds, 2 for each of 4 squares and 4 triangles
    kinds = [step.kind for step in done.steps]
    assert kinds == [StepKind.STRAIGHT] * 7 + [StepKind.SET_IN] * 8
    assert [step.turns for step in done.steps] == [0] * 7 + [1] * 8  # one inward corner each
    assert [step.times for step in done.steps[:7]] == [4] * 4 + [2] * 2 + [1]
    assert [step.by for step in done.steps] == [By.MACHINE] * 7 + [By.HAND] * 8
    assert [run.seams for run in done.steps[6].runs] != []
    assert len(done.steps[6].runs[0].seams) == 2  # straight through the centre
    # the diamonds' seams stop where a square or triangle comes, and run off at the centre
    for seam in done.tiling.seams:
        if {p[0] for p in seam.between} == {"d"}:
            centre = done.tiling.width / 2
            for end, at in zip(done.sewn[seam.id].ends, (seam.start, seam.end), strict=True):
                middle = math.dist(at, (centre, centre)) < 1e-6
                assert end.value == ("edge" if middle else "point")
    sums = totals(done)
    assert (sums.seams, sums.set_in_joins, sums.turns) == (24, 8, 8)
    assert sums.machine_in == pytest.approx(16)  # 8 seams of 2 in
    assert sums.hand_in == pytest.approx(32)  # 16 seams of 2 in


def test_a_rosette_sewn_round_its_centre():
    steps = [sew("c", *(f"a{k}" for k in range(1, 7)))]
    done = sewn(rosette(), steps)
    step = done.steps[0]
    assert step.kind is StepKind.SET_IN
    assert [len(run.seams) for run in step.runs] == [1, 2, 2, 2, 2, 3]  # 12 seams
    assert [len(run.turns) for run in step.runs] == [0, 1, 1, 1, 1, 2]
    assert step.turns == 6  # every one of the 6 inner points is a Y
    assert [run.by for run in step.runs] == [By.MACHINE] + [By.HAND] * 5
    assert step.by is By.HAND  # by machine only if all of it is


def test_a_ring_closed_on_its_own_and_its_centre_set_in():
    ring = [sew(*(f"a{k}" for k in range(1, 7)), make="ring")]
    done = sewn(rosette(), [*ring, sew("ring", "c")])
    ring_step, centre = done.steps
    assert ring_step.kind is StepKind.RING
    assert [len(run.seams) for run in ring_step.runs] == [1, 1, 1, 1, 1, 1]  # the last in two goes
    assert ring_step.turns == 0
    assert centre.kind is StepKind.RING
    assert len(centre.runs) == 1
    assert centre.runs[0].points[0] == centre.runs[0].points[-1]
    assert centre.turns == 6  # a set-in with six corners
    assert all(end.value == "point" for end in done.sewn[seams_of(done, "c", "a1")].ends)


def test_an_elongated_hexagon_cross_turns_once_at_every_corner_of_its_square():
    rise = 0.5 + math.sqrt(0.5)  # half the square, and half the height of a hexagon on its tip
    pieces = [
        piece("c", "square", side=1, at=(0, 0), fabric="sand"),
        piece("n", "elongated hexagon", side=1, at=(0, -rise), ring=((0, 0), 4)),
    ]
    done = sewn(pieces, [sew("c", "n1", "n2", "n3", "n4")])
    assert len(done.tiling.seams) == 8  # 4 round the square, 4 between hexagons
    assert [len(run.turns) for run in done.steps[0].runs] == [0, 1, 1, 2]  # 4 Y points
    pairs = [sew("n1", "c", make="one"), sew("one", "n3", make="two")]
    pairs += [sew("two", "n2", make="three"), sew("three", "n4")]
    other = sewn(pieces, pairs)
    assert [step.turns for step in other.steps] == [0, 0, 2, 2]  # still 4
    assert [step.times for step in other.steps] == [1, 1, 1, 1]


def test_the_wheel_needs_one_partial_seam():
    steps = [
        sew("c", "a1", leave="a4"),
        sew("c", "a2"),
        sew("c", "a3"),
        sew("c", "a4"),
        finish("c", "a1"),
    ]
    done = sewn(wheel(), steps)
    kinds = [step.kind for step in done.steps]
    assert kinds == [StepKind.PARTIAL, *[StepKind.STRAIGHT] * 3, StepKind.PARTIAL]
    assert totals(done).turns == 0
    first, last = done.steps[0], done.steps[-1]
    open_seam, waits = seams_of(done, "c", "a1"), seams_of(done, "a1", "a4")
    assert first.leave == "a4" and not first.finish
    assert first.runs[0].seams == (open_seam,)
    assert first.runs[0].points[-1] == (1, 1)  # stops short of where a4 will come
    assert last.finish and last.runs[0].seams == (open_seam, waits)
    assert done.sewn[open_seam].step == 1  # a partial seam belongs to the step that begins it
    assert done.sewn[waits].step == 5
    assert [step.make for step in done.steps] == [
        "c with a1",
        "c with a2",
        "c with a3",
        "c with a4",
        "b",
    ]
    assert done.steps[1].join == ("c with a1", "a2")
    assert done.steps[-1].join == ("c", "a1")


def test_the_wheel_without_a_partial_seam_has_a_turn():
    steps = [sew("c", "a1"), sew("c", "a2"), sew("c", "a3"), sew("c", "a4")]
    assert [step.turns for step in sewn(wheel(), steps).steps] == [0, 0, 0, 1]


def test_a_partial_seam_by_hand_lies_on_one_thread_once():
    steps = [
        sew("c", "a1", leave="a4"),
        sew("c", "a2"),
        sew("c", "a3"),
        sew("c", "a4"),
        finish("c", "a1"),
    ]
    done = sewn(wheel(), steps, sewing=hand_sewing())
    assert sum(len(thread.seams) for thread in done.threads) == len(done.tiling.seams)
    assert {step.by for step in done.steps} == {By.HAND}


def test_a_curved_seam_is_no_turn():
    done = sewn(quarter_circle(), [sew("pie", "rest")])
    assert done.steps[0].kind is StepKind.CURVED
    assert done.steps[0].turns == 0
    assert done.tiling.seams[0].length == pytest.approx(math.pi, rel=1e-3)  # a quarter of 2 pi 2 in
    assert done.steps[0].rectangle == pytest.approx((3, 3))


def test_a_curve_in_two_stretches_is_sewn_on_smoothly():
    arc = "M 0 1 A 2 2 0 0 1 {} {} L 0 3 Z"
    x = 2 * math.sqrt(0.5)
    pieces = [
        piece("p1", "path", outline=arc.format(x, 3 - x)),
        piece("p2", "path", outline=f"M {x} {3 - x} A 2 2 0 0 1 2 3 L 0 3 Z", fabric="red"),
        piece("rest", "path", outline="M 0 0 L 3 0 L 3 3 L 2 3 A 2 2 0 0 0 0 1 Z", fabric="sand"),
    ]
    done = sewn(pieces, [sew("p1", "p2", make="pie"), sew("pie", "rest")])
    assert done.steps[1].kind is StepKind.CURVED
    assert len(done.steps[1].runs[0].seams) == 2
    assert done.steps[1].turns == 0


def test_the_size_decides_what_is_sewn_by_hand():
    order = [sew("r1c1", "r1c2", make="top"), sew("r2c1", "r2c2", make="low"), sew("top", "low")]
    assert {step.by for step in sewn(grid(2, 2), order).steps} == {By.MACHINE}
    # pairs of 7/16 in, the long seam of 7/8 in: all shorter than `machine from: 1 in`
    small = sewn(grid(2, 2), order, unit="7/16 in")
    assert {step.by for step in small.steps} == {By.HAND}
    assert {end.value for how in small.sewn.values() for end in how.ends} == {"point"}
    assert totals(small).machine_in == 0
    declared = [sew("r1c1", "r1c2", make="top", by=By.MACHINE), *order[1:]]
    assert sewn(grid(2, 2), declared, unit="7/16 in").steps[0].by is By.MACHINE


def test_a_seam_over_several_patches_counts_from_end_to_end():
    """Pairs of 3/4 in by hand as the author says, the long seam of 2 x 3/4 in = 1 1/2 in by machine."""
    order = [sew("r1c1", "r1c2", make="top"), sew("r2c1", "r2c2", make="low"), sew("top", "low")]
    steps = sewn(grid(2, 2), order, unit="3/4 in").steps
    assert [step.by for step in steps] == [By.HAND, By.HAND, By.MACHINE]


def test_left_out_only_short_seams_at_corners_to_set_in_are_sewn_by_hand():
    """Small squares run through the machine edge to edge; where three hexagons meet, a seam stops at a dot."""
    unsaid = sewing_of(short=ShortSeams.AT_CORNERS, set_in_by=By.MACHINE)
    order = [sew("r1c1", "r1c2", make="top"), sew("r2c1", "r2c2", make="low"), sew("top", "low")]
    squares = sewn(grid(2, 2), order, unit="1/2 in", sewing=unsaid)
    assert {step.by for step in squares.steps} == {By.MACHINE}
    petals = [sew("c", "a1"), sew("c", *(f"a{k}" for k in range(2, 7)))]
    assert {step.by for step in sewn(rosette(), petals, unit="3/4 in", sewing=unsaid).steps} == {
        By.HAND
    }
    assert {step.by for step in sewn(rosette(), petals, unit="1 in", sewing=unsaid).steps} == {
        By.MACHINE
    }


def test_set_ins_go_by_machine_where_the_rules_say_so():
    steps = [sew("c", *(f"a{k}" for k in range(1, 7)))]
    done = sewn(rosette(), steps, sewing=sewing_of(set_in_by=By.MACHINE))
    assert done.steps[0].by is By.MACHINE
    assert done.threads == ()


def test_a_seam_that_goes_round_a_notch_is_one_closed_run_from_the_rim():
    pieces = [
        polygon("left", (0, 0), (2, 0), (2, 1), (1, 2), (2, 4), (0, 4)),
        polygon("right", (2, 0), (4, 0), (4, 4), (2, 4), (3, 2), (2, 1)),
        polygon("kite", (2, 1), (3, 2), (2, 4), (1, 2), fabric="sand"),
    ]
    done = sewn(pieces, [sew("left", "right", make="frame"), sew("frame", "kite")])
    (run,) = done.steps[1].runs
    assert done.steps[1].kind is StepKind.RING
    assert run.points[0] == run.points[-1] == (2, 4)  # where the notch closes on the rim
    assert len(run.turns) == 3  # the three inner corners; a run begins and ends at the rim


def test_one_piece_is_a_block_without_steps():
    assert sewn([box("only", 0, 0)], []).steps == ()
    assert sewn([box("only", 0, 0)], None).steps == ()


def test_a_unit_is_a_rectangle_only_if_it_fills_one():
    # a U: its hull is the square, but the middle is missing till m comes
    u = [box("l", 0, 0, 1, 3), box("low", 1, 2, 1, 1), box("r", 2, 0, 1, 3)]
    done = sewn([*u, box("m", 1, 0, 1, 2)], [sew("l", "low", "r", make="u"), sew("u", "m")])
    assert [step.rectangle for step in done.steps] == [None, (3, 3)]


def test_a_rectangle_that_stands_on_its_corner_is_measured_along_its_sides():
    r = math.sqrt(0.5)
    pieces = [
        polygon("a", (0, 0), (2 * r, 2 * r), (r, 3 * r), (-r, r)),  # 2 wide, 1 high, turned by 45
        polygon("z", (2 * r, 2 * r), (3 * r, 3 * r), (2 * r, 4 * r), (r, 3 * r), fabric="sand"),
    ]
    assert sewn(pieces, [sew("a", "z")]).steps[0].rectangle == pytest.approx((3, 1))


def test_a_disc_all_the_way_round_is_set_in_by_hand():
    disc = "M 1 2 A 1 1 0 0 1 3 2 A 1 1 0 0 1 1 2 Z"
    pieces = [
        piece("disc", "path", outline=disc, fabric="red"),
        piece("top", "path", outline="M 0 0 L 4 0 L 4 2 L 3 2 A 1 1 0 0 0 1 2 L 0 2 Z"),
        piece("low", "path", outline="M 0 2 L 1 2 A 1 1 0 0 0 3 2 L 4 2 L 4 4 L 0 4 Z"),
    ]
    done = sewn(pieces, [sew("top", "low", make="frame"), sew("frame", "disc")])
    assert [step.kind for step in done.steps] == [
        StepKind.RING,
        StepKind.RING,
    ]  # frame: two stretches
    assert [step.turns for step in done.steps] == [0, 0]
    assert [step.by for step in done.steps] == [By.MACHINE, By.HAND]


def test_what_was_begun_by_hand_is_finished_by_hand():
    steps = [sew("c", "a1", leave="a4", by=By.HAND), sew("c", "a2"), sew("c", "a3"), sew("c", "a4")]
    done = sewn(wheel(), [*steps, finish("c", "a1")])
    by = [step.by for step in done.steps]
    assert by == [By.HAND, By.MACHINE, By.MACHINE, By.MACHINE, By.HAND]


def test_the_direction_of_a_coarse_arc_is_that_of_its_circle():
    def on(degrees):
        return (math.cos(math.radians(degrees)), math.sin(math.radians(degrees)))

    # at (1, 0) the circle runs straight along y, whatever the chords of 30 degrees say
    assert leaving((on(0), on(30), on(60))) == pytest.approx(math.pi / 2)
    assert leaving((on(0), on(20), on(50))) == pytest.approx(math.pi / 2)
    assert leaving((on(0), on(30))) == pytest.approx(math.radians(105))  # 90 + 30 / 2
