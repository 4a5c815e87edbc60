"""Pressing a block: what the author wished, what nests, what the rest is for."""

import pytest
from hypothesis import given, settings, strategies as st
from sampling import examples

from booklet.kit.colour import luminance
from booklet.pattern import By, Ends, PressHabit
from booklet.pressing import press
from tests.pressing_helpers import (
    at,
    directions,
    four_patch,
    kinds,
    pairs_then_halves,
    patch,
    pressed,
    sew,
    sewn,
    square,
)

SAME = ("ink",) * 4


def grid(n, m, fabric=lambda r, c: "ink" if (r + c) % 2 else "sand"):
    """n rows of m squares, by default dark and light in turn."""
    return [square(f"r{r}c{c}", c, r, fabric(r, c)) for r in range(n) for c in range(m)]


def in_rows(n, m, wishes=()):
    """Rows first, then row to row; `wishes` for the rows by number."""
    given = dict(wishes)
    rows = [
        sew(f"row{r}", *[f"r{r}c{c}" for c in range(m)], press=given.get(r), line=50 + r)
        for r in range(n)
    ]
    return [*rows, sew("b", *[f"row{r}" for r in range(n)], line=90)]


# --- what the author wished ------------------------------------------------------------------


@pytest.mark.parametrize(
    ("wish", "toward"),
    [
        ("toward a", "a"),
        ("toward b", "b"),
        ("away from a", "b"),
        ("away from b", "a"),
        ("open", None),
    ],
)
def test_a_wish_is_honoured(wish, toward):
    block = pressed([square("a", 0, 0), square("b", 1, 0)], [sew("x", "a", "b", press=wish)])
    assert directions(block) == {("a", "b"): toward}
    assert [p.why for p in block.pressed.values()] == ["author"]


@pytest.mark.parametrize(
    ("wish", "first", "second"),
    [
        ("toward r0c1", "r0c1", "r0c1"),  # toward the middle: both allowances come to it
        ("away from r0c1", "r0c0", "r0c2"),
        ("toward r0c2", "r0c1", "r0c2"),  # toward the last: where it will come, then to it
        ("toward r0c0", "r0c0", "r0c1"),
        ("away from r0c0", "r0c1", "r0c2"),
    ],
)
def test_a_wish_for_a_step_of_three_parts(wish, first, second):
    block = pressed(grid(1, 3), [sew("x", "r0c0", "r0c1", "r0c2", press=wish)])
    assert directions(block) == {("r0c0", "r0c1"): first, ("r0c1", "r0c2"): second}


def test_a_wish_may_name_a_unit_or_a_piece_in_it():
    for name in ("top", "a", "b"):
        block = pressed(four_patch(), pairs_then_halves(middle=f"toward {name}"))
        assert directions(block)["a", "c"] == "a" and directions(block)["b", "d"] == "b"


def test_a_wish_for_what_is_not_in_the_step_is_a_fault():
    steps = [
        sew("ab", "a", "b", press="toward cc", line=50),
        sew("cd", "c", "d"),
        sew("b", "ab", "cd"),
    ]
    outcome = press(sewn(four_patch(), steps))
    (fault,) = outcome.diagnostics
    assert (fault.code, fault.span.line, fault.is_error) == ("no-such-part", 50, True)
    assert fault.hint == "known here: `a`, `b`"
    assert outcome.value is not None and ("s", "b") in outcome.value.pressings


def test_wishes_that_clash_are_a_warning_with_a_way_out():
    outcome = press(sewn(four_patch(), pairs_then_halves("toward a", "toward c")))
    (fault,) = outcome.diagnostics
    assert (fault.code, fault.is_error, fault.span.line) == ("press-conflict", False, 51)
    assert fault.message == (
        "as wished, the seams `a`-`b` and `c`-`d` of block `b` lie on the same side "
        "where they cross at `4, 4`"
    )
    pressing = outcome.value.pressings["s", "b"]
    assert kinds(pressing) == ["clash"]
    (conflict,) = pressing.conflicts
    assert conflict.kind == "nest" and conflict.at == (4, 4) and len(conflict.seams) == 2
    assert [way.kind for way in conflict.ways_out] == ["open", "fan"]


