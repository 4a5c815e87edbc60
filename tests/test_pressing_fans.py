"""Fans: what can lie one way round everywhere, and the fewest points that cannot."""

import itertools
import math
from functools import cache
from pathlib import Path

import networkx
import pytest

from booklet.geometry import lay_out
from booklet.pattern import By
from booklet.pressing import press
from booklet.pressing.fans import fan_report
from booklet.sewing import assemble
from booklet.source.reader import read_folder
from tests.pressing_helpers import (
    four_patch,
    pairs_then_halves,
    patch,
    pressed,
    pressing_of,
    sewn,
)

ROOT3 = math.sqrt(3)


def hexagons(rings: int):
    """A mosaic of hexagons of side 1: a centre and `rings` rings round it."""
    pieces = []
    for q, r in itertools.product(range(-rings, rings + 1), repeat=2):
        if abs(q + r) > rings:
            continue
        cx, cy = ROOT3 * (q + r / 2), 1.5 * r
        corners = [
            (cx + math.sin(k * math.pi / 3), cy - math.cos(k * math.pi / 3)) for k in range(6)
        ]
        pieces.append(patch(f"h{len(pieces)}", corners))
    return pieces


def triangles(rows: int):
    """A rhombus of `rows` x `rows` pairs of equilateral triangles of side 1."""
    pieces = []
    for i, j in itertools.product(range(rows), repeat=2):
        a, b = (i + j / 2, j * ROOT3 / 2), (i + 1 + j / 2, j * ROOT3 / 2)
        c, d = (i + 1.5 + j / 2, (j + 1) * ROOT3 / 2), (i + 0.5 + j / 2, (j + 1) * ROOT3 / 2)
        pieces += [patch(f"u{i}_{j}", [a, b, d]), patch(f"v{i}_{j}", [b, c, d])]
    return pieces


@cache
def by_hand(shapes, number):
    """A block of these shapes, sewn by hand: several tests ask about each."""
    return sewn(shapes(number), None, by=By.HAND)


def tiled(shapes, number):
    return by_hand(shapes, number).assemblies["s", "b"].tiling


@cache
def pressed_by_hand(shapes, number):
    return pressing_of(by_hand(shapes, number))


def inner_graph(tiling):
    inner = {j.at for j in tiling.junctions if j.inside}
    graph = networkx.Graph()
    graph.add_nodes_from(inner)
    graph.add_edges_from((s.start, s.end) for s in tiling.seams if {s.start, s.end} <= inner)
    return graph


@pytest.mark.parametrize("rings", [1, 2, pytest.param(3, marks=pytest.mark.everything)])
def test_a_three_way_hexagon_mosaic_fans_everywhere(rings):
    # common practice; three hexagons meet in every point, and rings of six points are even
    tiling = tiled(hexagons, rings)
    report = fan_report(tiling)
    assert report.all_fan and report.odd_cycle == () and report.least == 0
    assert len(report.clockwise) == 6 * rings * rings  # inner points of the mosaic


@pytest.mark.parametrize("rings", [1, 2])
def test_a_hand_sewn_hexagon_mosaic_is_pressed_as_fans_at_the_end(rings):
    pressing = pressed_by_hand(hexagons, rings)
    assert {j.kind.value for j in pressing.junctions} == {"fan"}
    assert pressing.at_end and pressing.conflicts == ()
    assert set(pressing.after.values()) == {len(pressing.assembly.steps)}
    way = {j.at: j.clockwise for j in pressing.junctions}
    for seam in pressing.assembly.tiling.seams:  # neighbours lie opposite ways round
        if seam.start in way and seam.end in way:
            assert way[seam.start] != way[seam.end]


def test_hexagons_pressed_alternately_have_few_layers():
    pressing = pressed(hexagons(1), None, by=By.HAND, unit="2 in")
    # the fan of three patches of 120 degrees: the six points are alike
    assert len({j.layers for j in pressing.junctions}) == 1


