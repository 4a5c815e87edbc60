"""Blocks of any outline that lie in a lattice: where their rims meet, and whether they nest there."""

import itertools
import math

import pytest

from booklet.kit.measure import Extent
from booklet.kit.records import replace
from booklet.pattern import By, PressHabit, Quilt, Rim, SetKind
from booklet.pressing import rim_clashes, rim_meetings
from booklet.pressing.meetings.neighbours import sense_of
from booklet.pressing.meetings.places import block_counts, lattice_places
from booklet.pressing.meetings.touching_rims import BlockInPlace, touches
from tests.builders import block_of, span
from tests.pressing_helpers import four_patch, pairs_then_halves, patch, sew, square
from tests.test_pressing_neighbours import set_of, straight

ROOT3 = math.sqrt(3)
INK = four_patch(*["ink"] * 4)


def lattice(across, down, *rows) -> Quilt:
    """A lattice set from its steps in design units and rows of (block, turn)."""
    steps = tuple((Extent(x, True), Extent(y, True)) for x, y in (across, down))
    return Quilt(set=SetKind.LATTICE, arrange=straight(*rows).arrange, span=span(), lattice=steps)


def two_by_two(id: str) -> list:
    """A four-patch about (0, 0), so that turning it leaves it in its place."""
    names = itertools.product((-1, 0), repeat=2)
    return [square(n, x, y) for n, (y, x) in zip("abcd", names, strict=True)]


@pytest.mark.parametrize("habit", [PressHabit.AUTO, PressHabit.DARK])
@pytest.mark.parametrize(
    "rows", [[[("b", 0)]], [[("b", 0), ("c", 90)], [("c", 180), ("b", 270)]]]
)  # fmt: skip
def test_a_square_lattice_is_a_straight_set(rows, habit):
    blocks = [block_of(two_by_two(id), id=id, steps=named(id)) for id in ("b", "c")]
    found = []
    for quilt in (straight(*rows), lattice((2, 0), (0, 2), *rows)):
        size, pressings, faults = set_of(blocks, quilt, across=4, down=5, habit=habit)
        tilings = {block: p.assembly.tiling for (_, block), p in pressings.items()}
        meetings = {
            (m.first.block, m.first.at, m.second.block, m.second.at, m.facing, m.count)
            for m in rim_meetings(size, tilings)
        }
        ways = {k: [p.toward for p in v.pressed.values()] for k, v in pressings.items()}
        found.append((meetings, rim_clashes(size, pressings), ways, faults))
    assert found[0] == found[1]
    assert sum(m[-1] for m in found[0][0]) == 3 * 5 + 4 * 4  # joins across and down, one seam each


def named(id: str):
    return [sew("top", "a", "b"), sew("low", "c", "d"), sew(id, "top", "low")]


def hexagon_of_wedges(side: float = 1.0):
    """A hexagon with a point up about (0, 0), of 6 wedges: a seam ends at every corner of it."""
    rim = [(side * math.sin(k * math.pi / 3), -side * math.cos(k * math.pi / 3)) for k in range(6)]
    return [patch(f"w{k}", [(0, 0), rim[k], rim[(k + 1) % 6]]) for k in range(6)]


def test_hexagons_of_wedges_meet_in_threes():
    # across 3, down 2: steps of a honeycomb. Every two that share a side share both its ends.
    block = block_of(hexagon_of_wedges(), id="b", steps=None)
    quilt = lattice((ROOT3, 0), (ROOT3 / 2, 1.5), [("b", 0)])
    size, pressings, faults = set_of([block], quilt, across=3, down=2, by=By.HAND)
    tilings = {"b": pressings["s", "b"].assembly.tiling}
    meetings = rim_meetings(size, tilings)
    # joins: 2 in each of 2 rows, and between the rows 3 + 2; two corners each
    assert sum(m.count for m in meetings) == 2 * (2 * 2 + 5)
    assert all(len(m.facing) == 1 for m in meetings)
    assert faults == ()
    # a wedge's seam runs from the centre (one way round) to a corner (the other): fanned, all six
    # corners lie one way round, so all nest
    assert pressings["s", "b"].junctions[0].kind.value == "fan"
    assert rim_clashes(size, pressings) == (True, 0)


