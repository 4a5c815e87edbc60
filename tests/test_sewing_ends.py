"""Where the sewing of each seam stops: at its point, or off the raw edge."""

from builders import sewing_of
from sewing_blocks import box, finish, grid, rosette, sew, sewn, wheel

from booklet.kit.records import replace
from booklet.pattern import By, Ends, PressHabit, PressKind

MACHINE = sewing_of(set_in_by=By.MACHINE)
ORDER = [sew("r1c1", "r1c2", make="top"), sew("r2c1", "r2c2", make="low"), sew("top", "low")]
CENTRE = (1, 1)


def ends(assembly, *pieces):
    """Each end of the seam between two pieces: {point: "edge" or "point"}."""
    seam = next(s for s in assembly.tiling.seams if set(s.between) == set(pieces))
    first, last = assembly.sewn[seam.id].ends
    return {seam.start: first.value, seam.end: last.value}


def test_straight_machine_seams_run_from_edge_to_edge():
    done = sewn(grid(2, 2), ORDER)
    assert ends(done, "r1c1", "r1c2") == {(1, 0): "edge", CENTRE: "edge"}
    assert ends(done, "r1c1", "r2c1") == {(0, 1): "edge", CENTRE: "edge"}


def test_a_seam_stops_where_a_later_run_turns():
    # three squares, then the fourth is set into the corner they leave
    order = [
        sew("r1c1", "r1c2", make="top"),
        sew("top", "r2c2", make="three"),
        sew("three", "r2c1"),
    ]
    done = sewn(grid(2, 2), order, sewing=MACHINE)
    assert [step.turns for step in done.steps] == [0, 0, 1]
    assert ends(done, "r1c1", "r1c2") == {(1, 0): "edge", CENTRE: "point"}
    assert ends(done, "r1c2", "r2c2") == {(2, 1): "edge", CENTRE: "point"}
    assert ends(done, "r1c1", "r2c1") == {(0, 1): "edge", CENTRE: "point"}  # the run's own turn


def test_a_seam_is_sewn_across_a_point_where_a_later_run_goes_straight_on():
    # a T: the short seam must run off the edge that the long one is sewn over
    pieces = [box("a", 0, 0), box("b", 1, 0), box("long", 0, 1, 2, 1)]
    done = sewn(pieces, [sew("a", "b", make="pair"), sew("pair", "long")])
    assert ends(done, "a", "b") == {(1, 0): "edge", (1, 1): "edge"}
    assert len(done.steps[1].runs[0].seams) == 2


def test_points_asked_for_by_the_step_or_by_the_pattern():
    asked = [replace(ORDER[0], ends=Ends.POINTS), *ORDER[1:]]
    done = sewn(grid(2, 2), asked)
    assert set(ends(done, "r1c1", "r1c2").values()) == {"point"}
    assert set(ends(done, "r1c1", "r2c1").values()) == {"edge"}
    everywhere = sewn(grid(2, 2), ORDER, sewing=replace(sewing_of(), ends=Ends.POINTS))
    assert {e.value for how in everywhere.sewn.values() for e in how.ends} == {"point"}
    but_one = [replace(ORDER[0], ends=Ends.AUTO), *ORDER[1:]]
    mixed = sewn(grid(2, 2), but_one, sewing=replace(sewing_of(), ends=Ends.POINTS))
    assert set(ends(mixed, "r1c1", "r1c2").values()) == {"edge"}  # the step's own word goes first


def test_allowances_that_are_fanned_are_left_free():
    done = sewn(grid(2, 2), ORDER, sewing=sewing_of(press=PressHabit.FAN))
    assert ends(done, "r1c1", "r1c2") == {(1, 0): "edge", CENTRE: "point"}
    assert ends(done, "r1c1", "r2c1") == {(0, 1): "edge", CENTRE: "point"}
    one = [*ORDER[:2], sew("top", "low", press=PressKind.FAN)]
    assert ends(sewn(grid(2, 2), one), "r1c1", "r1c2")[CENTRE] == "point"


def test_hand_seams_go_from_point_to_point_on_the_rim_too():
    by_hand = [replace(step, by=By.HAND) for step in ORDER]
    done = sewn(grid(2, 2), by_hand)
    assert ends(done, "r1c1", "r1c2") == {(1, 0): "point", CENTRE: "point"}


def test_machine_rosette_opens_at_every_inner_point():
    done = sewn(rosette(), [sew("c", *(f"a{k}" for k in range(1, 7)))], sewing=MACHINE)
    for k in range(1, 7):
        assert set(ends(done, "c", f"a{k}").values()) == {"point"}
        assert sorted(ends(done, f"a{k}", f"a{k % 6 + 1}").values()) == ["edge", "point"]


def test_the_wheel_with_a_partial_seam_runs_off_every_edge():
    order = [sew("c", "a1", leave="a4"), sew("c", "a2"), sew("c", "a3"), sew("c", "a4")]
    done = sewn(wheel(), [*order, finish("c", "a1")])
    assert {e.value for how in done.sewn.values() for e in how.ends} == {"edge"}


def test_the_wheel_set_in_stops_at_its_one_turn():
    done = sewn(wheel(), [sew("c", f"a{k}") for k in (1, 2, 3, 4)], sewing=MACHINE)
    stops = [
        (seam.between, at)
        for seam in done.tiling.seams
        for at, end in zip((seam.start, seam.end), done.sewn[seam.id].ends, strict=True)
        if end.value == "point"
    ]
    assert {at for _, at in stops} == {(1, 1)}
    assert len(stops) == 3  # the three seams that end there: c-a1, c-a4, a1-a4
