"""Seams as lines between points: what hangs together, against networkx, and where a thread ends."""

import random

import networkx as nx

from booklet.sewing.routes.trails import Edge, Trail, components, cut_at


def test_the_thread_is_cut_where_it_ends():
    edges = tuple(Edge(f"s{k}", k, k + 1, 5.0) for k in range(4))
    line = Trail(edges, tuple(range(5)))
    assert [part.length for part in cut_at(line, 18)] == [15, 5]  # 20 in on 18 in threads
    assert [part.nodes for part in cut_at(line, 18)] == [(0, 1, 2, 3), (3, 4)]
    assert [part.length for part in cut_at(line, 4)] == [5, 5, 5, 5]  # one seam is not cut


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
