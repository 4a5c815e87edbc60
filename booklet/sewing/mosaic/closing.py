"""Floor 4, the mosaic: an order as the closing pairs of its points, and back.

Edges linked by the closing pairs of their points are one strand, which is sewn in one go.
"""

from __future__ import annotations

from booklet.sewing.mosaic.joining import common_edges
from booklet.sewing.mosaic.mosaic import Faces, Mosaic, bits, first_face
from booklet.sewing.mosaic.trees import Tree

Choice = dict[int, tuple[int, int]]  # by point: its closing pair


def tree_of(mosaic: Mosaic, region: Faces, choice: Choice) -> Tree | None:
    """The order in which the strands of a choice are sewn; None if they are no order."""
    units = _begun(mosaic, region, choice)
    return units[0] if len(units) == 1 else None


def _begun(mosaic: Mosaic, region: Faces, choice: Choice) -> list[Tree]:
    """The units made by sewing every strand of a choice that can be sewn, by their first faces."""
    strands = _strands(mosaic, region, choice)
    home = {e: k for k, strand in enumerate(strands) for e in strand}
    waits: list[set[int]] = [set() for _ in strands]
    for point, pair in choice.items():
        waits[home[pair[0]]] |= {home[e] for e in mosaic.rays[point] if e not in pair}
    unit = {f: Tree(1 << f) for f in bits(region)}
    done: set[int] = set()
    while len(done) < len(strands):
        ready = [k for k, before in enumerate(waits) if k not in done and before <= done]
        if not ready:
            break
        for k in ready:
            done.add(k)
            edge = mosaic.edges[strands[k][0]]
            a, b = unit[edge.a], unit[edge.b]
            if a is b:
                continue
            parts = sorted((a, b), key=lambda t: first_face(t.faces))
            whole = Tree(a.faces | b.faces, tuple(parts))
            unit.update(dict.fromkeys(bits(whole.faces), whole))
    return sorted(
        {id(tree): tree for tree in unit.values()}.values(), key=lambda t: first_face(t.faces)
    )


def _strands(mosaic: Mosaic, region: Faces, choice: Choice) -> list[list[int]]:
    """The edges linked by closing pairs, as groups in the order of their first edges."""
    group = {e: {e} for e in mosaic.inner_edges(region)}
    for e, f in choice.values():
        if group[e] is not group[f]:
            group[e] |= group[f]
            for g in group[f]:
                group[g] = group[e]
    return sorted(sorted(there) for there in {id(g): g for g in group.values()}.values())


def choice_of(mosaic: Mosaic, tree: Tree) -> Choice:
    """The closing pairs of an order: at every inner point the two edges sewn last."""
    choice: Choice = {}
    for unit in tree.units():
        done = unit.parts[0].faces
        for part in unit.parts[1:]:
            at: dict[int, list[int]] = {}
            for e in common_edges(mosaic, done, part.faces):
                for point in mosaic.ends(e):
                    at.setdefault(point, []).append(e)
            done |= part.faces
            for point, there in at.items():
                if len(there) == 2 and mosaic.is_inside(point, done):
                    choice[point] = (min(there), max(there))
    return dict(sorted(choice.items()))
