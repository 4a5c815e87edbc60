"""Orders in few cards: against every order of small symmetric blocks, and never at the price of a turn."""

from functools import cache
from pathlib import Path

import pytest
from planner_mosaics import alike_by_place, mosaic_from, random_mosaic

from booklet.geometry import lay_out
from booklet.sewing.planner.mosaic import bits
from booklet.sewing.planner.order import best_order
from booklet.sewing.planner.steps import find_order
from booklet.sewing.planner.trees import Tree, joined, leaf, sums
from booklet.sewing.planner.turning import kind_of, retold
from booklet.source import read_folder

PATTERNS = Path(__file__).parent / "patterns"


def every_order(mosaic):
    """All orders of a block: every way to part every connected set of faces in two connected ones."""

    @cache
    def orders(region):
        if region & (region - 1) == 0:
            return [leaf(next(bits(region)))]
        found = []
        first = region & -region
        side = (region - 1) & region
        while side:
            rest = region & ~side
            if side & first and mosaic.is_connected(side) and mosaic.is_connected(rest):
                found += [joined(a, b) for a in orders(side) for b in orders(rest)]
            side = (side - 1) & region
        return found

    return orders(mosaic.whole)


def effort(mosaic, likeness, tree):
    """Cost and rings; then cards, joins with a turn, and thrice those that go round something."""
    made = sums(mosaic, tree)
    cards = {kind_of(likeness, unit) for unit in tree.units()}
    return (made.cost, made.rings, len(cards) + made.set_ins + 3 * made.wraps)


def planned(mosaic, likeness, shapes=None):
    return best_order(mosaic, likeness, shapes)


def least_effort(mosaic, likeness):
    """The least among the cheapest orders of two parts a step; rows in one step may need still less."""
    trees = every_order(mosaic)
    fewest = min(sums(mosaic, tree).cost for tree in trees)
    return min(
        effort(mosaic, likeness, tree) for tree in trees if sums(mosaic, tree).cost == fewest
    )


@pytest.mark.parametrize("name", ["kite_wheel", "wheel_of_five", "quarter_circles"])
def test_no_order_of_a_small_symmetric_pattern_is_told_in_less(name):
    laid = read_folder(PATTERNS / name).then(lay_out).value
    size = laid.pattern.sizes[0]
    tiling = laid.of_size(size)[0]
    order = find_order(tiling, size.sewing, size.fabrics)
    least = least_effort(order.mosaic, order.likeness)
    assert effort(order.mosaic, order.likeness, order.tree) <= least


CHEQUERED = [0, 1, 0, 1, 0, 1]


@pytest.mark.parametrize("labels", [[0] * 6, CHEQUERED, [0, 1, 0, 0, 1, 0], [0, 0, 0, 1, 1, 1]])
def test_no_order_of_six_squares_is_told_in_less(labels):
    squares = [[(x, y), (x + 1, y), (x + 1, y + 1), (x, y + 1)] for y in range(2) for x in range(3)]
    mosaic, looks = mosaic_from(squares), alike_by_place(squares, labels)
    order = planned(mosaic, looks, alike_by_place(squares))
    assert effort(mosaic, looks, order.tree) <= least_effort(mosaic, looks)


@pytest.mark.parametrize("seed", range(0, 60, 2))
def test_fewer_cards_never_cost_a_turn(seed):
    mosaic = random_mosaic(seed, most=9)
    corners = alike_by_place([[(0, 0)] * (3 + k % 2) for k in range(len(mosaic.names))])
    row = Tree(1)
    for _ in range(len(mosaic.names) - 1):
        near = next(g for g in bits(mosaic.whole & ~row.faces) if mosaic.beside[g] & row.faces)
        row = joined(row, leaf(near))

    def worth(tree):
        return effort(mosaic, corners, tree)

    told = retold(mosaic, corners, row, worth)
    assert worth(told) <= worth(row) and told.faces == row.faces
    assert sorted(
        f for u in told.units() for p in u.parts if not p.parts for f in bits(p.faces)
    ) == [*bits(mosaic.whole)]
