"""Orders that cannot be sewn: every fault found, in one go, at the smallest place."""

import random

import pytest
from builders import sewing_of
from sewing_blocks import box, codes, finish, grid, outcome, rosette, sew, star, wheel

from booklet.kit.diagnostic import by_cause
from booklet.kit.measure import Length
from booklet.kit.records import replace
from booklet.pattern import By, Ends

TOP = sew("r1c1", "r1c2", make="top")
LOW = sew("r2c1", "r2c2", make="low")
ALL = sew("top", "low")


def test_parts_that_do_not_touch():
    across = sew("r1c1", "r2c2", make="across")
    found = outcome(grid(2, 2), [across, sew("across", "r1c2", "r2c1")])
    (fault,) = found.diagnostics
    assert fault.code == "does-not-touch"
    assert fault.message == "`r2c2` and `r1c1` of block `b` share no seam, so they cannot be joined"
    assert fault.span == across.join_spans[1]
    assert fault.hint == "`r2c2` touches `r1c2` and `r2c1`: join it to one of these"


def test_a_part_that_is_named_too_late_is_told_to_come_first():
    """Of three squares in a row the middle one lies between the others."""
    found = outcome(grid(3, 1), [sew("r1c1", "r1c3", "r1c2")])
    assert [d.code for d in found.diagnostics] == ["does-not-touch"]
    assert found.diagnostics[0].hint == "name `r1c2` before `r1c3`: it touches both"


def test_a_piece_used_twice():
    again = sew("r2c2", "r1c2", make="again")
    found = outcome(grid(2, 2), [TOP, LOW, again, ALL])
    assert [d.code for d in found.diagnostics] == ["used-twice", "used-twice"]
    assert found.diagnostics[0].message == "`r2c2` of block `b` is already sewn into `low`"
    assert found.diagnostics[1].span == again.join_spans[1]


def test_a_piece_twice_in_one_join():
    assert codes(grid(2, 1), [sew("r1c1", "r1c1", "r1c2")]) == ["used-twice"]


def test_a_piece_never_used():
    found = outcome(grid(2, 2), [TOP, sew("top", "r2c1")])
    assert [d.code for d in found.diagnostics] == ["never-used"]
    assert "`r2c2`" in found.diagnostics[0].message


def test_many_pieces_never_used_are_one_fault():
    found = outcome(grid(3, 2), [sew("r1c1", "r1c2")])
    # 6 squares, 2 of them joined: 4 are left
    assert [d.code for d in found.diagnostics] == ["never-used"]
    assert found.diagnostics[0].message == (
        "pieces of block `b` are never joined to anything: `r1c3`, `r2c1`, `r2c2` and `r2c3`"
    )


def test_a_block_left_in_two_units():
    found = outcome(grid(2, 2), [TOP, LOW])
    assert [d.code for d in found.diagnostics] == ["unfinished-block"]
    assert (
        found.diagnostics[0].message
        == "the steps of block `b` end with `top` and `low` still apart"
    )


def test_a_partial_seam_never_finished():
    steps = [sew("c", "a1", leave="a4"), sew("c", "a2"), sew("c", "a3"), sew("c", "a4")]
    found = outcome(wheel(), steps)
    assert [d.code for d in found.diagnostics] == ["partial-left-open"]
    assert found.diagnostics[0].span == steps[0].span


def test_what_is_told_of_an_open_seam_closes_it():
    """The hint names two pieces, for by then the unit `c` is the whole block: followed, nothing is left to be told."""
    steps = [sew("c", "a1", leave="a4"), sew("c", "a2"), sew("c", "a3"), sew("c", "a4")]
    (fault,) = outcome(wheel(), steps).diagnostics
    assert fault.hint == "add `- {finish: [c, a1]}` after the step that joins `a4`"
    closed = outcome(wheel(), [*steps, finish("c", "a1")]).diagnostics
    assert not any(found.is_error for found in closed)


@pytest.mark.parametrize("part", ["c", "a1"])
def test_a_seam_cannot_be_left_open_for_a_part_of_the_same_step(part):
    """`leave: c` in the step that joins c was taken for a seam left open, though c lies there already."""
    steps = [sew("c", "a1", leave=part), sew("c", "a2"), sew("c", "a3"), sew("c", "a4")]
    (told,) = by_cause(outcome(wheel(), [*steps, finish("c", "a1")]).diagnostics)
    assert told.first.message == (
        f"the seam between `c` and `a1` of block `b` cannot be left open for `{part}`, which is joined already"
    )


def test_a_seam_that_is_finished_twice():
    """The first finish closed it: it was not "never left open"."""
    steps = [sew("c", "a1", leave="a4"), sew("c", "a2"), sew("c", "a3"), sew("c", "a4")]
    once = finish("c", "a1")
    (fault,) = outcome(wheel(), [*steps, once, finish("c", "a1")]).diagnostics
    assert fault.code == "finish-without-leave"
    assert fault.message == (
        f"the seam between `c` and `a1` of block `b` is already finished on line {once.span.line}"
    )
    assert fault.hint == "keep one `finish`, after the step that joins `a4`"