def test_the_ways_out_work():
    pressing = pressed(four_patch(), pairs_then_halves("toward a", "open"))
    assert kinds(pressing) == ["open"]
    pressing = pressed(four_patch(), pairs_then_halves(middle="fan"))
    assert kinds(pressing) == ["fan"]


def test_one_wish_leads_the_other_seam_of_a_crossing():
    pressing = pressed(four_patch(*SAME), pairs_then_halves("toward b"))
    assert directions(pressing)["c", "d"] == "c"
    assert kinds(pressing) == ["nest"]


# --- habits ------------------------------------------------------------------------------------


def test_toward_the_dark():
    block = pressed(
        [square("a", 0, 0, "sand"), square("b", 1, 0, "ink"), square("c", 2, 0, "white")],
        [sew("x", "a", "b", "c")],
    )
    assert directions(block) == {("a", "b"): "b", ("b", "c"): "b"}
    assert {p.why for p in block.pressed.values()} == {"dark"}


def test_luminance_of_black_white_and_the_primaries():
    # weights of red, green and blue in relative luminance
    colours = ("#000000", "#ffffff", "#ff0000", "#00ff00", "#0000ff", "#fff")
    found = [round(luminance(c), 4) for c in colours]
    assert found == [0, 1, 0.2126, 0.7152, 0.0722, 1]


def test_the_habit_dark_goes_before_nesting():
    # published: Quilt magazine, Lesson 5: toward the darker fabric; abutting seams opposite ways.
    # light over dark, left and right alike: both vertical seams want the same side
    fabrics = ("sand", "ink", "sand", "ink")
    dark = pressed(four_patch(*fabrics), pairs_then_halves(), PressHabit.DARK)
    assert directions(dark)["a", "b"] == "b" and directions(dark)["c", "d"] == "d"
    assert kinds(dark) == ["clash"]
    reasons = [p.why for p in dark.pressed.values() if p.toward in ("b", "d")]
    assert reasons.count("dark") == 2 and "open" not in reasons  # both vertical seams
    auto = pressed(four_patch(*fabrics), pairs_then_halves())
    assert kinds(auto) == ["nest"]


def test_the_habit_open():
    pressing = pressed(grid(3, 3), in_rows(3, 3), PressHabit.OPEN)
    assert {(p.toward, p.why) for p in pressing.pressed.values()} == {(None, "open")}
    assert set(kinds(pressing)) == {"open"} and {j.layers for j in pressing.junctions} == {4}


def test_the_habit_fan_releases_machine_sewn_crossings():
    # published: Instructables, Windmilled Four-Patch; Kate Colleran Designs: stitches in the allowance
    # at the crossing are released, and the directions have rotational symmetry
    pressing = pressed(four_patch(), pairs_then_halves(), PressHabit.FAN)
    assert kinds(pressing) == ["fan"] and pressing.junctions[0].layers == 4
    (release,) = pressing.releases
    tiling = pressing.assembly.tiling
    between = {tiling.seam(s).between for s in release.seams}
    assert between == {("a", "b"), ("c", "d")}  # the first seams, where the last one crosses them


# --- nesting, fans, tees -----------------------------------------------------------------------


def test_a_four_patch_nests_toward_the_dark():
    pressing = pressed(four_patch(), pairs_then_halves())
    assert directions(pressing)["a", "b"] == "a" and directions(pressing)["c", "d"] == "d"
    assert kinds(pressing) == ["nest"] and pressing.junctions[0].layers == 7


def test_alternate_rows_pressed_opposite_ways_nest():
    # common practice; published: This n That in the Rose Garden, 2013
    wishes = {0: "toward r0c0", 1: "toward r1c3", 2: "toward r2c0", 3: "toward r3c3"}
    pressing = pressed(grid(4, 4), in_rows(4, 4, wishes))
    assert set(kinds(pressing)) == {"nest"} and len(pressing.junctions) == 9
    assert pressing.conflicts == ()


def test_rows_pressed_the_same_way_clash_at_every_crossing():
    wishes = {0: "toward r0c0", 1: "toward r1c0"}
    outcome = press(sewn(grid(2, 4), in_rows(2, 4, wishes)))
    assert kinds(outcome.value.pressings["s", "b"]) == ["clash"] * 3
    assert {d.code for d in outcome.diagnostics} == {"press-conflict"}


