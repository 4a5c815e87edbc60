"""Hand routes over the steps of a block."""

import pytest
from sewing_blocks import grid, hand_sewing, rosette, sew, sewn

from booklet.kit.records import replace
from booklet.pattern import By, HandRoutes


def fewest():
    """All by hand, runs parted where that saves a thread."""
    return replace(hand_sewing(), routes=HandRoutes.FEWEST_THREADS)


FOUR = [sew("r1c1", "r1c2", make="top"), sew("r2c1", "r2c2", make="low"), sew("low", "top")]


def test_a_long_seam_lies_whole_on_one_thread():
    done = sewn(grid(2, 2), FOUR, sewing=hand_sewing())
    # a thread for either row, and one for the long seam of two seams past the centre
    assert [len(thread.seams) for thread in done.threads] == [1, 1, 2]
    # 4 in of seam: one thread of 18 in is long enough for all, whichever way it would go
    assert (done.fewest_threads, done.parted_threads) == (1, 2)


def test_a_four_patch_takes_two_threads_where_they_may_part_its_long_seam():
    done = sewn(grid(2, 2), FOUR, sewing=fewest())
    # the threads of both rows end at the centre, and each sews one half of the long seam from there:
    # 4 seams at 4 points of the rim, so 2 threads are the fewest there can be
    assert [len(thread.seams) for thread in done.threads] == [2, 2]
    assert [thread.through for thread in done.threads] == [
        (1,),
        (1,),
    ]  # the other row's seam ends there


def test_a_thread_goes_on_into_the_next_step_where_that_begins():
    # c-a1 ends where the run c-a2, a1-a2 does not begin; sewn in one step the six make fewer threads
    rounds = [sew("c", "a1", make="u1")]
    rounds += [sew(f"u{k - 1}", f"a{k}", make=f"u{k}") for k in range(2, 7)]
    done = sewn(rosette(), rounds, sewing=hand_sewing())
    assert sum(len(thread.seams) for thread in done.threads) == 12
    one = sewn(rosette(), [sew("c", *(f"a{k}" for k in range(1, 7)))], sewing=hand_sewing())
    # 12 odd points (6 round the centre with 3 seams, 6 on the rim with 1): one thread begins at one and ends at
    # another, and goes back over 1 in to each of the 5 other corners of the heart
    (thread,) = one.threads
    assert thread.length == pytest.approx(12) and thread.gone_back == pytest.approx(5)
    # 12 and 5 in on 18; a new thread costs 1 1/2 in, going back 1 in
    assert one.route_cost == pytest.approx(1.5 + 5) and one.route_gap == 0


def test_a_strip_of_triangles_round_a_point_is_led_on():
    # a row of squares turned into an L: the first seam ends where the second begins
    pieces = grid(2, 2)
    order = [
        sew("r1c1", "r1c2", make="top"),
        sew("top", "r2c2", make="three"),
        sew("three", "r2c1"),
    ]
    done = sewn(pieces, order, sewing=hand_sewing())
    # top's seam ends at the centre; the seam r1c2-r2c2 begins there: one thread, turning once.
    # The last run, two seams with a turn at the centre, begins at the rim.
    assert [len(thread.seams) for thread in done.threads] == [2, 2]
    assert [thread.turns for thread in done.threads] == [1, 1]
    assert done.steps[1].runs[0].points[0] == (1, 1)  # the run goes the way its thread goes


def test_a_thread_is_no_longer_than_it_is():
    order = [
        sew("r1c1", "r1c2", make="top"),
        sew("top", "r2c2", make="three"),
        sew("three", "r2c1"),
    ]
    done = sewn(grid(2, 2, cell=10), order, sewing=hand_sewing())
    # 10 in seams on 18 in threads: no two on one
    assert [thread.length for thread in done.threads] == [10, 10, 10, 10]


def test_machine_work_between_breaks_the_thread():
    order = [
        sew("r1c1", "r1c2", make="top", by=By.HAND),
        sew("r2c1", "r2c2", make="low", by=By.MACHINE),
        sew("top", "low", by=By.HAND),
    ]
    done = sewn(grid(2, 2), order)
    assert [len(thread.seams) for thread in done.threads] == [1, 2]


def test_a_thread_goes_on_from_its_end_not_from_its_beginning():
    # the third seam begins where the first one did; the needle is at the end of the second
    order = [
        sew("r2c1", "r2c2", make="middle"),
        sew("middle", "r3c2", make="lower"),
        sew("lower", "r1c2", make="four"),
        sew("four", "r1c1", make="five"),
        sew("five", "r3c1"),
    ]
    done = sewn(grid(2, 3), order, sewing=hand_sewing())
    first, second = done.threads[0], done.threads[1]
    assert first.points == ((1, 1), (1, 2), (2, 2))
    assert second.seams[0] == done.steps[2].runs[0].seams[0]
