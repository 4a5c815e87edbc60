"""Floor 4, the planner: a turn at a T can be saved by a partial seam, as the rounds of a wheel are sewn.

Where the straight seam of the T was sewn up to the point before, and the last unit would turn from the
stem into its other half: stop the first half short of the point, sew on the stem straight, and
then finish the straight seam in one go.
"""

from __future__ import annotations

from booklet.kit.records import Record
from booklet.sewing.mosaic.joining import common_edges
from booklet.sewing.mosaic.mosaic import Faces, Mosaic
from booklet.sewing.mosaic.trees import Tree


class SparedTurn(Record, kw_only=True):
    """A seam left open: the unit whose last join begins it, the unit whose last join comes past, the
    two faces of the seam, the face for which it stays open, and what of the turn's cost was spared."""

    begun: Faces
    passed: Faces
    seam: tuple[int, int]
    leave: int
    spared: float


def spared_turns(mosaic: Mosaic, tree: Tree, cost: float) -> tuple[SparedTurn, ...]:
    """The turns of an order that cost as much as a partial seam or more, and can be one: where the
    machine sews, a seam once, and only in the last join of a step."""
    begun = _begun(mosaic, tree)
    found: list[SparedTurn] = []
    used: set[Faces] = set()
    for unit in tree.units():
        for point, pair in _turns_of_last(mosaic, unit):
            made = _saved(mosaic, point, pair, begun, unit, cost)
            if made is not None and not {made.begun, made.passed} & used:
                used |= {made.begun, made.passed}
                found.append(made)
    return tuple(found)


def _begun(mosaic: Mosaic, tree: Tree) -> dict[int, Tree]:
    """For every edge that ends a machine-sewn last join of a unit, that unit."""
    found: dict[int, Tree] = {}
    for unit in tree.units():
        last = unit.parts[-1].faces
        edges = common_edges(mosaic, unit.faces & ~last, last)
        if not any(mosaic.edges[e].short for e in edges):
            found.update(dict.fromkeys(edges, unit))
    return found


def _turns_of_last(mosaic: Mosaic, unit: Tree) -> list[tuple[int, tuple[int, int]]]:
    """The inner points at which the last join of a unit turns, each with its two edges."""
    last = unit.parts[-1].faces
    edges = common_edges(mosaic, unit.faces & ~last, last)
    if any(mosaic.edges[e].short for e in edges):
        return []
    at: dict[int, list[int]] = {}
    for e in edges:
        for point in mosaic.ends(e):
            at.setdefault(point, []).append(e)
    return [
        (point, (there[0], there[1]))
        for point, there in sorted(at.items())
        if len(there) == 2
        and mosaic.is_inside(point, unit.faces)
        and mosaic.pair(point, there[0], there[1]).turns
    ]


def _saved(
    mosaic: Mosaic,
    point: int,
    pair: tuple[int, int],
    begun: dict[int, Tree],
    unit: Tree,
    cost: float,
) -> SparedTurn | None:
    """The partial seam that saves the turn at a point, or None."""
    rays = mosaic.rays[point]
    what = mosaic.pair(point, *pair)
    if len(rays) != 3 or what.cost + what.spared < cost:
        return None
    first = next(e for e in rays if e not in pair)
    if all(mosaic.pair(point, first, e).turns for e in pair) or first not in begun:
        return None
    edges = [mosaic.edges[e] for e in pair]
    leave = {edges[0].a, edges[0].b} & {edges[1].a, edges[1].b}
    start = begun[first]
    if len(leave) != 1 or start is unit or start.faces & unit.faces != start.faces:
        return None
    seam = mosaic.edges[first]
    return SparedTurn(
        begun=start.faces,
        passed=unit.faces,
        seam=(seam.a, seam.b),
        leave=next(iter(leave)),
        spared=what.spared,
    )