@pytest.mark.parametrize("rows", [3, 4, pytest.param(5, marks=pytest.mark.everything)])
def test_a_triangle_grid_never_fans_everywhere(rows):
    tiling = tiled(triangles, rows)
    report = fan_report(tiling)
    graph = inner_graph(tiling)
    assert not report.all_fan and not networkx.is_bipartite(graph)
    seams = {s.id: s for s in tiling.seams}
    cycle = [seams[id] for id in report.odd_cycle]
    assert len(cycle) % 2 == 1
    for one, other in itertools.pairwise([*cycle, cycle[0]]):
        assert {one.start, one.end} & {other.start, other.end}


@pytest.mark.parametrize("rows", [3, 4])
def test_the_fewest_unfanned_points_are_what_brute_force_finds(rows):
    tiling = tiled(triangles, rows)
    report = fan_report(tiling)
    graph = inner_graph(tiling)
    for size in range(len(graph) + 1):
        rests = (
            graph.subgraph(set(graph) - set(left)) for left in itertools.combinations(graph, size)
        )
        if any(networkx.is_bipartite(rest) for rest in rests):
            break
    assert len(report.unfanned) == report.least == size


def test_fanned_neighbours_lie_opposite_ways_round():
    tiling = tiled(triangles, 5)
    report = fan_report(tiling)
    for seam in tiling.seams:
        if {seam.start, seam.end} <= set(report.clockwise):
            assert report.clockwise[seam.start] != report.clockwise[seam.end]


def test_a_machine_sewn_four_patch_is_fanned_by_releasing_the_first_seams():
    pressing = pressed(four_patch(), pairs_then_halves(middle="fan"))
    (junction,) = pressing.junctions
    assert junction.kind.value == "fan" and junction.layers == 4
    for release in pressing.releases:  # where they are sewn across, the two first seams
        steps = {pressing.assembly.sewn[s].step for s in release.seams}
        assert steps == {1, 2}
    assert set(pressing.after.values()) == {3}  # only then can the point be turned


def test_the_fewest_are_left_in_three_hundred_triangles():
    # 126 points inside, 10 x 15 half-square triangles sewn by hand; proved by odd cycles, in no time
    found = read_folder(Path(__file__).parent / "patterns" / "triangles_300")
    made = found.then(lay_out).then(assemble).then(press)
    assert made.value is not None
    pressing = made.value.pressings["mini", "sea"]
    report = pressing.fans
    assert report is not None and len(report.clockwise) + len(report.unfanned) == 126
    assert len(report.unfanned) == report.least == 28
    kinds = [junction.kind.value for junction in pressing.junctions]
    assert (
        kinds.count("clash") == 28 and pressing.gap < 1
    )  # no more than that, and proved the fewest
    cycle = [pressing.assembly.tiling.seam(id) for id in report.odd_cycle]
    assert len(cycle) % 2 == 1
    for one, other in itertools.pairwise([*cycle, cycle[0]]):
        assert {one.start, one.end} & {other.start, other.end}


def test_every_conflict_of_points_is_a_ring_of_seams():
    # what ties all seams of a point to its first one is no part of the ring
    pressing = pressed_by_hand(triangles, 4)
    assert pressing.conflicts
    for conflict in pressing.conflicts:
        assert len(conflict.seams) % 2 == 1
        seams = [pressing.assembly.tiling.seam(id) for id in conflict.seams]
        for one, other in itertools.pairwise([*seams, seams[0]]):
            assert {one.start, one.end} & {other.start, other.end}


def test_opening_a_seam_of_a_ring_is_tried_in_numbers():
    pressing = pressed_by_hand(triangles, 3)
    clashes = sum(junction.kind.value == "clash" for junction in pressing.junctions)
    (way,) = pressing.conflicts[0].ways_out
    assert way.kind == "open" and set(way.seams) <= set(pressing.conflicts[0].seams)
    assert way.clashes is not None and way.clashes < clashes
