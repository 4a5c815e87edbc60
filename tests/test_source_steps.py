"""Floor 2: steps, with `times` and `#` written out."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st
from source_helpers import HEAD, faults, read, the_block

from booklet.kit.diagnostic import by_cause
from booklet.pattern import By, Ends, PressKind
from booklet.source.blocks.steps import written_out

BLOCK = (
    HEAD
    + """\
patches:
  sq: {shape: square, side: 1}
blocks:
  b:
    pieces:
      - {id: c, patch: sq, fabric: ink, at: [0, 0], ring: {centre: [2, 2], times: 4}}
      - {id: n, patch: sq, fabric: ink, at: [0, 1], ring: {centre: [2, 2], times: 4}}
    sew:
"""
)


def steps(*lines):
    found = the_block(BLOCK + "".join(f"      - {{{line}}}\n" for line in lines)).steps
    assert found is not None
    return found


def test_numbers_are_written_out():
    found = steps(
        "make: pair#, join: [c#, n#+1], times: 4, by: machine, ends: points, press: toward n#+1, note: Chain."
    )
    assert [s.make for s in found] == ["pair1", "pair2", "pair3", "pair4"]
    assert [s.join for s in found] == [("c1", "n2"), ("c2", "n3"), ("c3", "n4"), ("c4", "n1")]
    assert [s.press.of for s in found if s.press] == ["n2", "n3", "n4", "n1"]
    assert [(s.entry, s.times) for s in found] == [(0, 4)] * 4
    assert {(s.by, s.ends, s.note) for s in found} == {(By.MACHINE, Ends.POINTS, "Chain.")}


@given(st.integers(1, 12), st.integers(1, 12), st.integers(-30, 30))
def test_counting_wraps_round(k, times, by):
    k = min(k, times)
    found = written_out(f"a#{by:+d}b", k, times)
    expected = k
    for _ in range(abs(by)):  # step by step round the ring
        expected += 1 if by > 0 else -1
        expected = 1 if expected > times else times if expected < 1 else expected
    assert found == f"a{expected}b"


def test_partial_seams():
    first, second, last = steps(
        "join: [c1, n1], leave: n4", "make: u, join: [c1, n2]", "finish: [c1, n1]"
    )
    assert (first.make, first.leave) == ("c1", "n4")  # without `make` the first part keeps its name
    assert (last.make, last.join, last.finish) == ("", ("c1", "n1"), True)
    assert second.join == ("c1", "n2")


@pytest.mark.parametrize(
    ("written", "kind", "of"),
    [("toward c1", PressKind.TOWARD, "c1"), ("away from n1", PressKind.AWAY, "n1"),
     ("open", PressKind.OPEN, None), ("fan", PressKind.FAN, None)],
)  # fmt: skip
def test_pressing_wishes(written, kind, of):
    (step,) = steps(f"make: u, join: [c1, n1], press: {written}")
    assert step.press is not None and (step.press.kind, step.press.of) == (kind, of)


def test_the_tool_finds_the_order():
    assert the_block(BLOCK.removesuffix("    sew:\n")).steps is None
    assert the_block(BLOCK.removesuffix("    sew:\n") + "    sew: auto\n").steps is None


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        (["make: u, join: [c1, m1]"], ("unknown-name", 15, 30)),
        (["make: u, join: [v, n1]", "make: v, join: [c1, n2]"], ("unknown-name", 15, 26)),
        (["make: c1, join: [c2, n1]"], ("duplicate-name", 15, 16)),
        (["make: u, join: [c1, n1]", "make: u, join: [c2, n2]"], ("duplicate-name", 16, 16)),
        (["make: u, join: [c#, n#], times: 2"], ("duplicate-name", 15, 16)),
        (["make: u#, join: [c#, n#]"], ("missing-key", 15, 9)),
        (["make: u#, join: [c#, n#], times: 5"], ("unknown-name", 15, 27)),
        (["make: u, join: [c1]"], ("wrong-kind", 15, 25)),
        (["make: u"], ("missing-key", 15, 9)),
        (["make: u, join: [c1, n1], by: feet"], ("wrong-kind", 15, 39)),
        (["make: u, join: [c1, n1], press: up"], ("wrong-kind", 15, 42)),
        (["make: u, join: [c1, n1], press: toward q"], ("unknown-name", 15, 42)),
        (["join: [c1, n1], leave: q"], ("unknown-name", 15, 33)),
        (["join: [c1, n1], finish: [c1, n1]"], ("conflicting-keys", 15, 26)),
        (["make: u, finish: [c1, n1]"], ("conflicting-keys", 15, 10)),
        (["make: u/v, join: [c1, n1]"], ("bad-name", 15, 16)),
        (["make: u, joint: [c1, n1], join: [c1, n1]"], ("unknown-key", 15, 19)),
    ],
)
def test_faulty_steps(lines, expected):
    found = faults(BLOCK + "".join(f"      - {{{line}}}\n" for line in lines))
    assert expected in found
    assert {code for code, _, _ in found} == {expected[0]}


def told(*lines):
    found = read(BLOCK + "".join(f"      - {{{line}}}\n" for line in lines)).diagnostics
    return by_cause(d for d in found if d.is_error)


def test_a_number_sign_forgotten_is_one_fault_that_the_others_follow():
    (one,) = told("make: u, join: [c1, n1], times: 4", "make: all, join: [u1, u2, u3, u4]")
    assert one.first.code == "used-twice"
    hint = "put a `#` where the numbers count, as in `make: u#, join: [c#, n#]`"
    assert one.first.hint == hint
    assert [d.code for d in one.following] == ["unknown-name"] * 4  # u1, u2, u3, u4


def test_a_number_sign_forgotten_in_the_name_alone():
    (one,) = told("make: u, join: [c#, n#], times: 4", "make: all, join: [u1, u2, u3, u4]")
    assert (one.first.code, one.first.hint) == (
        "duplicate-name",
        "write `u#`, so that they are numbered",
    )
    assert len(one.following) == 4


def test_a_number_sign_forgotten_among_the_parts_alone():
    (one,) = told("make: u#, join: [c1, n1], times: 4", "make: all, join: [u1, u2, u3, u4]")
    assert one.first.code == "used-twice" and one.following == ()


def test_a_name_misspelt_is_one_fault_for_all_its_numbers():
    (one,) = told("make: u#, join: [d#, n#], times: 4", "make: all, join: [u1, u2, u3, u4]")
    assert one.first.message == "there is no piece or unit `d1` when step 1 begins"
    assert len(one.following) == 3  # d2, d3, d4


def test_a_step_done_more_often_than_there_are_parts_says_how_often():
    """Four of either: `times: 5` asks for a fifth. That `n5` is pressed to is not a slip of its own."""
    found = told("make: u#, join: [c#, n#], times: 5, press: toward n#")
    assert [(each.first.message, each.first.hint) for each in found] == [
        (
            f"there is no piece or unit `{name}5` when step 1 begins",
            f"write `times: 4`: `{name}4` is the last there is",
        )
        for name in "cn"
    ]


def test_a_unit_called_like_its_block_is_one_fault():
    """`b` is made of two, then of all: the first is to be called otherwise, and the second is right then."""
    (one,) = told("make: b, join: [c1, n1]", "make: b, join: [b, n2]")
    assert one.first.message == "`b` is the name of the block, so only the last step may make it"
    assert [fault.message for fault in one.following] == ["`b` is already made on line 15"]


def test_two_names_misspelt_are_two_faults():
    assert len(told("make: u, join: [c1, m1]", "make: v, join: [c2, q2]")) == 2


def test_one_part_may_stay_the_same_while_another_counts():
    assert told("join: [c1, n#], times: 4") == told("join: [c1, n#+1], times: 4") == ()


def test_a_fabric_misspelt_everywhere_is_one_fault():
    text = BLOCK + "      - {make: u#, join: [c#, n#], times: 4}\n"
    (one,) = by_cause(read(text.replace("fabric: ink", "fabric: inc")).diagnostics)
    assert one.first.message == "there is no fabric `inc`" and len(one.following) == 1
