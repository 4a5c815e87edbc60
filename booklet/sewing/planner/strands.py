"""Floor 4, the planner: strands. Edges linked by the closing pairs of their points are sewn in one go."""

from __future__ import annotations

from booklet.sewing.planner.cuts import first_face
from booklet.sewing.planner.mosaic import Faces, Mosaic, bits
from booklet.sewing.planner.rounds import Choice
from booklet.sewing.planner.trees import Tree


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
