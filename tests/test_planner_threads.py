"""Hand routes: thread starts against the bound, against brute force and against networkx."""

import math
import random
from functools import cache
from itertools import pairwise

import networkx as nx
import pytest
from planner_mosaics import mosaic_from, random_mosaic
from sewing_blocks import hand_sewing, rosette, sewn, star
from trails_drawn import trails

from booklet.kit.measure import Length
from booklet.kit.records import replace
from booklet.pattern import By
from booklet.sewing.routes.trails import Edge, fewest


@cache
def hand_graph(seed):
    """The seams of a random mosaic, or a random half of them, some short and some long."""
    chance = random.Random(seed)
    mosaic = random_mosaic(seed, most=12)
    kept = [e for e in mosaic.edges if seed % 3 or chance.random() < 0.5]
    return tuple(
        Edge(f"s{k}", e.u, e.v, chance.choice([0.5, 0.75, 1.0]) * e.weight / 1e6)
        for k, e in enumerate(kept)
    )


def bound(edges, limit):
    """max(1, odd / 2, length / limit) for every connected part, by networkx."""
    graph = nx.MultiGraph()
    graph.add_edges_from((e.a, e.b, {"length": e.length}) for e in edges)
    total = 0
    for nodes in nx.connected_components(graph):
        part = graph.subgraph(nodes)
        odd = sum(degree % 2 for _, degree in part.degree())
        length = sum(min(d["length"], limit) for _, _, d in part.edges(data=True))
        by_length = 1 if math.isinf(limit) else math.ceil(length / limit - 1e-9)
        total += max(1, odd // 2, by_length)
    return total


@pytest.mark.parametrize("limit", [math.inf, 18.0, 6.0])
def test_threads_of_220_random_drawings_reach_the_bound(limit):
    reached = 0
    for seed in range(220):
        edges = hand_graph(seed)
        drawn = trails(edges, limit)
        assert sorted(e.id for t in drawn for e in t.edges) == sorted(e.id for e in edges)
        assert all(t.length <= limit + 1e-9 or len(t.edges) == 1 for t in drawn)
        assert len(drawn) >= bound(edges, limit) == fewest(edges, limit)
        reached += len(drawn) == bound(edges, limit)
    assert reached >= 0.95 * 220
    if math.isinf(limit):
        assert reached == 220  # Euler, Listing: always


def test_a_drawing_with_an_euler_path_takes_one_thread():
    for seed in range(120):
        edges = hand_graph(seed)
        graph = nx.MultiGraph((e.a, e.b) for e in edges)
        if edges and nx.has_eulerian_path(graph):
            assert len(trails(edges)) == 1


def test_a_thread_waits_for_the_step_that_joins_its_unit():
    done = sewn(star(), sewing=hand_sewing())
    waits = [[done.sewn[s].step for s in thread.seams] for thread in done.threads]
    assert any(max(steps) > min(steps) + 1 for steps in waits)
    for steps in waits:  # and goes on only in a unit that holds the one it hangs from
        for before, after in pairwise(dict.fromkeys(steps)):
            made, later = done.steps[before - 1], done.steps[after - 1]
            assert set(made.pieces) < set(later.pieces)


@pytest.mark.parametrize("block", [rosette, star])
def test_a_planned_block_by_hand_takes_no_more_threads_than_its_runs_alone(block):
    linked = sewn(block(), sewing=hand_sewing())
    free = replace(hand_sewing(), new_thread=Length.of("0 in"))  # no thread is worth carrying on
    alone = sewn(block(), sewing=free)
    assert {s.by for s in linked.sewn.values()} == {By.HAND}
    assert len(linked.threads) < len(alone.threads)
    edges = tuple(Edge(s.id, s.start, s.end, s.length) for s in linked.tiling.seams)
    backs = sum(
        len(thread.back) for thread in linked.threads
    )  # in place of each could be a new one
    assert len(linked.threads) + backs >= fewest(edges, 18.0)


def test_the_drawings_are_those_of_a_mosaic():
    square = [[(0, 0), (1, 0), (1, 1), (0, 1)], [(1, 0), (2, 0), (2, 1), (1, 1)]]
    assert len(mosaic_from(square).edges) == 1
