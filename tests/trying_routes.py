"""Order of joining and routes of threads by trying all of them: shares nothing with the planner but the drawing.

A block is joined two units at a time, none of which lies all round others. Where two units meet, seams that follow each
other are a run. A thread sews a run whole: from either end, or from its first or last turn out to the near end, back over
that, and on. Between runs it passes on at one point, goes back over what is sewn, or lies loose.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache
from itertools import combinations, pairwise, permutations

import networkx as nx


@dataclass(frozen=True)
class Costs:
    """In inches of seam; a turn costs so much that turns come first."""

    new: float = 1.5
    turn: float = 1000.0
    through: float = 0.125
    back: float = 1.0
    loose: float = 4.0
    limit: float = math.inf


def cheapest(tiling, costs: Costs) -> float:
    """What the cheapest order with the cheapest routes costs."""
    pieces = tuple(p.id for p in tiling.pieces)
    seams = [(s.id, frozenset(s.between), s.start, s.end) for s in tiling.seams]
    rim = {j.at for j in tiling.junctions if not j.inside}
    best = [math.inf]
    for joins in orders(frozenset(pieces), seams, tiling, rim):
        turns = sum(turned(run) for _, _, runs in joins for run in runs)
        if turns * costs.turn < best[0]:
            sew(joins, 0, turns * costs.turn, {}, seams, costs, best)
    return best[0]


def longest_run(tiling) -> float:
    """The length of the longest run of any order: one that is longer than a thread has to be parted."""
    seams = [(s.id, frozenset(s.between), s.start, s.end) for s in tiling.seams]
    rim = {j.at for j in tiling.junctions if not j.inside}
    pieces = frozenset(p.id for p in tiling.pieces)
    runs = {
        run for joins in orders(pieces, seams, tiling, rim) for *_, there in joins for run in there
    }
    return max(sum(math.dist(a, b) for _, a, b in run) for run in runs)


def orders(unit, seams, tiling, rim):
    """Every order of joining a unit: a list of (one, other, runs), parts before wholes."""
    if len(unit) == 1:
        yield []
        return
    first = min(unit)
    for size in range(1, len(unit)):
        for some in combinations(sorted(unit - {first}), size - 1):
            one = frozenset({first, *some})
            other = unit - one
            if not (whole(one, seams, tiling, rim) and whole(other, seams, tiling, rim)):
                continue
            for early in orders(one, seams, tiling, rim):
                for late in orders(other, seams, tiling, rim):
                    yield [*early, *late, (one, other, runs_between(one, other, seams))]


def whole(unit, seams, tiling, rim):
    """Whether a unit hangs together and lies round no others."""
    graph = nx.Graph()
    graph.add_nodes_from(p.id for p in tiling.pieces)
    graph.add_edges_from(tuple(between) for _, between, _, _ in seams)
    at_rim = {id for _, between, a, b in seams if {a, b} & rim for id in between}
    if not nx.is_connected(graph.subgraph(unit)):
        return False
    rest = nx.connected_components(graph.subgraph(set(graph) - unit))
    return all(part & at_rim for part in rest)


def runs_between(one, other, seams):
    """The runs along which two units meet, each a list of (seam, from, to)."""
    shared = [s for s in seams if len(s[1] & one) == 1 == len(s[1] & other)]
    graph = nx.MultiGraph()
    for id, _, a, b in shared:
        graph.add_edge(a, b, key=id)
    runs = []
    for part in nx.connected_components(graph):
        ends = sorted(p for p in part if graph.degree(p) == 1) or [min(part)]
        here, left, run = ends[0], {s[0]: s for s in shared if s[2] in part}, []
        while True:
            ahead = [s for s in left.values() if here in s[2:]]
            if not ahead:
                break
            id, _, a, b = min(ahead, key=lambda s: s[0])
            there = b if here == a else a
            run.append((id, here, there))
            here = there
            del left[id]
        assert not left, "more than two seams of a join meet at a point"
        runs.append(tuple(run))
    return runs


def bend(into, out):
    """Whether sewing from one seam to the next turns."""
    (_, a, b), (_, c, d) = into, out
    ux, uy, vx, vy = b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]
    return abs(ux * vy - uy * vx) > 1e-6 or ux * vx + uy * vy < 0


def turned(run):
    """At how many points a run turns; all the way round also where it ends."""
    count = sum(bend(a, b) for a, b in pairwise(run))
    return count + (run[0][1] == run[-1][2] and bend(run[-1], run[0]))


def reversed_run(run):
    return tuple((id, b, a) for id, a, b in reversed(run))


@cache
def ways(run):
    """Every way to sew a run: where it begins, where it ends, and what is gone back within it."""
    found = []
    for way in (run, reversed_run(run)):
        found.append((way[0][1], way[-1][2], 0.0))
        at = next((k for k in range(1, len(way)) if bend(way[k - 1], way[k])), None)
        if at is not None and way[0][1] != way[-1][2]:
            found.append((way[at][1], way[-1][2], sum(math.dist(a, b) for _, a, b in way[:at])))
    return found


def sew(joins, at, cost, threads, seams, costs, best):
    """Sew the joins from number `at` on in every way; `threads` are those that hang: where, how much of each is used,
    and the unit from which it hangs."""
    if cost >= best[0] - 1e-9:
        return
    if at == len(joins):
        best[0] = cost
        return
    one, other, runs = joins[at]
    inner = {id for id, between, _, _ in seams if between <= one or between <= other}
    for order in permutations(runs):
        on_runs(order, joins, at, cost, threads, inner, seams, costs, best)


def on_runs(order, joins, at, cost, threads, sewn, seams, costs, best):
    """Sew the runs of one join, then go on."""
    if cost >= best[0] - 1e-9:
        return
    one, other, _ = joins[at]
    if not order:
        sew(joins, at + 1, cost, threads, seams, costs, best)
        return
    run, rest = order[0], order[1:]
    length = sum(math.dist(a, b) for _, a, b in run)
    now = sewn | {id for id, _, _ in run}
    for start, end, back in ways(run):
        taken = length + back
        choices = [(costs.new + costs.back * back, taken, None)]
        for number, (place, used, unit) in threads.items():
            if unit <= one or unit <= other or unit == one | other:
                passed = passage(place, start, sewn, seams, costs)
                if passed is not None and used + passed[1] + taken <= costs.limit + 1e-9:
                    extra = passed[0] + costs.back * back
                    choices.append((extra, used + passed[1] + taken, number))
        for extra, used, number in choices:
            if used > costs.limit + 1e-9:
                continue
            key = number if number is not None else max(threads, default=0) + 1
            hanging = {**threads, key: (end, used, one | other)}
            on_runs(rest, joins, at, cost + extra, hanging, now, seams, costs, best)


def passage(here, there, sewn, seams, costs):
    """What it costs to come from one point to another, and how much thread that takes."""
    there_now = [s for s in seams if s[0] in sewn]
    if here == there:
        crowd = sum(here in s[2:] for s in there_now)
        return (costs.through if crowd > 1 else 0.0), 0.0
    graph = nx.Graph([(a, b, {"w": math.dist(a, b)}) for _, _, a, b in there_now])
    apart = math.dist(here, there)
    found = [(costs.loose * apart, apart)]
    if here in graph and there in graph and nx.has_path(graph, here, there):
        length = nx.shortest_path_length(graph, here, there, weight="w")
        found.append((costs.back * length, length))
    cost, length = min(found)
    return (cost, length) if cost < costs.new else None
