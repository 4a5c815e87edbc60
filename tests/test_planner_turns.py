"""The fewest turns: against an independent search, by the lemmas, and with the planner broken on purpose."""

import math
import random

import pytest
from planner_mosaics import (
    alike_by_place,
    area,
    fewest_turns,
    merged,
    mosaic_from,
    random_mosaic,
    rectangulation,
    square_cells,
    tidy,
    triangle_cells,
)

from booklet.kit.solver import Row, Variable, minimise
from booklet.sewing.mosaic.closing import choice_of, tree_of
from booklet.sewing.mosaic.joining import common_edges, join
from booklet.sewing.mosaic.mosaic import Pair, bits, build
from booklet.sewing.mosaic.trees import Tree, sums
from booklet.sewing.planner.best_order import best_order
from booklet.sewing.searches import programme
from booklet.sewing.searches.every_order import cheapest
from booklet.sewing.searches.programme import programmed
from booklet.sewing.searches.rounds import rounds_along, rounds_of

WHEEL = [
    [(1, 1), (2, 1), (2, 2), (1, 2)],
    [(0, 0), (2, 0), (2, 1), (0, 1)],
    [(2, 0), (3, 0), (3, 2), (2, 2)],
    [(1, 2), (3, 2), (3, 3), (1, 3)],
    [(0, 1), (1, 1), (1, 3), (0, 3)],
]


def random_polygons(seed, most=12):
    chance = random.Random(seed)
    count = chance.randint(4, most)
    cells = square_cells(4) if seed % 2 else triangle_cells(3)
    return [tidy(polygon) for polygon in merged(cells, count, seed)]


def planned(polygons, first_told=False):
    """The order of a block; the `first_told` where only its turns are asked for, for the easiest to tell takes nine tenths."""
    return best_order(mosaic_from(polygons), alike_by_place(polygons), first_told=first_told)


def pivots(order):
    """The turns without any partial seam."""
    return order.turns + len(order.partials)


@pytest.mark.parametrize("batch", range(26))
def test_fewest_turns_of_520_random_blocks_up_to_12_pieces(batch):
    for seed in range(20 * batch, 20 * batch + 20):
        polygons = random_polygons(seed)
        mosaic = mosaic_from(polygons)
        order = planned(polygons, first_told=seed % 4 > 0)  # what is easier to tell turns no more
        assert order.proven and pivots(order) == fewest_turns(mosaic), seed
        assert order.bound == pivots(order)


@pytest.mark.parametrize("batch", range(5))
def test_search_and_programme_agree_with_brute_force(batch):
    for seed in range(1000 + 20 * batch, 1020 + 20 * batch):
        mosaic = random_mosaic(seed)
        assert sums(mosaic, cheapest(mosaic, mosaic.whole)).turns == fewest_turns(mosaic)
        tree, bound = programmed(mosaic, mosaic.whole, math.inf)
        without_rings = fewest_turns(mosaic, rings=False)
        assert tree is not None and sums(mosaic, tree).turns == without_rings == bound


@pytest.mark.parametrize("seed", range(60))
def test_fewest_partial_seams_are_fewest_turns_in_rectangles(seed):
    polygons = rectangulation(seed, 9)
    mosaic, order = mosaic_from(polygons), planned(polygons)
    assert pivots(order) == fewest_turns(mosaic)
    assert order.turns == 0 or len(order.partials) < pivots(order)


def fewest_partial_seams(mosaic):
    """The fewest seams left open at a T so that nothing turns: a straight pair with an arc along one of
    its edges only (the seam along the other is begun before the stem is sewn on, and finished after)."""
    variables, rows, taking = [], [], {}
    for point in mosaic.inner_points(mosaic.whole):
        first = len(variables)
        for pair, what in sorted(mosaic.pairs[point].items()):
            for edges, cost in ((pair, 0.0), (pair[:1], 1.0), (pair[1:], 1.0)):
                if not what.turns:
                    for e in edges:
                        taking.setdefault((point, e), []).append(len(variables))
                    variables.append(Variable(cost, 0.0, 1.0, whole=True))
        rows.append(Row(tuple((k, 1.0) for k in range(first, len(variables))), 1.0, 1.0))
    while True:
        solution = minimise(variables, rows)
        shares = {arc: sum(solution.values[k] for k in ks) for arc, ks in taking.items()}
        rounds = rounds_along(mosaic, [arc for arc, share in shares.items() if share > 0.5])
        if not rounds:
            return round(solution.cost)
        for arcs in rounds:
            terms = {}
            for arc in arcs:
                for k in taking[arc]:
                    terms[k] = terms.get(k, 0.0) + 1.0
            rows.append(Row(tuple(sorted(terms.items())), high=len(arcs) - 1.0))


