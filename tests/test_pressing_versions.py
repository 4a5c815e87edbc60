"""Two versions of a block: when they are made, where they lie, and that neighbours then nest."""

import pytest

from booklet.pattern import By, PressHabit, Quilt, Sashing, SetKind, Setting
from booklet.pressing import press, rim_clashes
from booklet.pressing.meetings.arrangement import every_second
from booklet.pressing.meetings.places import SECOND, block_counts, places_of
from booklet.pressing.pressing import Layout
from tests.builders import block_of, size_of, span
from tests.pressing_helpers import directions, four_patch, pairs_then_halves, sewn_blocks, square
from tests.test_pressing_neighbours import INCH, set_of, straight

FOUR = four_patch(*["ink"] * 4)


def test_a_four_patch_is_made_in_two_versions_column_by_column():
    # the pairs nest from row to row as they are; only the middle seam needs turning from block to block
    block = block_of(FOUR, id="b", steps=pairs_then_halves())
    size, pressings, faults = set_of([block], straight([("b", 0)]), across=3, down=3)
    pressing = pressings["s", "b"]
    versions = pressing.versions
    assert versions is not None and versions.opposite and versions.layout is Layout.COLUMNS
    assert (versions.first, versions.count) == (6, 3)  # 3 rows of 2 + 1
    assert versions.places == ((1, 0), (1, 1), (1, 2))
    assert rim_clashes(size, pressings) == (True, 0)
    assert pressing.conflicts == () and faults == ()
    one, other = directions(pressing), directions(versions.second)
    assert all(one[pair] != other[pair] for pair in one)  # every arrow reversed
    assert [j.kind for j in pressing.junctions] == [j.kind for j in versions.second.junctions]


def test_neighbours_lie_opposite_ways_block_by_block():
    # by placing every block: the middle seam (a over c) lies up in one block and down in the next, the
    # seam of the pairs (a beside b) left and right
    block = block_of(FOUR, id="b", steps=pairs_then_halves())
    _, pressings, _ = set_of([block], straight([("b", 0)]), across=4, down=5)
    pressing = pressings["s", "b"]
    assert pressing.versions is not None
    second = set(pressing.versions.places)

    def way(x: int, y: int, pair: tuple[str, str]) -> bool:
        here = pressing.versions.second if (x, y) in second else pressing
        return directions(here)[pair] == pair[0]

    for y in range(5):
        for x in range(4):
            if x < 3:
                assert way(x, y, ("b", "d")) != way(x + 1, y, ("a", "c"))
            if y < 4:
                assert way(x, y, ("c", "d")) != way(x, y + 1, ("a", "b"))


@pytest.mark.parametrize("habit", [PressHabit.DARK, PressHabit.OPEN])
def test_a_habit_that_fixes_directions_makes_no_second_version(habit):
    block = block_of(four_patch(), id="b", steps=pairs_then_halves())
    _, pressings, _ = set_of([block], straight([("b", 0)]), habit=habit)
    assert pressings["s", "b"].versions is None


def test_a_wish_holds_in_both_versions():
    # the middle is wished upward in every block: no second version can take that clash away
    block = block_of(FOUR, id="b", steps=pairs_then_halves(middle="toward top"))
    size, pressings, _ = set_of([block], straight([("b", 0)]))
    assert rim_clashes(size, pressings) == (False, 12)
    assert pressings["s", "b"].versions is None


def test_what_nests_already_is_made_once():
    block = block_of(FOUR, id="b", steps=pairs_then_halves())
    _, pressings, _ = set_of([block], straight([("b", 0)]), by=By.HAND)
    assert pressings["s", "b"].versions is None
    sash = Sashing(width=INCH, fabric="ink", cornerstones=None, outside=False, span=span())
    _, pressings, _ = set_of([block], straight([("b", 0)], sashing=sash))
    assert pressings["s", "b"].versions is None  # plain strips between: nothing to clash with


def test_only_the_blocks_that_differ_get_a_second_version():
    # a plain square has no seam: nothing of it can be pressed two ways
    blocks = [
        block_of(FOUR, id="b", steps=pairs_then_halves()),
        block_of([square("p", 0, 0, w=2, h=2)], id="plain"),
    ]
    rows = straight([("b", 0), ("b", 0), ("plain", 0)])
    size, pressings, _ = set_of(blocks, rows, across=6, down=4)
    assert pressings["s", "plain"].versions is None
    versions = pressings["s", "b"].versions
    assert versions is not None and versions.first + versions.count == 16  # 4 of 6 columns, 4 rows
    assert rim_clashes(size, pressings) == (True, 0)


def test_on_point_the_rows_between_are_the_second_version():
    quilt = Quilt(set=SetKind.ON_POINT, arrange=((Setting("b", 0, span()),),), span=span())
    size = size_of(across=3, down=2, quilt=quilt)
    named = every_second(size, SECOND)
    assert named is not None
    assert block_counts(named) == {"b": 6, "b" + SECOND: 2}  # 2 rows of 3, 1 row of 2 between
    assert places_of(named, "b" + SECOND) == ((0, 1), (1, 1))
    assert every_second(size, SECOND, Layout.ROWS) is None
    assembled = sewn_blocks(
        [block_of(FOUR, id="b", steps=pairs_then_halves())], across=3, down=2, quilt=quilt
    )
    made = press(assembled).value
    assert made is not None
    size = assembled.pattern.sizes[0]
    assert rim_clashes(size, made.pressings) == (True, 0)
