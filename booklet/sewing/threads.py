"""Floor 4: hand routes. Every seam sewn by hand lies on one thread, and as few threads as can be.

The seams of a step may be sewn in any order, since all its parts are there: they are drawn in the
fewest trails. A thread stays hanging from the unit it sewed, and goes on into a later step that joins
this unit to another where that begins at the point where the thread ends, and is still within the
thread's length: as many as can be at each step (a maximum bipartite matching of ends and beginnings).
"""

from __future__ import annotations

import itertools
import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from booklet.geometry.tiling import Point, Tiling
from booklet.pattern import By, Sewing
from booklet.sewing.assembly import SewnSeam, Thread
from booklet.sewing.drafts import Draft
from booklet.sewing.headings import turns
from booklet.sewing.trails import TINY, Edge, Node, Trail, components, draw, fewest, trails

TRIES = 24


@dataclass(slots=True, eq=False)
class _Route:
    """A thread while it is being led; `loose` while it lies within one step and may be turned round."""

    trail: Trail
    loose: bool = True

    def ends(self) -> tuple[Node, ...]:
        """The points from which it can go on."""
        if self.loose and self.trail.closed:
            return tuple(dict.fromkeys(self.trail.nodes))
        return (
            (self.trail.nodes[-1], self.trail.nodes[0]) if self.loose else (self.trail.nodes[-1],)
        )


def hand_routes(
    drafts: Sequence[Draft], sewn: Mapping[str, SewnSeam], tiling: Tiling, sewing: Sewing
) -> tuple[Thread, ...]:
    """The hand routes of a block in sewing order, each within `sewing.thread` where a single seam is."""
    limit = float(sewing.thread)
    done: list[_Route] = []
    hanging: dict[int, list[_Route]] = {}  # by the step that made the unit they hang from
    for draft in drafts:
        edges = hand_edges(draft, sewn, tiling)
        there = [route for n in draft.part_steps for route in hanging.pop(n, [])]
        now = _lead(edges, there, limit) if edges else []
        done.extend(route for route in now if route not in there)
        hanging[draft.n] = [*now, *(route for route in there if route not in now)]
    return tuple(_thread(route.trail, tiling) for route in done)


def hand_edges(draft: Draft, sewn: Mapping[str, SewnSeam], tiling: Tiling) -> tuple[Edge, ...]:
    """The seams of a step that are sewn by hand, in the order of its runs."""
    seams = [
        tiling.seam(id)
        for stretch in draft.stretches
        for id in stretch.seams
        if sewn[id].by is By.HAND and sewn[id].step == draft.n
    ]
    return tuple(Edge(seam.id, seam.start, seam.end, seam.length) for seam in seams)


def _lead(edges: tuple[Edge, ...], hanging: list[_Route], limit: float) -> list[_Route]:
    """The routes of one step: hanging ones led on, and new ones. Those led on are changed in place."""
    best = list(trails(edges, limit))
    links = _links(best, hanging, limit)
    aim = fewest(edges, limit) - min(len(hanging), fewest(edges, limit))
    chance = random.Random(1)
    for _ in range(TRIES if hanging else 0):
        if len(best) - len(links) <= aim:
            break
        again = [trail for part in components(edges) for trail in draw(part, limit, chance)]
        more = _links(again, hanging, limit)
        if len(again) - len(more) < len(best) - len(links):
            best, links = again, more
    routes: list[_Route] = []
    for k, trail in enumerate(best):
        routes.append(_led_on(hanging[links[k]], trail) if k in links else _Route(trail))
    return routes


def _links(ahead: Sequence[Trail], hanging: Sequence[_Route], limit: float) -> dict[int, int]:
    """The most trails that can go on from hanging routes: trail -> route (augmenting paths)."""
    fits = [
        [
            k
            for k, trail in enumerate(ahead)
            if set(route.ends()) & set(_starts(trail))
            and route.trail.length + trail.length <= limit + TINY
        ]
        for route in hanging
    ]
    taken: dict[int, int] = {}

    def place(r: int, seen: set[int]) -> bool:
        for k in fits[r]:
            if k not in seen:
                seen.add(k)
                if k not in taken or place(taken[k], seen):
                    taken[k] = r
                    return True
        return False

    for r in range(len(hanging)):
        place(r, set())
    return taken


def _starts(trail: Trail) -> tuple[Node, ...]:
    """The points at which a trail can be begun."""
    return trail.nodes if trail.closed else (trail.nodes[0], trail.nodes[-1])


def _led_on(route: _Route, trail: Trail) -> _Route:
    """The route with the trail added, both turned so that they meet."""
    at = next(node for node in route.ends() if node in _starts(trail))
    first = route.trail
    if first.nodes[-1] != at:
        first = first.from_node(at) if first.closed else first.reversed()
    if trail.nodes[0] != at:
        trail = trail.from_node(at) if trail.closed else trail.reversed()
    route.trail = Trail(first.edges + trail.edges, first.nodes + trail.nodes[1:])
    route.loose = False
    return route


def _thread(trail: Trail, tiling: Tiling) -> Thread:
    """The record of a finished route."""
    seams = [tiling.seam(edge.id) for edge in trail.edges]
    points: list[Point] = [(node[0], node[1]) for node in trail.nodes if isinstance(node, tuple)]
    turned = sum(turns(a, b, points[k + 1]) for k, (a, b) in enumerate(itertools.pairwise(seams)))
    return Thread(tuple(s.id for s in seams), tuple(points), trail.length, turned)


def thread_needed(seam_in: float, factor: float, tail_in: float = 0.0) -> float:
    """Inches of thread for a seam: its length times `factor`, and a tail at either end.

    Sources disagree on the factor (about 1.1 to 1.3 for running stitch; 2.5 for a machine's lockstitch,
    needle and bobbin together), so it is never a constant here.
    """
    return seam_in * factor + 2 * tail_in