@pytest.mark.parametrize("batch", range(15))
def test_of_150_rectangles_the_fewest_partial_seams_are_the_fewest_turns(batch):
    for seed in range(3000 + 10 * batch, 3010 + 10 * batch):
        mosaic = mosaic_from(rectangulation(seed, 11))
        assert fewest_partial_seams(mosaic) == sums(mosaic, cheapest(mosaic, mosaic.whole)).turns


def test_the_wheel_needs_one_turn_or_one_partial_seam():
    order = planned(WHEEL)
    assert fewest_turns(mosaic_from(WHEEL)) == 1
    assert (order.turns, len(order.partials), order.proven) == (0, 1, True)


def test_two_halves_round_a_square_are_cheapest_as_a_ring():
    # c in a ring of two: 4 corners of c; without a ring 2 + 4 = 6
    u = [(0, 0), (6, 0), (6, 3), (4, 3), (4, 2), (2, 2), (2, 3), (0, 3)]
    v = [(0, 3), (2, 3), (2, 4), (4, 4), (4, 3), (6, 3), (6, 6), (0, 6)]
    mosaic = mosaic_from([[(2, 2), (4, 2), (4, 4), (2, 4)], u, v])
    assert fewest_turns(mosaic) == 4 and fewest_turns(mosaic, rings=False) == 6
    assert sums(mosaic, cheapest(mosaic, mosaic.whole)).rings == 2


def convex_parts(seed, count):
    """A regular polygon cut straight across again and again."""
    chance = random.Random(seed)
    n = 3 + seed % 6
    parts = [[(math.cos(k * math.tau / n), math.sin(k * math.tau / n)) for k in range(n)]]
    while len(parts) < count:
        polygon = parts.pop(chance.randrange(len(parts)))
        i, j = sorted(chance.sample(range(len(polygon)), 2))
        p, q = (
            along(polygon[k], polygon[(k + 1) % len(polygon)], chance.uniform(0.2, 0.8))
            for k in (i, j)
        )
        parts.append([p, *polygon[i + 1 : j + 1], q])
        parts.append([q, *polygon[j + 1 :], *polygon[: i + 1], p])
    return parts


def along(a, b, share):
    return (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)


@pytest.mark.parametrize("seed", range(40))
def test_what_was_cut_straight_is_sewn_straight(seed):
    order = planned(convex_parts(seed, 4 + seed), first_told=seed > 8)
    assert (order.turns, order.partials, order.proven) == (0, (), True)


@pytest.mark.parametrize("seed", range(0, 60, 3))
def test_turning_mirroring_and_renaming_change_nothing(seed):
    polygons = random_polygons(seed)
    turned = [[(-y, x) for x, y in polygon] for polygon in polygons]
    mirrored = [[(-x, y) for x, y in reversed(polygon)] for polygon in polygons]
    renamed = random.Random(seed).sample(polygons, len(polygons))
    begun_elsewhere = [[*polygon[2:], *polygon[:2]] for polygon in polygons]
    least = pivots(planned(polygons))
    for other in (turned, mirrored, renamed, begun_elsewhere):
        assert pivots(planned(other, first_told=True)) == least


def test_the_same_block_gets_the_same_order():
    def shape(tree):
        return (tree.faces, tuple(shape(part) for part in tree.parts))

    for seed in (3, 8, 21):
        polygons = random_polygons(seed)
        assert shape(planned(polygons).tree) == shape(planned(polygons).tree)


@pytest.mark.parametrize("seed", range(0, 120, 4))
def test_every_join_is_sound(seed):
    polygons = random_polygons(seed)
    mosaic = mosaic_from(polygons)
    tree = planned(polygons).tree
    sewn, closed = [], []
    for unit in tree.units():
        done = unit.parts[0].faces
        for part in unit.parts[1:]:
            assert not done & part.faces and mosaic.is_connected(done | part.faces)
            edges = common_edges(mosaic, done, part.faces)
            sewn += edges
            before = set(mosaic.inner_points(done)) | set(mosaic.inner_points(part.faces))
            done |= part.faces
            closed += set(mosaic.inner_points(done)) - before
        assert done == unit.faces
    assert tree.faces == mosaic.whole
    assert sorted(sewn) == list(range(len(mosaic.edges)))  # every seam is sewn once
    assert sorted(closed) == [
        p for p, inner in enumerate(mosaic.inner) if inner
    ]  # one closing each


