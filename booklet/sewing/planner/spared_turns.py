"""Floor 4, the planner: a turn at a T can be saved by a partial seam, as the rounds of a wheel are sewn.

Where the straight seam of the T was sewn up to the point before, and the last unit would turn from the
stem into its other half: stop the first half short of the point, sew on the stem straight, and
then finish the straight seam in one go. Only the last seam of a step stays open: where it is another, the step is parted after it.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.kit.records import Record
from booklet.sewing.mosaic.joining import common_edges
from booklet.sewing.mosaic.mosaic import Faces, Mosaic
from booklet.sewing.mosaic.trees import Tree, joined


class SparedTurn(Record, kw_only=True):
    """A seam left open: the unit whose last join begins it, the unit whose last join comes past, the
    two faces of the seam, the face for which it stays open, and what of the turn's cost was spared."""

    begun: Faces
    passed: Faces
    seam: tuple[int, int]
    leave: int
    spared: float


def with_spared_turns(
    mosaic: Mosaic, tree: Tree, cost: float
) -> tuple[Tree, tuple[SparedTurn, ...]]:
    """An order, its steps parted where that spares a turn, and the turns that partial seams spare in it."""
    if all(edge.short for edge in mosaic.edges):
        return tree, ()  # nothing is sewn by machine
    found = spared_turns(mosaic, tree, cost)
    parted = True
    while parted:
        parted = False
        for unit, k in _places_to_part(mosaic, tree):
            early = joined(joined(*unit.parts[: k + 1]), *unit.parts[k + 1 :])
            other = _with_unit(tree, early)
            more = spared_turns(mosaic, other, cost)
            if len(more) > len(found):
                tree, found, parted = other, more, True
                break
    return tree, found


def _places_to_part(mosaic: Mosaic, tree: Tree) -> Iterator[tuple[Tree, int]]:
    """The joins within a step that would have to be its last, for a turn at a T to be spared: that which turns there, and
    that which sews the seam up to it. Each is told by its unit and the part that it joins."""
    sewn_in: dict[int, tuple[Tree, int]] = {}
    turns: list[tuple[int, tuple[Tree, int]]] = []
    for unit in tree.units():
        done = unit.parts[0].faces
        for k, part in enumerate(unit.parts[1:], 1):
            edges = common_edges(mosaic, done, part.faces)
            done |= part.faces
            if any(mosaic.edges[e].short for e in edges):
                continue
            sewn_in |= dict.fromkeys(edges, (unit, k))
            for point, pair in _turns_at(mosaic, edges, done):
                stems = [e for e in mosaic.rays[point] if e not in pair]
                turns += [(stems[0], (unit, k))] if len(stems) == 1 else []
    for stem, place in turns:
        for unit, k in (place, sewn_in.get(stem, place)):
            if k < len(unit.parts) - 1:
                yield unit, k


def _with_unit(tree: Tree, unit: Tree) -> Tree:
    """An order in which a unit is made otherwise."""
    if tree.faces == unit.faces:
        return unit
    if tree.faces & unit.faces != unit.faces:
        return tree
    return joined(*(_with_unit(part, unit) for part in tree.parts))


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
    return _turns_at(mosaic, edges, unit.faces)


def _turns_at(mosaic: Mosaic, edges: list[int], faces: Faces) -> list[tuple[int, tuple[int, int]]]:
    """The points inside a unit at which a seam of these edges turns, each with its two edges."""
    at: dict[int, list[int]] = {}
    for e in edges:
        for point in mosaic.ends(e):
            at.setdefault(point, []).append(e)
    return [
        (point, (there[0], there[1]))
        for point, there in sorted(at.items())
        if len(there) == 2
        and mosaic.is_inside(point, faces)
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
