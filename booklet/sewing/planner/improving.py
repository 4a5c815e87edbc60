"""Floor 4, the planner: an order made better bit by bit. The joins that make one unit of up to a dozen
others are looked at anew, all ways tried, and the cheapest way kept.
"""

from __future__ import annotations

from booklet.kit.near import WHOLE
from booklet.sewing.planner.exact import cheapest
from booklet.sewing.planner.joining import join
from booklet.sewing.planner.mosaic import Edge, Faces, Mosaic, bits, build
from booklet.sewing.planner.trees import Tree, sums

MOST_UNITS = 12
MOST_PASSES = 4


def improved(mosaic: Mosaic, tree: Tree) -> Tree:
    """The same order or a cheaper one."""
    for _ in range(MOST_PASSES):
        better = _pass(mosaic, tree)
        if sums(mosaic, better).cost >= sums(mosaic, tree).cost - WHOLE:
            return tree
        tree = better
    return tree


def _pass(mosaic: Mosaic, tree: Tree) -> Tree:
    """The order after looking at every unit once, from the whole down."""
    if not tree.parts:
        return tree
    tree = _top_improved(mosaic, tree)
    return Tree(tree.faces, tuple(_pass(mosaic, part) for part in tree.parts))


def _top_improved(mosaic: Mosaic, tree: Tree) -> Tree:
    """The unit with the joins at its top made anew, if that saves anything."""
    units = list(tree.parts)
    needless = _needless(mosaic, tree)
    while len(units) < MOST_UNITS:
        large = max(units, key=lambda unit: (unit.faces.bit_count(), -unit.faces))
        if not large.parts or len(units) - 1 + len(large.parts) > MOST_UNITS:
            break
        needless += _needless(mosaic, large)
        units.remove(large)
        units.extend(large.parts)
    if needless <= WHOLE or len(units) < 3:
        return tree
    units.sort(key=lambda unit: unit.faces & -unit.faces)
    small = contracted(mosaic, [unit.faces for unit in units])
    found = expanded(cheapest(small, small.whole), units)
    old = sums(mosaic, tree).cost
    return found if sums(mosaic, found).cost < old - WHOLE else tree


def _needless(mosaic: Mosaic, unit: Tree) -> float:
    """The cost that the joins of a unit's parts have beyond the least their points can have."""
    done, total = unit.parts[0].faces, 0.0
    for part in unit.parts[1:]:
        total += join(mosaic, done, part.faces).needless
        done |= part.faces
    return total


def contracted(mosaic: Mosaic, units: list[Faces]) -> Mosaic:
    """The mosaic whose faces are units of another: what is left to sew when they are made."""
    home = {f: k for k, unit in enumerate(units) for f in bits(unit)}
    whole = sum(units)
    kept: dict[int, int] = {}
    edges: list[Edge] = []
    for e, edge in enumerate(mosaic.edges):
        a, b = home.get(edge.a), home.get(edge.b)
        if a is not None and b is not None and a != b:
            kept[e] = len(edges)
            edges.append(Edge(a, b, edge.u, edge.v, edge.weight, edge.short, edge.curved))
    inner, rays, pairs = [], [], []
    for point, there in enumerate(mosaic.rays):
        mine = tuple(kept[e] for e in there if e in kept)
        inside = mosaic.is_inside(point, whole) and len(mine) > 1
        inner.append(inside)
        rays.append(mine)
        table = mosaic.pairs[point].items() if inside else ()
        pairs.append({(kept[e], kept[f]): p for (e, f), p in table if e in kept and f in kept})
    names = tuple(str(k) for k in range(len(units)))
    return build(names, tuple(edges), tuple(inner), tuple(rays), tuple(pairs), mosaic.places)


def expanded(tree: Tree, units: list[Tree]) -> Tree:
    """An order of units as an order of faces."""
    if not tree.parts:
        return units[tree.faces.bit_length() - 1]
    parts = tuple(expanded(part, units) for part in tree.parts)
    return Tree(sum(part.faces for part in parts), parts)