def test_meetings_of_a_lattice_are_those_found_by_looking_at_every_pair():
    # parallelograms of two triangles, in a slanting lattice with rows that are moved back
    pieces = [patch("u", [(0, 0), (2, 0), (1, 2)]), patch("v", [(2, 0), (3, 2), (1, 2)])]
    halves = [patch("s", [(0, 0), (1, 0), (2, 2), (1, 2)]), patch("t", [(1, 0), (2, 0), (3, 2), (2, 2)])]  # fmt: skip
    blocks = [
        block_of(pieces, id="b", steps=[sew("b", "u", "v")]),
        block_of(halves, id="c", steps=[sew("c", "s", "t")]),
    ]
    quilt = lattice((2, 0), (1, 2), [("b", 0), ("c", 0)], [("c", 0)])
    size, pressings, _ = set_of(blocks, quilt, across=5, down=4)
    tilings = {block: p.assembly.tiling for (_, block), p in pressings.items()}
    ends = []
    for row, column in itertools.product(range(4), range(5)):
        block = ("b" if column % 2 == 0 else "c") if row % 2 == 0 else "c"
        x, y = 4 * (2 * column + row - 2 * (row // 2)), 8 * row  # each second row one step back
        for junction in tilings[block].junctions:
            if junction.seams:
                ends.append(((row, column), junction.at[0] + x, junction.at[1] + y))
    near = sum(
        1
        for (one, x, y), (other, u, v) in itertools.combinations(ends, 2)
        if one != other and math.dist((x, y), (u, v)) < 1e-6
        and not diagonal(one, other)
    )  # fmt: skip
    assert sum(m.count for m in rim_meetings(size, tilings)) == near > 4


def diagonal(one, other):
    """Whether two cells share only a corner: the step between them is neither across nor down."""
    (r, c), (q, d) = one, other
    step = (d - q // 2) - (c - r // 2)  # in steps across, of cells moved back
    return (q - r, step) not in {(0, 1), (1, 0), (0, -1), (-1, 0)}


def test_blocks_of_a_lattice_are_made_in_two_versions_where_that_lets_them_nest():
    block = block_of(INK, id="b", steps=pairs_then_halves())
    size, pressings, _ = set_of([block], lattice((2, 0), (0, 2), [("b", 0)]), across=3, down=3)
    versions = pressings["s", "b"].versions
    assert versions is not None and (versions.first, versions.count) == (6, 3)
    assert rim_clashes(size, pressings) == (True, 0)


def test_what_is_laid_askew_touches_only_where_points_coincide():
    block = block_of(INK, id="b", steps=pairs_then_halves())
    _, pressings, _ = set_of([block], straight([("b", 0)]))
    tiling = pressings["s", "b"].assembly.tiling  # 8 x 8, a seam at the middle of every side
    laid = [
        BlockInPlace("b", 0, (0.0, 0.0)),
        BlockInPlace("b", 45, (8.0, 0.0)),
        BlockInPlace("b", 180, (8.0, 16.0)),
    ]
    (touch,) = touches(laid, {"b": tiling})  # the third lies below the first, half round
    assert (touch.one, touch.other) == (0, 2) and touch.at == pytest.approx((4.0, 8.0))
    one, other = touch.facing[0]
    assert sense_of(pressings["s", "b"], one, touch.first.at) is not None
    assert other in touch.second.seams


def test_blocks_that_fill_the_rim_meet_too():
    # rows of 3 moved by half a block: half a block more at the end of each row, and none there without `rim: fill`
    block = block_of(two_by_two("b"), id="b", steps=named("b"))
    found = []
    for rim in (Rim.TRIM, Rim.FILL):
        quilt = replace(lattice((2, 0), (1, 2), [("b", 0)]), rim=rim)
        size, pressings, _ = set_of([block], quilt, across=3, down=2)
        tilings = {id: made.assembly.tiling for (_, id), made in pressings.items()}
        found.append(len(lattice_places(size, tilings)))
        joins = sum(m.count for m in rim_meetings(size, tilings))
        # 2 joins in each row of 3, 3 in a row of 3 and a half; the seams of the rows never meet, half a block apart
        assert joins == {6: 4, 8: 6}[found[-1]]
    assert found == [6, 8]


def test_blocks_that_fill_the_rim_are_made_in_two_versions_too():
    # 3 whole blocks in each of 2 rows, and half a block at one end of each (as above)
    block = block_of(INK, id="b", steps=pairs_then_halves())
    quilt = replace(lattice((2, 0), (1, 2), [("b", 0)]), rim=Rim.FILL)
    size, pressings, _ = set_of([block], quilt, across=3, down=2, habit=PressHabit.AUTO)
    versions = pressings["s", "b"].versions
    assert size.uses("b") and block_counts(size)["b"] == 6
    assert sum(block_counts(size).values()) == 8
    assert versions is not None and versions.first + versions.count == 6
    assert len(versions.places) == versions.count and any(row < 0 for _, row in versions.places)
    assert rim_clashes(size, pressings) == (True, 0)
