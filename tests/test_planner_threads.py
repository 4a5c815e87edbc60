"""Hand routes of planned blocks: thread starts against the bound of Euler and Listing, by networkx."""

import math
import random
from itertools import pairwise

import networkx as nx
import pytest
import sampling
from planner_mosaics import merged, mosaic_from, square_cells, triangle_cells
from sewing_blocks import hand_sewing, polygon, rosette, sewn, star

from booklet.kit.measure import Length
from booklet.kit.records import replace
from booklet.pattern import By

THREAD = 18.0  # inches


def bound(tiling):
    """The threads that sew each seam once, wherever they part a run: max(1, odd / 2, length / thread) for every
    connected part (Euler, Listing)."""
    graph = nx.MultiGraph()
    graph.add_edges_from((s.start, s.end, {"length": s.length}) for s in tiling.seams)
    total = 0
    for nodes in nx.connected_components(graph):
        part = graph.subgraph(nodes)
        odd = sum(degree % 2 for _, degree in part.degree())
        length = sum(min(d["length"], THREAD) for _, _, d in part.edges(data=True))
        total += max(1, odd // 2, math.ceil(length / THREAD - 1e-9))
    return total


def random_block(seed):
    chance = random.Random(seed)
    cells = chance.choice([square_cells, triangle_cells])(chance.choice([2, 3]))
    corners = merged(cells, chance.randint(4, 7), seed)
    return [polygon(f"p{k}", *each) for k, each in enumerate(corners, 1)]


def test_where_new_threads_are_dear_no_more_are_taken_than_would_do_if_runs_were_parted():
    dear = replace(hand_sewing(), new_thread=Length.of("18 in"))
    for seed in sampling.some(range(30)):
        done = sewn(random_block(seed), sewing=dear)
        assert len(done.threads) <= bound(done.tiling), seed


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
    backs = sum(
        len(thread.back) for thread in linked.threads
    )  # in place of each could be a new one
    assert len(linked.threads) + backs >= bound(linked.tiling)


def test_the_drawings_are_those_of_a_mosaic():
    square = [[(0, 0), (1, 0), (1, 1), (0, 1)], [(1, 0), (2, 0), (2, 1), (1, 1)]]
    assert len(mosaic_from(square).edges) == 1