@pytest.mark.parametrize(("n", "m"), [(2, 2), (3, 3), (4, 5)])
def test_a_grid_sewn_in_rows_nests_everywhere(n, m):
    pressing = pressed(grid(n, m), in_rows(n, m))
    assert set(kinds(pressing)) == {"nest"} and len(pressing.junctions) == (n - 1) * (m - 1)


def test_a_line_of_machine_sewing_lies_to_one_side():
    pressing = pressed(grid(3, 4), in_rows(3, 4))
    found = directions(pressing)
    for r in range(2):
        rows = {found[f"r{r}c{c}", f"r{r + 1}c{c}"][:2] for c in range(4)}
        assert len(rows) == 1


def test_a_tee_is_never_a_clash_and_lies_away_from_the_stem():
    pieces = [square("a", 0, 0), square("b", 1, 0), square("c", 0, 1, w=2)]
    pressing = pressed(pieces, [sew("top", "a", "b"), sew("x", "top", "c")])
    assert kinds(pressing) == ["free"]
    found = directions(pressing)
    assert found["a", "c"] == found["b", "c"] == "c"  # no seam ends on it from that side
    reasons = {pressing.pressed[s].why for s in pressing.junctions[0].seams}
    assert reasons == {"bulk", "rule"}


def test_three_patches_round_a_point_are_fanned():
    third = [(0, 0), (0, -2), (2, -2), (2, 1), (0, 0)][:4]
    pieces = [
        patch("a", third),
        patch("b", [(0, 0), (2, 1), (2, 2), (-2, 2), (-2, 1)]),
        patch("c", [(0, 0), (-2, 1), (-2, -2), (0, -2)]),
    ]
    pressing = pressed(pieces, [sew("ab", "a", "b"), sew("x", "ab", "c")])
    junction = at(pressing, 0, 0)
    assert junction.kind.value == "fan" and junction.clockwise is True  # all else equal
    assert pressing.at_end and set(pressing.after.values()) == {2}
    outcome = press(sewn(pieces, [sew("ab", "a", "b", press="toward a"),
                                  sew("x", "ab", "c", press="away from c")]))  # fmt: skip
    junction = outcome.value.pressings["s", "b"].junctions[0]
    assert junction.kind.value == "clash"  # it could have been fanned
    assert [d.code for d in outcome.diagnostics] == ["press-conflict"]


# --- when --------------------------------------------------------------------------------------


def test_machine_seams_are_pressed_as_sewn():
    pressing = pressed(four_patch(), pairs_then_halves())
    assert not pressing.at_end
    sewn_at = {s: pressing.assembly.sewn[s].step for s in pressing.pressed}
    assert dict(pressing.after) == sewn_at


def test_seams_that_stop_at_their_points_wait_for_the_end():
    # common practice: every direction is then still possible
    for steps, by in (
        (pairs_then_halves(), By.HAND),
        (pairs_then_halves(ends=Ends.POINTS), By.MACHINE),
    ):
        pressing = pressed(four_patch(), steps, by=by)
        assert pressing.at_end and set(pressing.after.values()) == {3}
        assert kinds(pressing) == ["fan"]


# --- symmetries --------------------------------------------------------------------------------


@settings(max_examples=examples(25), deadline=None)
@given(st.lists(st.sampled_from(["ink", "sand", "red", "white"]), min_size=9, max_size=9))
def test_a_mirrored_plan_gives_the_mirrored_result(colours):
    def pieces(mirrored):
        return [
            square(f"r{r}c{c}", (2 - c) if mirrored else c, r, colours[3 * r + c])
            for r in range(3)
            for c in range(3)
        ]

    plain, mirrored = (pressed(pieces(m), in_rows(3, 3)) for m in (False, True))
    assert sorted(kinds(plain)) == sorted(kinds(mirrored))
    assert sorted(j.layers for j in plain.junctions) == sorted(j.layers for j in mirrored.junctions)


def test_the_result_is_the_same_every_time():
    first, second = (pressed(grid(3, 4), in_rows(3, 4)) for _ in range(2))
    assert first.pressed == second.pressed and first.junctions == second.junctions
