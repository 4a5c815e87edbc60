"""Unbroken lines: against the bound, against brute force, and against networkx."""

import math
import random
from functools import cache
from itertools import pairwise

import networkx as nx
import pytest
from hypothesis import given, strategies as st
from trails_drawn import trails

from booklet.sewing.routes.trails import Edge, components, fewest, odd_nodes


def edges_of(*pairs, length=1.0):
    return tuple(Edge(f"s{k + 1}", a, b, length) for k, (a, b) in enumerate(pairs))


def random_drawing(seed, most=9):
    """Seams of a random part of a triangular lattice."""
    chance = random.Random(seed)
    lattice = [
        ((x, y), (x + dx, y + dy))
        for x in range(3)
        for y in range(3)
        for dx, dy in ((1, 0), (0, 1), (1, -1))
    ]
    chosen = chance.sample(lattice, chance.randint(1, most))
    return tuple(
        Edge(f"s{k}", a, b, chance.choice([1.0, 1.5, 2.0])) for k, (a, b) in enumerate(chosen)
    )


def brute_force(edges, limit):
    """The fewest trails by trying them all: which sets of edges are one trail, then the best cover."""
    whole = (1 << len(edges)) - 1
    single = set()

    def grow(used, node, length):
        single.add(used)
        for k, edge in enumerate(edges):
            if (
                not used >> k & 1
                and node in (edge.a, edge.b)
                and length + edge.length <= limit + 1e-9
            ):
                grow(used | 1 << k, edge.other(node), length + edge.length)

    for k, edge in enumerate(edges):
        for node in (edge.a, edge.b):
            grow(1 << k, node, edge.length)

    @cache
    def best(rest):
        if not rest:
            return 0
        lowest = rest & -rest
        return min(1 + best(rest & ~s) for s in single if s & lowest and s & ~rest == 0)

    return best(whole)


def assert_right(found, edges, limit=math.inf):
    assert sorted(e.id for trail in found for e in trail.edges) == sorted(e.id for e in edges)
    for trail in found:
        for edge, (a, b) in zip(trail.edges, pairwise(trail.nodes), strict=True):
            assert {edge.a, edge.b} == {a, b}
        assert trail.length <= limit + 1e-9 or len(trail.edges) == 1


def test_a_square_is_one_trail_and_with_a_diagonal_still():
    square = edges_of("ab", "bc", "cd", "da")
    assert len(trails(square)) == 1
    assert len(trails((*square, Edge("x", "a", "c", 1.4)))) == 1  # a and c odd: 2 / 2
    both = (*square, Edge("x", "a", "c", 1.4), Edge("y", "b", "d", 1.4))
    assert len(trails(both)) == 2  # all four odd: 4 / 2


def test_a_y_needs_two_threads_and_a_star_of_eight_four():
    assert len(trails(edges_of("oa", "ob", "oc"))) == 2
    assert len(trails(edges_of(*(f"o{k}" for k in range(8))))) == 4


def test_the_thread_is_cut_where_it_ends():
    line = edges_of("ab", "bc", "cd", "de", length=5.0)
    assert [trail.length for trail in trails(line, limit=18)] == [15, 5]  # 20 in on 18 in threads
    assert fewest(line, 18) == 2
    assert len(trails(edges_of("ab", length=20.0), limit=18)) == 1  # one seam is not cut


def test_a_round_is_begun_where_the_cuts_fall_best():
    # begun at `a`: 9 + 5, 9 + 9, 4 are three threads; begun at `e`: 4 + 9 + 5 and 9 + 9 are two
    lengths = [9, 5, 9, 9, 4]
    nodes = "abcde"
    round_ = tuple(
        Edge(f"s{k}", nodes[k], nodes[(k + 1) % 5], float(n)) for k, n in enumerate(lengths)
    )
    assert len(trails(round_, limit=18)) == brute_force(round_, 18) == 2


def test_components_and_odd_points():
    two = edges_of("ab", "cd", "bc", "xy")
    assert [[e.id for e in part] for part in components(two)] == [["s1", "s2", "s3"], ["s4"]]
    assert odd_nodes(two) == ("a", "d", "x", "y")


@pytest.mark.parametrize("seed", range(120))
def test_as_few_threads_as_brute_force_finds(seed):
    edges = random_drawing(seed)
    limit = [math.inf, 6.0, 4.0][seed % 3]
    found = trails(edges, limit)
    assert_right(found, edges, limit)
    exact = brute_force(edges, limit)
    assert fewest(edges, limit) <= exact <= len(found)
    assert len(found) == exact


@given(st.integers(0, 10_000))
def test_without_a_limit_the_bound_is_always_met(seed):
    edges = random_drawing(seed, most=24 if seed % 2 else 12)
    found = trails(edges)
    assert_right(found, edges)
    assert len(found) == fewest(edges)
    graph = nx.MultiGraph((e.a, e.b) for e in edges)
    for nodes in nx.connected_components(graph):
        part = graph.subgraph(nodes)
        mine = [trail for trail in found if trail.nodes[0] in nodes]
        assert (len(mine) == 1) == nx.has_eulerian_path(part)


def test_almost_always_the_bound_on_larger_drawings_with_short_threads():
    met = 0
    for seed in range(60):
        chance = random.Random(seed)
        grid = [
            ((x, y), (x + dx, y + dy))
            for x in range(6)
            for y in range(6)
            for dx, dy in ((1, 0), (0, 1))
        ]
        edges = tuple(Edge(f"s{k}", a, b, 1.0) for k, (a, b) in enumerate(chance.sample(grid, 45)))
        found = trails(edges, 18.0)
        assert_right(found, edges, 18.0)
        met += len(found) == fewest(edges, 18.0)
    assert met >= 57  # 95 percent


def test_the_same_seams_give_the_same_trails():
    edges = random_drawing(7)
    assert trails(edges, 4.0) == trails(edges, 4.0)
