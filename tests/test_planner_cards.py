"""Orders in few cards: against every order of small symmetric blocks, and never at the price of a turn."""

from functools import cache
from pathlib import Path

import pytest
from planner_mosaics import alike_by_place, mosaic_from, random_mosaic

from booklet.geometry import lay_out
from booklet.sewing.mosaic.likeness import shapes_of
from booklet.sewing.mosaic.mosaic import bits
from booklet.sewing.mosaic.trees import Tree, joined, leaf
from booklet.sewing.planner import find_order
from booklet.sewing.planner.best_order import best_order
from booklet.sewing.searches.effort import Effort
from booklet.sewing.searches.fewer_cards import retold
from booklet.sewing.searches.joined_rows import in_one_row
from booklet.source.reader import read_folder

PATTERNS = Path(__file__).parent / "patterns"


def every_order(joins):
    """All orders of a block: every way to part every connected set of faces in two connected ones, and
    where these make a row, every way to sew that in one step."""
    mosaic = joins.mosaic

    def steps(one, other):
        yield (one, other)
        for ones in {(one,), one.parts or (one,)}:
            for others in {(other,), other.parts or (other,)}:
                row = in_one_row(joins, ones, others)
                if row:
                    yield row

    @cache
    def orders(region):
        if region & (region - 1) == 0:
            return [leaf(next(bits(region)))]
        found = {}
        first = region & -region
        side = (region - 1) & region
        while side:
            rest = region & ~side
            if side & first and mosaic.is_connected(side) and mosaic.is_connected(rest):
                for one in orders(side):
                    for other in orders(rest):
                        for parts in steps(one, other):
                            made = joined(*parts)
                            found[shape(made)] = made
            side = (side - 1) & region
        return list(found.values())

    return orders(mosaic.whole)


def shape(tree):
    """What tells orders apart, whichever way their rows are read."""
    return frozenset(
        min(tuple(part.faces for part in parts) for parts in (unit.parts, unit.parts[::-1]))
        for unit in tree.units()
    )


def effort(telling, tree):
    """Cost; rings; cards, joins with a turn, and thrice those that go round something."""
    return telling.worth(tree)[:3]


def assert_told_in_least(mosaic, likeness, shapes):
    """That the order planned has the least effort of all."""
    telling = Effort(mosaic, likeness, shapes)
    least = min(effort(telling, tree) for tree in every_order(telling.joins))
    order = best_order(mosaic, likeness, shapes)
    assert effort(telling, order.tree) == least


SMALL = [
    "elongated_cross",
    "filled_rim",
    "four_patch",
    "hexagon_rosette_1",
    "kite_wheel",
    "quarter_circles",
    "square_in_frame",
    "star_ring",
    "wheel_of_five",
]


@pytest.mark.parametrize("name", SMALL)
def test_no_order_of_a_small_symmetric_pattern_is_told_in_less(name):
    laid = read_folder(PATTERNS / name).then(lay_out).value
    size = laid.pattern.sizes[0]
    tiling = laid.of_size(size)[0]
    order = find_order(tiling, size.sewing, size.fabrics)
    assert_told_in_least(order.mosaic, order.likeness, shapes_of(tiling))


def test_the_cards_of_small_patterns():
    # six kites of two colours: two halves of three, and both joined; the ring: quarter, half, whole
    assert {name: cards_of(name) for name in ("kite_wheel", "quarter_circles")} == {
        "kite_wheel": 3,
        "quarter_circles": 3,
    }


def cards_of(name):
    laid = read_folder(PATTERNS / name).then(lay_out).value
    size = laid.pattern.sizes[0]
    order = find_order(laid.of_size(size)[0], size.sewing, size.fabrics)
    sort = order.likeness.sort
    return len(
        {(sort(u.faces), *sorted(sort(p.faces) for p in u.parts)) for u in order.tree.units()}
    )


CHEQUERED = [0, 1, 0, 1, 0, 1]


@pytest.mark.parametrize("labels", [[0] * 6, CHEQUERED, [0, 1, 0, 0, 1, 0], [0, 0, 0, 1, 1, 1]])
def test_no_order_of_six_squares_is_told_in_less(labels):
    squares = [[(x, y), (x + 1, y), (x + 1, y + 1), (x, y + 1)] for y in range(2) for x in range(3)]
    mosaic, looks = mosaic_from(squares), alike_by_place(squares, labels)
    assert_told_in_least(mosaic, looks, alike_by_place(squares))


@pytest.mark.parametrize("seed", range(0, 60, 2))
def test_fewer_cards_never_cost_a_turn(seed):
    mosaic = random_mosaic(seed, most=9)
    corners = alike_by_place([[(0, 0)] * (3 + k % 2) for k in range(len(mosaic.names))])
    row = Tree(1)
    for _ in range(len(mosaic.names) - 1):
        near = next(g for g in bits(mosaic.whole & ~row.faces) if mosaic.beside[g] & row.faces)
        row = joined(row, leaf(near))

    telling = Effort(mosaic, corners, corners)
    told = retold(telling.joins, corners, row, telling.told, telling.worth)
    assert telling.worth(told) <= telling.worth(row) and told.faces == row.faces
    assert sorted(
        f for u in told.units() for p in u.parts if not p.parts for f in bits(p.faces)
    ) == [*bits(mosaic.whole)]