@pytest.mark.parametrize("seed", range(0, 60, 5))
def test_no_split_of_a_region_beats_its_best_order(seed):
    mosaic = random_mosaic(seed, most=8)

    def best(region):
        return sums(mosaic, cheapest(mosaic, region)).turns

    for region in range(1, mosaic.whole + 1):
        if region & (region - 1) and mosaic.is_connected(region):
            side = (region - 1) & region
            while side:
                rest = region & ~side
                if mosaic.is_connected(side) and mosaic.is_connected(rest):
                    more = join(mosaic, side, rest).turns
                    assert best(region) <= best(side) + best(rest) + more
                side = (side - 1) & region


@pytest.mark.parametrize("seed", range(0, 300, 3))
def test_bound_search_and_heuristic_are_in_order(seed):
    mosaic = random_mosaic(seed)
    least = sums(mosaic, cheapest(mosaic, mosaic.whole)).turns
    row = Tree(1)
    for f in bits(mosaic.whole & ~1):  # one piece after the other, as they come
        near = next((g for g in bits(mosaic.whole & ~row.faces) if mosaic.beside[g] & row.faces), f)
        row = Tree(row.faces | 1 << near, (row, Tree(1 << near)))
    assert mosaic.least_turns(mosaic.whole) <= least <= sums(mosaic, row).turns


def test_without_the_cuts_for_rounds_the_wheel_would_cost_nothing(monkeypatch):
    mosaic = mosaic_from(WHEEL)
    monkeypatch.setattr(programme, "rounds_of", lambda mosaic, choice: [])
    tree, bound = programmed(mosaic, mosaic.whole, math.inf)
    assert (tree, bound) == (None, 0.0)  # a bound too low by one, and what it chose is no order


@pytest.mark.parametrize("seed", range(2000, 2040))
def test_an_order_and_its_closing_pairs_are_the_same_thing(seed):
    mosaic = random_mosaic(seed, most=14)
    tree, _ = programmed(mosaic, mosaic.whole, math.inf)
    choice = choice_of(mosaic, tree)
    assert set(choice) == set(mosaic.inners) and not rounds_of(mosaic, choice)
    again = tree_of(mosaic, mosaic.whole, choice)
    assert choice_of(mosaic, again) == choice
    assert sums(mosaic, again).turns == sums(mosaic, tree).turns


def test_a_round_is_no_order():
    mosaic = mosaic_from(WHEEL)
    straight = {
        p: next(pair for pair, what in mosaic.pairs[p].items() if not what.turns)
        for p in mosaic.inner_points(mosaic.whole)
    }
    (once_round,) = rounds_of(mosaic, straight)
    assert {p for p, _ in once_round} == set(straight)  # round the middle: four arcs
    assert tree_of(mosaic, mosaic.whole, straight) is None


def test_with_every_t_taken_for_a_y_the_wheel_would_turn_four_times():
    mosaic = mosaic_from(WHEEL)
    pairs = tuple({k: Pair(True, 1.0, 1.0) for k in there} for there in mosaic.pairs)
    bent = build(mosaic.names, mosaic.edges, mosaic.inner, mosaic.rays, pairs, mosaic.places)
    assert sums(bent, cheapest(bent, bent.whole)).turns == 4 != 1


def test_a_dearer_turn_is_avoided_where_there_is_a_choice():
    mosaic = mosaic_from(WHEEL)
    points = mosaic.inner_points(mosaic.whole)
    for cheap in points:  # at three of the four corners a turn costs 3: it is made at the fourth
        pairs = tuple(
            {
                k: Pair(w.turns, w.cost * (1.0 if p == cheap else 3.0), w.change)
                for k, w in t.items()
            }
            for p, t in enumerate(mosaic.pairs)
        )
        dear = build(mosaic.names, mosaic.edges, mosaic.inner, mosaic.rays, pairs, mosaic.places)
        assert sums(dear, cheapest(dear, dear.whole)).cost == 1.0


def test_random_rectangles_fill_their_square():
    for seed in range(5):
        boxes = [(*p[0], *p[2]) for p in rectangulation(seed, 9)]
        assert sum(map(area, boxes)) == 25
