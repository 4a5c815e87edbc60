"""Block against block: which rim points meet, how often, and whether they nest."""

import itertools

import pytest

from booklet.kit.measure import Length
from booklet.pattern import By, PressHabit, Quilt, Sashing, SetKind, Setting
from booklet.pressing import press, rim_clashes, rim_meetings
from booklet.pressing.meetings.neighbours import turned
from booklet.pressing.meetings.places import block_counts
from tests.builders import block_of, span
from tests.pressing_helpers import four_patch, pairs_then_halves, patch, sew, sewn_blocks, square

INCH = Length.of(1)


def straight(*rows, sashing=None) -> Quilt:
    """A straight set from rows of (block, turn)."""
    arrange = tuple(tuple(Setting(b, t, span()) for b, t in row) for row in rows)
    return Quilt(set=SetKind.STRAIGHT, arrange=arrange, span=span(), sashing=sashing)


def set_of(blocks, quilt, across=4, down=4, **keys):
    """(the size, the pressings, the diagnostics) of blocks in a quilt."""
    assembled = sewn_blocks(blocks, across=across, down=down, quilt=quilt, **keys)
    outcome = press(assembled)
    assert outcome.value is not None
    return assembled.pattern.sizes[0], outcome.value.pressings, outcome.diagnostics


def brute_meetings(size, tilings):
    """Every pair of rim points of direct neighbours that coincide in the quilt, by placing all."""
    rows = size.quilt.arrange
    points = {}
    for y, x in itertools.product(range(size.down), range(size.across)):
        row = rows[y % len(rows)]
        setting = row[x % len(row)]
        tiling = tilings[setting.block]
        for j in tiling.junctions:
            if not j.inside and j.seams:
                px, py = turned(j.at, (tiling.width, tiling.height), setting.turn)
                at = (round(px + x * tiling.width, 6), round(py + y * tiling.height, 6))
                points.setdefault(at, []).append((x, y))
    return sum(
        1
        for cells in points.values()
        for (x, y), (u, v) in itertools.combinations(cells, 2)
        if abs(x - u) + abs(y - v) == 1
    )


@pytest.mark.parametrize(
    ("rows", "across", "down"),
    [
        ([[("b", 0)]], 3, 2),
        ([[("b", 0), ("c", 90)]], 5, 3),
        ([[("b", 0), ("c", 90)], [("c", 180), ("b", 270)]], 4, 5),
        ([[("b", 0)], [("c", 90), ("b", 180)], [("c", 0), ("c", 90), ("b", 0)]], 7, 7),
    ],
)
def test_meetings_are_those_found_by_placing_every_block(rows, across, down):
    blocks = [
        block_of(four_patch(), id="b", steps=pairs_then_halves()),
        block_of(
            [square("l", 0, 0, w=0.5, h=2), square("r", 0.5, 0, w=1.5, h=2)],
            id="c",
            steps=[sew("c", "l", "r")],
        ),
    ]
    size, pressings, _ = set_of(blocks, straight(*rows), across, down)
    tilings = {block: p.assembly.tiling for (_, block), p in pressings.items()}
    found = sum(m.count for m in rim_meetings(size, tilings))
    assert found == brute_meetings(size, tilings)
    counts = block_counts(size)
    assert sum(counts.values()) == across * down


def test_turning_a_point_is_turning_clockwise():
    # the top left corner of a 3 x 2 box comes to the top right of a 2 x 3 box
    assert turned((0, 0), (3, 2), 90) == (2, 0)
    assert turned((3, 0), (3, 2), 90) == (2, 3)
    assert turned((0, 0), (3, 2), 180) == (3, 2)
    assert turned((0, 0), (3, 2), 270) == (0, 3)


def test_a_four_fold_block_pressed_the_same_way_round_nests_in_a_straight_set():
    # common practice: the four seams of the centre all clockwise, in every block
    block = block_of(four_patch(), id="b", steps=pairs_then_halves())
    size, pressings, faults = set_of([block], straight([("b", 0)]), by=By.HAND)
    (centre,) = pressings["s", "b"].junctions
    assert centre.kind.value == "fan"
    # 3 joins in each of 4 rows and of 4 columns, one seam each: 24 meetings, none clashes
    assert (
        sum(m.count for m in rim_meetings(size, {"b": pressings["s", "b"].assembly.tiling})) == 24
    )
    assert rim_clashes(size, pressings) == (True, 0) and faults == ()


