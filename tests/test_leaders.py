"""Letters beside a picture: level leaders, each from within its own piece, apart from each other."""

from itertools import combinations

from booklet.drawing.lettering.leaders import APART, letters_on
from booklet.drawing.scene import Label, Line
from booklet.kit.outlines.polygon import inside

RIM = (0.0, 0.0, 24.0, 24.0)


def box(left, top, right, bottom):
    return ((left, top), (right, top), (right, bottom), (left, bottom))


# logs 3.4 mm wide round a middle, too narrow for letters of 9.5 pt, as they are sewn: right, below, left, above
WIDE = 3.4 / 3
LOGS = {
    "A": box(9, 9, 12, 12),
    "B": box(12, 9, 15, 12),
    "C": box(9, 12, 15, 15),
    "D": box(6, 9, 9, 15),
    "E": box(6, 6, 15, 9),
    "F": box(15, 6, 18, 15),
    "G": box(6, 15, 18, 18),
}
LOGS = {name: tuple((x * WIDE, y * WIDE) for x, y in log) for name, log in LOGS.items()}


def test_every_log_has_its_letter_at_a_level_leader_that_ends_in_it():
    items = letters_on(((name, "ink", log) for name, log in LOGS.items()), RIM)
    leaders = [item for item in items if isinstance(item, Line)]
    letters = [item for item in items if isinstance(item, Label)]
    assert sorted(letter.text for letter in letters) == sorted(LOGS)
    for leader, letter in zip(leaders, letters, strict=True):
        at, end = leader.points
        assert at[1] == end[1] == letter.at[1]
        assert inside(at, LOGS[letter.text])
    for one, other in combinations(letters, 2):
        if (one.at[0] > 12) == (other.at[0] > 12):
            assert abs(one.at[1] - other.at[1]) >= APART - 1e-9


def test_what_has_room_is_lettered_in_its_place_and_kinds_that_are_shown_need_no_leader():
    large, small = box(0, 0, 10, 10), box(10, 0, 12, 2)
    items = letters_on([("A", "ink", large), ("A", "ink", small), ("A", "sand", small)], RIM)
    assert [type(item).__name__ for item in items] == ["Label", "Line", "Label"]


def test_where_both_sides_are_full_no_letter_is_squeezed_in():
    thin = {str(n): box(0, n, 24, n + 1) for n in range(24)}
    items = letters_on(((name, name, log) for name, log in thin.items()), RIM)
    # 24 mm hold 7 letters 3.6 mm apart at either side
    assert 12 <= sum(isinstance(item, Label) for item in items) <= 14
