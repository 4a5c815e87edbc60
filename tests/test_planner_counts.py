"""The planner against published counts of rectangles parted into rectangles."""

import pytest
from planner_mosaics import alike_by_place, mosaic_from
from planner_rectangles import rectangulations, weak_rectangulations

from booklet.sewing.mosaic.straight_lines import through_lines
from booklet.sewing.mosaic.trees import sums
from booklet.sewing.planner.best_order import best_order
from booklet.sewing.searches.every_order import cheapest


def polygons(tiles):
    return [[(a, b), (c, b), (c, d), (a, d)] for a, b, c, d in tiles]


def turns(tiles):
    mosaic = mosaic_from(polygons(tiles))
    return sums(mosaic, cheapest(mosaic, mosaic.whole)).turns


# OEIS A342141 (rectangles parted into n rectangles, generic): 1, 2, 6, 24, 116, 642
@pytest.mark.parametrize(("n", "all_of_them"), [*enumerate([1, 2, 6, 24, 116, 642], start=1)])
def test_how_many_rectangulations_there_are(n, all_of_them):
    assert len(rectangulations(n)) == all_of_them


# Published beside A342141, and reproduced by enumeration: without a turn 1, 2, 6, 24, 114, 606
@pytest.mark.parametrize(("n", "straight"), [*enumerate([1, 2, 6, 24, 114, 606], start=1)])
def test_how_many_can_be_sewn_without_a_turn(n, straight):
    assert sum(turns(tiles) == 0 for tiles in rectangulations(n)) == straight


def test_the_two_of_five_that_need_a_turn_are_the_wheels():
    left = [tiles for tiles in rectangulations(5) if turns(tiles) > 0]
    assert len(left) == 116 - 114 and [turns(tiles) for tiles in left] == [1, 1]


# Leake, Bernstein, Davis, Agrawala, SIGGRAPH 2021 (foundation paper pieceable: acyclic hypergraph of
# faces and seams): one patch at a time 1, 2, 6, 20, 68, 232, that is a(n) = 4 a(n-1) - 2 a(n-2)
@pytest.mark.parametrize(("n", "one_by_one"), [*enumerate([1, 2, 6, 20, 68, 232], start=1)])
def test_how_many_can_be_sewn_one_patch_at_a_time(n, one_by_one):
    def goes(mosaic, region):
        if region & (region - 1) == 0:
            return True
        for line in through_lines(mosaic, region):
            for side in (line.side, region & ~line.side):
                if side & (side - 1) == 0:
                    return goes(mosaic, region & ~side)  # which is plucked first does not matter
        return False

    mosaics = [mosaic_from(polygons(tiles)) for tiles in rectangulations(n)]
    assert sum(goes(mosaic, mosaic.whole) for mosaic in mosaics) == one_by_one


# Ackerman, Barequet, Pinter 2006: by left-of and above alone, Baxter numbers 1, 2, 6, 22, 92, 422, of
# which the Schröder numbers 1, 2, 6, 22, 90, 394 can be cut straight through again and again
@pytest.mark.parametrize(
    ("n", "baxter", "schroeder"),
    [(1, 1, 1), (2, 2, 2), (3, 6, 6), (4, 22, 22), (5, 92, 90), (6, 422, 394)],
)
def test_baxter_and_schroeder_numbers(n, baxter, schroeder):
    classes = weak_rectangulations(n)
    assert len(classes) == baxter
    assert sum(turns(tiles) == 0 for tiles in classes) == schroeder


def test_the_whole_planner_agrees_on_all_of_six():
    for tiles in rectangulations(6)[::5]:
        mosaic = mosaic_from(polygons(tiles))
        order = best_order(mosaic, alike_by_place(polygons(tiles)))
        assert order.turns + len(order.partials) == turns(tiles) and order.proven