def test_a_four_patch_sewn_in_rows_cannot_nest_with_copies_of_itself():
    # its middle seam lies to one side along its whole length, so from block to block it always meets
    # an allowance on its own side; pressed by habit (all ink: nothing is darker) no version B is made
    block = block_of(four_patch(*["ink"] * 4), id="b", steps=pairs_then_halves())
    size, pressings, _ = set_of([block], straight([("b", 0)]), habit=PressHabit.DARK)
    nests, clashes = rim_clashes(size, pressings)
    assert not nests and clashes == 12  # the middle seam at 3 joins in each of 4 rows
    (conflict,) = (c for c in pressings["s", "b"].conflicts if c.kind == "rim")
    assert [way.kind for way in conflict.ways_out] == ["open", "two versions"]


def test_two_versions_or_turning_every_second_block_lets_them_nest():
    block = block_of(four_patch(*["ink"] * 4), id="b", steps=pairs_then_halves())
    turned_set = straight([("b", 0), ("b", 180)], [("b", 180), ("b", 0)])
    size, pressings, _ = set_of([block], turned_set)
    assert rim_clashes(size, pressings) == (True, 0)
    pair = [block_of(four_patch(*["ink"] * 4), id=i, steps=[
        sew("top", "a", "b"), sew("low", "c", "d"), sew(i, "top", "low")]) for i in ("a_", "b_")]  # fmt: skip
    versions = straight([("a_", 0), ("b_", 0)], [("b_", 0), ("a_", 0)])
    size, pressings, _ = set_of(pair, versions)
    assert rim_clashes(size, pressings) == (True, 0)


def test_open_seams_never_clash():
    block = block_of(four_patch(), id="b", steps=pairs_then_halves(middle="open"))
    size, pressings, _ = set_of([block], straight([("b", 0)]))
    assert rim_clashes(size, pressings) == (True, 0)


def test_sashing_keeps_blocks_apart():
    block = block_of(four_patch(), id="b", steps=pairs_then_halves())
    sash = Sashing(width=INCH, fabric="ink", cornerstones=None, outside=False, span=span())
    size, pressings, _ = set_of([block], straight([("b", 0)], sashing=sash))
    assert rim_meetings(size, {"b": pressings["s", "b"].assembly.tiling}) == ()
    assert rim_clashes(size, pressings) == (True, 0)


def test_a_wish_that_makes_neighbours_clash_is_told():
    steps = [
        sew("top", "a", "b", press="toward a", line=50),
        sew("low", "c", "d", press="toward c", line=51),
        sew("b", "top", "low", press="open", line=52),
    ]
    _, _, faults = set_of([block_of(four_patch(), id="b", steps=steps)], straight([("b", 0)]))
    assert {d.code for d in faults} == {"press-conflict"}


def leaning(id, mirrored, press=None):
    """A block of 2 x 2 cut in two by a seam from its left edge, 1/2 down, to its right edge, 1 1/2 down;
    or its mirror image, written as a block of its own."""

    def at(*corners):
        return [((2 - x) if mirrored else x, y) for x, y in corners][:: -1 if mirrored else 1]

    pieces = [
        patch("up", at((0, 0), (2, 0), (2, 1.5), (0, 0.5))),
        patch("low", at((0, 0.5), (2, 1.5), (2, 2), (0, 2))),
    ]
    return block_of(pieces, id=id, steps=[sew(id, "up", "low", press=press)])


def test_a_block_and_its_mirror_image_meet_and_nest():
    # alone it never meets itself: its seam ends 1 1/2 down on the right, 1/2 down on the left
    alone, _, _ = set_of([leaning("b", False)], straight([("b", 0)]), across=4, down=2)
    rows = straight([("b", 0), ("m", 0)])
    blocks = [leaning("b", False), leaning("m", True)]
    size, pressings, _ = set_of(blocks, rows, across=4, down=2)
    tilings = {block: p.assembly.tiling for (_, block), p in pressings.items()}
    assert rim_meetings(alone, tilings) == ()
    assert sum(m.count for m in rim_meetings(size, tilings)) == 6  # 3 edges in each of 2 rows
    assert rim_clashes(size, pressings) == (True, 0)
    ways = {pressings["s", block].pressed["s1"].toward for block in "bm"}
    assert ways == {"up", "low"}  # laid on each other the seams coincide: one up, the other down


def test_a_block_and_its_mirror_image_pressed_to_one_side_clash():
    blocks = [leaning("b", False, "toward up"), leaning("m", True, "toward up")]
    size, pressings, _ = set_of(blocks, straight([("b", 0), ("m", 0)]), across=4, down=2)
    assert rim_clashes(size, pressings) == (False, 6)
