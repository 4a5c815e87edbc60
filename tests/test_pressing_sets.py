"""What the booklet says of joining a set, pressed on plain cloth: strips, borders and triangles are pieces
of one top here, and the same equations decide whether their seams lock. All common practice."""

import pytest

from booklet.pressing import press
from tests.pressing_helpers import kinds, patch, pressed, sew, sewn, square


def cells(widths, heights, names):
    """Plain pieces in columns and rows; `names` row by row."""
    pieces = []
    y = 0
    for row, high in zip(names, heights, strict=True):
        x = 0
        for name, wide in zip(row, widths, strict=True):
            pieces.append(square(name, x, y, w=wide, h=high))
            x += wide
        y += high
    return pieces


def in_rows(names, wishes):
    """Each row, pressed as wished, then the rows to each other, pressed downward."""
    steps = [
        sew(f"row{k}", *row, press=wish, line=50 + k)
        for k, (row, wish) in enumerate(zip(names, wishes, strict=True))
    ]
    last = len(names) - 1
    steps.append(sew("b", *(f"row{k}" for k in range(last + 1)), press=f"toward row{last}"))
    return steps


BLOCKS = [["a", "b"], ["c", "d"], ["e", "f"]]
SASHED = [["a", "s", "b"], ["t", "q", "u"], ["c", "v", "d"]]
BORDERED = [["q1", "top", "q2"], ["left", "body", "right"], ["q3", "low", "q4"]]


def test_rows_pressed_left_and_right_in_turn_lock():
    told = pressed(
        cells([3, 3], [3, 3, 3], BLOCKS),
        in_rows(BLOCKS, ["toward a", "toward d", "toward e"]),
    )
    assert kinds(told) == ["nest"] * 2


def test_strips_lock_where_they_cross_when_all_is_pressed_toward_the_strips():
    told = pressed(
        cells([3, 1, 3], [3, 1, 3], SASHED),
        in_rows(SASHED, ["toward s", "away from q", "toward v"]),
    )
    assert kinds(told) == ["nest"] * 4  # the four corners of the cornerstone


def test_strips_pressed_toward_the_cornerstone_would_not_lock():
    steps = in_rows(SASHED, ["toward s", "toward q", "toward v"])
    outcome = press(sewn(cells([3, 1, 3], [3, 1, 3], SASHED), steps))
    assert outcome.value is not None
    assert kinds(outcome.value.pressings["s", "b"]) == ["clash"] * 4
    assert {d.code for d in outcome.diagnostics} == {"press-conflict"}


def test_a_border_with_corner_squares_locks_pressed_toward_its_strips():
    told = pressed(
        cells([1, 4, 1], [1, 4, 1], BORDERED),
        in_rows(BORDERED, ["toward top", "away from body", "toward low"]),
    )
    assert kinds(told) == ["nest"] * 4


@pytest.mark.parametrize("side", ["a", "c"])
def test_what_ends_at_a_plain_strip_has_nothing_to_clash_with(side):
    # a block of two halves, a strip along the ends of their seam: a tee, whichever way the seam lies
    pieces = [square("a", 0, 0, w=2), square("c", 2, 0, w=2), square("s", 0, 1, w=4)]
    steps = [sew("top", "a", "c", press=f"toward {side}"), sew("b", "top", "s")]
    assert kinds(pressed(pieces, steps)) == ["free"]  # nothing lies against it


def test_setting_triangles_leave_the_rows_of_a_set_on_point_to_lock():
    # seen along the rows: five blocks in a cross, half squares in its corners
    halves = {
        "t1": [(3, 0), (3, 3), (0, 3)],
        "t2": [(6, 0), (9, 3), (6, 3)],
        "t3": [(0, 6), (3, 6), (3, 9)],
        "t4": [(6, 6), (9, 6), (6, 9)],
    }
    rows = [["t1", "a", "t2"], ["c", "d", "e"], ["t3", "f", "t4"]]
    squares = {"a": (3, 0), "c": (0, 3), "d": (3, 3), "e": (6, 3), "f": (3, 6)}
    pieces = [patch(id, corners) for id, corners in halves.items()]
    pieces += [square(id, x, y, w=3, h=3) for id, (x, y) in squares.items()]
    steps = [
        sew("row0", *rows[0], press="toward t1", line=50),
        sew("row1", *rows[1], press="toward e", line=51),
        sew("row2", *rows[2], press="toward t3", line=52),
        sew("b", "row0", "row1", "row2", press="toward row2", line=53),
    ]
    assert kinds(pressed(pieces, steps)) == ["nest"] * 4
