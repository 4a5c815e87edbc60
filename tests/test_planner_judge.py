"""Judging a declared order: its turns beside the fewest, and the warnings about risky steps."""

import pytest
from builders import sewing_of
from sewing_blocks import box, finish, grid, outcome, polygon, rosette, sew, sewn, star, wheel

from booklet.sewing.planner.judge import Verdict, judge


def warnings(pieces, steps):
    found = outcome(pieces, steps)
    assert not any(d.is_error for d in found.diagnostics)
    return [(d.code, d.message) for d in found.diagnostics]


def codes(pieces, steps):
    return [code for code, _ in warnings(pieces, steps)]


OUTWARD = [  # a nine-patch from its middle outward: each of the four inner points turns once
    sew("r2c2", "r1c2", "r1c1", make="one"),
    sew("one", "r2c1", "r3c1", make="two"),
    sew("two", "r3c2", "r3c3", make="three"),
    sew("three", "r2c3", "r1c3", make="b"),
]
ROWS = [
    sew("r1c1", "r1c2", "r1c3", make="row1"),
    sew("r2c1", "r2c2", "r2c3", make="row2"),
    sew("r3c1", "r3c2", "r3c3", make="row3"),
    sew("row1", "row2", "row3", make="b"),
]


def test_a_verdict_in_words():
    verdict = judge(sewn(grid(3, 3), OUTWARD), sewing_of())
    assert (verdict.turns, verdict.set_ins, verdict.best_turns) == (4, 4, 0)
    assert verdict.sentence == "4 turns in 4 set-ins; no turns are needed"
    assert verdict.is_clearly_worse
    assert judge(sewn(grid(3, 3), ROWS), sewing_of()).sentence == "no turns"


@pytest.mark.parametrize(
    ("turns", "best", "clearly"),
    [
        (4, 0, True),
        (1, 0, False),
        (2, 0, True),
        (7, 3, True),
        (4, 3, False),
        (8, 6, False),
        (9, 6, True),
    ],
)
def test_clearly_worse_is_two_more_and_half_as_many_again(turns, best, clearly):
    assert (
        Verdict(
            turns=turns,
            set_ins=1,
            partials=0,
            best_turns=best,
            bound=best,
            proven=True,
        ).is_clearly_worse
        == clearly
    )


def test_where_the_least_is_not_proven_both_figures_are_told():
    verdict = Verdict(turns=9, set_ins=5, partials=0, best_turns=6, bound=5, proven=False)
    assert verdict.sentence == "9 turns in 5 set-ins; 6 turns will do, at least 5 are needed"


def test_more_turns_than_needed():
    assert warnings(grid(3, 3), OUTWARD) == [
        (
            "more-turns-than-needed",
            "the order of block `b` has 4 turns in 4 set-ins, but can be sewn without a turn",
        )
    ]
    assert warnings(grid(3, 3), ROWS) == []


def test_a_partial_seam_is_no_turn():
    steps = [
        sew("c", "a1", make="p", leave="a4"),
        sew("p", "a2", make="q"),
        sew("q", "a3", make="r"),
        sew("r", "a4", make="b"),
        finish("c", "a1"),
    ]
    verdict = judge(sewn(wheel(), steps), sewing_of())
    assert (verdict.turns, verdict.partials, verdict.best_turns) == (0, 1, 1)
    assert warnings(wheel(), steps) == []


def test_one_turn_in_a_wheel_is_as_good_as_it_gets():
    steps = [sew("c", "a1", make="p"), sew("p", "a2", make="q"), sew("q", "a3", make="r")]
    assert warnings(wheel(), [*steps, sew("r", "a4", make="b")]) == []


def test_a_ring_closed_alone():
    around = [f"a{k}" for k in range(1, 7)]
    assert codes(rosette(), [sew(*around, make="ring"), sew("ring", "c")]) == ["ring-closed-alone"]
    halves = [sew(*around[:3], make="h1"), sew(*around[3:], make="h2")]
    assert codes(rosette(), [*halves, sew("h1", "h2", make="ring"), sew("ring", "c")]) == [
        "ring-closed-alone"
    ]
    assert codes(rosette(), [*halves, sew("h1", "c", make="half"), sew("half", "h2")]) == []


def test_a_ring_is_not_warned_of_where_another_order_turns_more():
    # c in a ring of two: 4 corners of c; without a ring 2 + 4 = 6 (see the planner's tests)
    u = polygon("u", (0, 0), (6, 0), (6, 3), (4, 3), (4, 2), (2, 2), (2, 3), (0, 3))
    v = polygon("v", (0, 3), (2, 3), (2, 4), (4, 4), (4, 3), (6, 3), (6, 6), (0, 6))
    pieces = [box("c", 2, 2, 2, 2), u, v]
    assert codes(pieces, [sew("u", "v", make="pair"), sew("c", "pair")]) == []


def test_many_runs_at_once():
    around = [f"a{k}" for k in range(1, 7)]
    # sides of 1 in, all by hand: one thread sets the petals on one after the other, which is one thing six times over
    assert codes(rosette(), [sew("c", *around)]) == []
    # of which every other is a pair: those are no patches
    steps = [sew("a1", "a2", make="p"), sew("a3", "a4", make="q"), sew("a5", "a6", make="r")]
    steps.append(sew("c", "p", "q", "r"))
    assert "many-runs-at-once" not in codes(rosette(), steps)  # three runs
    ring = [f"r{k // 4 + 1}c{k % 4 + 1}" for k in (5, 1, 0, 4, 8, 9, 10, 6, 2, 3, 7, 11)]
    assert "many-runs-at-once" in codes(
        grid(4, 3, cell=3), [sew(*ring)]
    )  # 12 squares of 3 in, by machine
    row = [box(f"p{k}", k, 0) for k in range(8)]
    assert codes(row, [sew(*(p.id for p in row))]) == []  # a row of straight seams is no trouble


def test_look_alike_units():
    left, right = polygon("l", (0, 0), (1, 2), (0, 2)), polygon("r", (2, 0), (2, 2), (1, 2))
    sail = polygon("s", (0, 0), (2, 0), (1, 2), fabric="sand")
    assert codes([left, sail, right], [sew("l", "s", "r")]) == ["look-alike-units"]
    near = [box("a", 0, 0, 1, 1), box("o", 1, 0, 1.05, 1)]
    assert codes(near, [sew("a", "o")]) == []  # a square and an oblong are told apart by name
    oblongs = [box("a", 0, 0, 2, 1), box("o", 2, 0, 2.1, 1)]
    assert codes(oblongs, [sew("a", "o")]) == ["look-alike-units"]
    assert codes(grid(2, 1), [sew("r1c1", "r1c2")]) == []


def test_what_the_tool_finds_itself_is_never_warned_about():
    for pieces in (grid(3, 3), wheel(), rosette(), star()):
        assert outcome(pieces).diagnostics == ()
