"""Things that hang together, against networkx."""

import random

import networkx as nx

from booklet.kit.groups import tied_groups


def test_groups_are_those_that_networkx_finds():
    for seed in range(60):
        chance = random.Random(seed)
        count = chance.randint(1, 30)
        ties = [(chance.randrange(count), chance.randrange(count)) for _ in range(20)]
        graph = nx.Graph(ties)
        graph.add_nodes_from(range(count))
        found = tied_groups(count, ties)
        assert list(found) == sorted(tuple(sorted(part)) for part in nx.connected_components(graph))
