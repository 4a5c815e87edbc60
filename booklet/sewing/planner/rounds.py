"""Floor 4, the planner: rounds. Arcs that lead from point to point and back to the first are no order.

An arc leaves an inner point along an edge of its closing pair. A round never goes forth and back along
one edge at once.
"""

from __future__ import annotations

import heapq
from collections import deque
from collections.abc import Iterable, Mapping

from booklet.kit.near import NOTHING
from booklet.sewing.planner.mosaic import Mosaic

Arc = tuple[int, int]  # the point it leaves, the edge it takes
Choice = dict[int, tuple[int, int]]  # by point: its closing pair
TINY = 1e-4


def rounds_of(mosaic: Mosaic, choice: Choice) -> list[list[Arc]]:
    """Directed rounds of a choice: for every arc a shortest one through it, each once; none where
    there is none at all."""
    ahead = _leading_on(mosaic, [(point, e) for point, pair in choice.items() for e in pair])
    found: dict[frozenset[Arc], list[Arc]] = {}
    for first in ahead:
        arcs = _shortest(ahead, first)
        if arcs:
            found.setdefault(frozenset(arcs), arcs)
    return list(found.values())


def _leading_on(mosaic: Mosaic, arcs: Iterable[Arc]) -> dict[Arc, list[Arc]]:
    """For every arc those that go on from its end, without the arcs from which all ways end."""
    leaving: dict[int, list[Arc]] = {}
    for arc in arcs:
        leaving.setdefault(arc[0], []).append(arc)
    ahead = {
        arc: [on for on in leaving.get(mosaic.far(arc[1], arc[0]), ()) if on[1] != arc[1]]
        for there in leaving.values()
        for arc in there
    }
    behind: dict[Arc, list[Arc]] = {arc: [] for arc in ahead}
    for arc, there in ahead.items():
        for on in there:
            behind[on].append(arc)
    left = {arc: len(there) for arc, there in ahead.items()}
    ended = [arc for arc, count in left.items() if not count]
    for arc in ended:  # grows
        for before in behind[arc]:
            left[before] -= 1
            if not left[before]:
                ended.append(before)
    gone = set(ended)
    return {
        arc: [on for on in there if on not in gone]
        for arc, there in ahead.items()
        if arc not in gone
    }


def _shortest(ahead: Mapping[Arc, list[Arc]], first: Arc) -> list[Arc]:
    """The arcs of a shortest round that begins with an arc."""
    came: dict[Arc, Arc] = {}
    queue = deque([first])
    while queue:
        arc = queue.popleft()
        for on in ahead[arc]:
            if on == first:
                return _back(came, first, arc)
            if on not in came:
                came[on] = arc
                queue.append(on)
    return []


def broken_rounds(mosaic: Mosaic, shares: Mapping[Arc, float]) -> list[list[Arc]]:
    """Rounds that arcs taken in part go too far round: of k arcs more than k - 1 in sum. For every arc
    the worst through it (Dijkstra 1959, over what each arc lacks to a whole)."""
    lacks = {arc: max(0.0, 1.0 - share) for arc, share in shares.items() if share > TINY}
    ahead = _leading_on(mosaic, lacks)
    found: dict[frozenset[Arc], list[Arc]] = {}
    for first in ahead:
        arcs = _worst(ahead, lacks, first)
        if arcs:
            found.setdefault(frozenset(arcs), arcs)
    return list(found.values())


def _worst(ahead: Mapping[Arc, list[Arc]], lacks: Mapping[Arc, float], first: Arc) -> list[Arc]:
    """The round through an arc that lacks least, if that is less than a whole."""
    best = {first: lacks[first]}
    came: dict[Arc, Arc] = {}
    queue = [(lacks[first], first)]
    while queue:
        lack, arc = heapq.heappop(queue)
        if lack > best[arc]:
            continue
        for on in ahead[arc]:
            if on == first:
                return _back(came, first, arc)
            more = lack + lacks[on]
            if more < 1.0 - TINY and more < best.get(on, 2.0) - NOTHING:
                best[on] = more
                came[on] = arc
                heapq.heappush(queue, (more, on))
    return []


def _back(came: Mapping[Arc, Arc], first: Arc, last: Arc) -> list[Arc]:
    """The arcs from the last back to the first."""
    arcs = [last]
    while arcs[-1] != first:
        arcs.append(came[arcs[-1]])
    return arcs
