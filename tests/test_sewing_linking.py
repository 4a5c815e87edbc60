"""Threads that go on from step to step: against brute force."""

import math
import random
from functools import cache
from itertools import combinations, pairwise

import networkx as nx
import pytest
from planner_mosaics import random_mosaic

from booklet.sewing.routes.hand_seams import Work
from booklet.sewing.routes.linking import fewest_linked, linked
from booklet.sewing.routes.pairing import paired
from booklet.sewing.routes.trails import Edge, Trail, components


def random_work(seed, limit=math.inf, most=8, seams=12):
    """The seams of a random block sewn by hand in a random order of joins."""
    chance = random.Random(seed)
    mosaic = random_mosaic(seed, most=most)
    units = [(frozenset([k]), 0) for k in range(len(mosaic.names))]
    step, taken, n = {}, {}, 0
    while len(units) > 1:
        touching = [
            (a, b)
            for a, b in combinations(units, 2)
            if any(len({e.a, e.b} & a[0]) == 1 == len({e.a, e.b} & b[0]) for e in mosaic.edges)
        ]
        a, b = chance.choice(touching)
        n += 1
        whole = a[0] | b[0]
        for k, e in enumerate(mosaic.edges):
            if {e.a, e.b} <= whole:
                step.setdefault(f"s{k}", n)
        taken |= {made: n for _, made in (a, b) if made}
        units = [u for u in units if u not in (a, b)] + [(whole, n)]
    above = {}
    for s in range(n, 0, -1):
        above[s] = above[taken[s]] | {taken[s]} if s in taken else frozenset()
    edges = [
        Edge(f"s{k}", e.u, e.v, e.weight / 1e6)
        for k, e in enumerate(mosaic.edges)
        if seed % 2 or chance.random() < 0.9
    ][:seams]
    return Work(
        edges=tuple(sorted(edges, key=lambda e: step[e.id])), step=step, above=above, limit=limit
    )


def fewest_by_trying(work):
    """The fewest threads: every set of seams that one thread can sew, and the best cover by such sets."""
    edges, single = work.edges, set()

    def grow(used, node, length, last):
        single.add(used)
        for k, edge in enumerate(edges):
            free = not used >> k & 1 and node in (edge.a, edge.b)
            if free and length + edge.length <= work.limit + 1e-9 and work.leads(last, edge):
                grow(used | 1 << k, edge.other(node), length + edge.length, edge)

    for k, edge in enumerate(edges):
        for node in (edge.a, edge.b):
            grow(1 << k, node, edge.length, edge)

    @cache
    def best(rest):
        lowest = rest & -rest
        fits = [s for s in single if s & lowest and s & ~rest == 0]
        return min(1 + best(rest & ~s) for s in fits) if rest else 0

    return best((1 << len(edges)) - 1)


def assert_sewable(threads, work):
    assert sorted(e.id for t in threads for e in t.edges) == sorted(e.id for e in work.edges)
    for trail in threads:
        for edge, ends in zip(trail.edges, pairwise(trail.nodes), strict=True):
            assert {edge.a, edge.b} == set(ends)
        assert all(work.leads(a, b) for a, b in pairwise(trail.edges))
        assert trail.length <= work.limit + 1e-9 or len(trail.edges) == 1


@pytest.mark.parametrize("limit", [math.inf, 6.0, 3.0])
def test_as_few_threads_over_all_steps_as_trying_finds(limit):
    for seed in range(70):
        work = random_work(seed, limit)
        if work.edges:
            threads = linked(work)
            assert_sewable(threads, work)
            exact = fewest_by_trying(work)
            assert fewest_linked(work, paired(work)) <= exact
            assert len(threads) == exact, seed


def test_threads_of_larger_blocks_reach_the_bound():
    works = [random_work(seed, 18.0, most=12, seams=99) for seed in range(1000, 1060)]
    met = 0
    for work in works:
        threads = linked(work)
        assert_sewable(threads, work)
        met += len(threads) == fewest_linked(work, paired(work))
    assert met >= 57  # 95 percent of 60


def test_the_same_seams_give_the_same_threads():
    work = random_work(5, 3.0)
    assert linked(work) == linked(work)
    assert isinstance(linked(work)[0], Trail)


def test_a_seam_all_round_is_joined_to_the_thread_that_ends_there():
    ring, tail = Edge("ring", "o", "o", 3.0), Edge("tail", "a", "o", 1.0)
    work = Work(edges=(tail, ring), step={"tail": 1, "ring": 1}, above={1: frozenset()})
    assert fewest_linked(work, paired(work)) == len(linked(work)) == 1


def test_parts_hang_together_as_networkx_says():
    for seed in range(60):
        chance = random.Random(seed)
        edges = tuple(
            Edge(f"s{k}", chance.randrange(30), chance.randrange(30), 1.0) for k in range(25)
        )
        graph = nx.MultiGraph([(e.a, e.b) for e in edges])
        parts = components(edges)
        assert sorted(sorted({n for e in part for n in (e.a, e.b)}) for part in parts) == sorted(
            sorted(part) for part in nx.connected_components(graph)
        )
        firsts = [edges.index(part[0]) for part in parts]
        assert firsts == sorted(firsts) and sum(map(len, parts)) == len(edges)