def test_nothing_over_papers_is_sewn_by_machine():
    """Whip-stitches go through two folds by hand (common practice); `by: machine` at a step went through in silence."""
    rules = replace(sewing_of(), papers=Length.of("3/8 in"))
    steps = [sew("r1c1", "r1c2", by=By.MACHINE)]
    (fault,) = outcome(grid(2, 1), steps, sewing=rules).diagnostics
    assert (fault.code, fault.span) == ("conflicting-keys", steps[0].span)
    assert not outcome(grid(2, 1), [sew("r1c1", "r1c2", by=By.HAND)], sewing=rules).diagnostics


def test_a_finish_of_nothing():
    steps = [sew("c", "a1"), sew("c", "a2"), sew("c", "a3"), sew("c", "a4"), finish("c", "a1")]
    assert codes(wheel(), steps) == ["finish-without-leave"]


def test_a_seam_cannot_be_left_open_for_a_piece_that_is_elsewhere():
    steps = [sew("r1c1", "r1c2", make="top", leave="r2c3"), sew("top", "r1c3", make="row")]
    steps += [sew("r2c1", "r2c2", "r2c3", make="low"), sew("row", "low")]
    assert codes(grid(3, 2), steps) == ["unsewable-step"]


def test_the_finish_of_a_seam_with_a_wrong_leave_follows_from_it():
    """One slip, one fault: `a3` for `a4`. A finish of another seam is a slip of its own."""
    wrong = [sew("c", "a1", leave="a3"), sew("c", "a2"), sew("c", "a3"), sew("c", "a4")]
    (told,) = by_cause(outcome(wheel(), [*wrong, finish("c", "a1")]).diagnostics)
    assert told.first.code == "unsewable-step"
    assert [fault.code for fault in told.following] == ["finish-without-leave"]
    two = by_cause(outcome(wheel(), [*wrong, finish("c", "a2")]).diagnostics)
    assert [each.first.code for each in two] == ["unsewable-step", "finish-without-leave"]


def test_an_unknown_name():
    found = outcome(grid(2, 2), [sew("r1c1", "r1c3", make="top"), LOW, sew("top", "low")])
    assert "unknown-name" in [d.code for d in found.diagnostics]


def test_edges_declared_where_a_later_step_turns():
    first = sew("c", "a1", make="pair", ends=Ends.EDGES, by=By.MACHINE)
    steps = [first, sew("pair", *(f"a{k}" for k in range(2, 7)), make="all")]
    (fault,) = outcome(rosette(), steps).diagnostics
    assert fault.code == "blocked-set-in"
    assert fault.span == first.span
    assert "step `pair`" in fault.message and "step `b`" not in fault.message
    assert "`all`" in fault.message


def test_edges_declared_do_no_harm_where_nothing_turns():
    edges = [sew("r1c1", "r1c2", make="top", ends=Ends.EDGES), LOW, ALL]
    assert not outcome(grid(2, 2), edges).diagnostics


def test_edges_asked_of_the_whole_pattern_are_blocked_too():
    from booklet.kit.records import replace

    rules = replace(sewing_of(set_in_by=By.MACHINE), ends=Ends.EDGES)
    found = outcome(star(), None, sewing=rules)
    assert {d.code for d in found.diagnostics} == {"blocked-set-in"}


def test_all_faults_are_told_at_once():
    steps = [sew("r1c1", "r2c2", make="x"), sew("r1c1", "r1c2", make="y")]
    # r1c1 used twice leaves y with one part; r1c2 was meant to be used there, r2c1 nowhere
    assert codes(grid(2, 2), steps) == ["does-not-touch", "used-twice", "never-used"]


def test_a_fault_of_one_block_leaves_the_others_alone():
    from builders import block_of, pattern_of

    from booklet.geometry import lay_out
    from booklet.sewing import assemble

    good = block_of([box("a", 0, 0), box("z", 1, 0)], id="good", steps=[sew("a", "z")])
    bad = block_of([box("a", 0, 0), box("z", 1, 0)], id="bad", steps=[sew("a", "a")])
    found = lay_out(pattern_of(blocks=[good, bad])).then(assemble)
    assert list(found.value.assemblies) == [("s", "good")]
    assert [d.code for d in found.diagnostics] == ["used-twice", "never-used"]


def nonsense(seed):
    """Steps put together at random from names that are there, were there, or never were."""
    chance = random.Random(seed)
    names = ["c", "a1", "a2", "a3", "a4", "nobody"]
    steps = []
    for k in range(chance.randint(0, 8)):
        join = [chance.choice(names) for _ in range(chance.choice([2, 2, 2, 3, 4]))]
        leave = chance.choice([None, None, *names])
        if chance.random() < 0.2:
            steps.append(finish(*join[:2]))
        else:
            steps.append(sew(*join, make=chance.choice(["", f"u{k}"]), leave=leave))
            names.append(steps[-1].make)
    return steps


@pytest.mark.parametrize("seed", range(150))
def test_no_order_however_odd_breaks_the_tool(seed):
    steps = nonsense(seed)
    found = outcome(wheel(), steps)
    assert found.diagnostics or found.value.assemblies
    for fault in found.diagnostics:
        assert fault.message[0] == "`" or fault.message[0].islower()
        assert fault.hint and not fault.message.endswith(".")
