"""Floor 4, the searches: rounds. Arcs that lead from point to point and back to the first are no order.

An arc leaves an inner point along an edge of its closing pair. A round never goes forth and back along
one edge at once.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Mapping

from booklet.sewing.mosaic.closing import Choice
from booklet.sewing.mosaic.mosaic import Mosaic

Arc = tuple[int, int]  # the point it leaves, the edge it takes


def rounds_of(mosaic: Mosaic, choice: Choice) -> list[list[Arc]]:
    """Directed rounds of a choice: for every arc a shortest one through it, each once; none where
    there is none at all."""
    return rounds_along(mosaic, [(point, e) for point, pair in choice.items() for e in pair])


def rounds_along(mosaic: Mosaic, arcs: Iterable[Arc]) -> list[list[Arc]]:
    """Directed rounds of some arcs."""
    ahead = _leading_on(mosaic, arcs)
    found: dict[frozenset[Arc], list[Arc]] = {}
    for first in ahead:
        taken = _shortest(ahead, first)
        if taken:
            found.setdefault(frozenset(taken), taken)
    return list(found.values())


def _leading_on(mosaic: Mosaic, arcs: Iterable[Arc]) -> dict[Arc, list[Arc]]:
    """For every arc those that go on from its end, without the arcs from which all ways end: no round
    goes through these, and in most choices they are all there are."""
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


def _back(came: Mapping[Arc, Arc], first: Arc, last: Arc) -> list[Arc]:
    """The arcs from the last back to the first."""
    arcs = [last]
    while arcs[-1] != first:
        arcs.append(came[arcs[-1]])
    return arcs
