"""Floor 4: a plain order for `sew: auto`. Valid for every block; not always the one with fewest turns.

Straight through-cuts come first: by the exchange lemma some best order sews such a cut last, so a
region is cut along them until none is left. What is left is joined pair by pair, the join with the
fewest turns first.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from booklet.geometry.tiling import Seam, Tiling
from booklet.kit.near import DRAWN
from booklet.kit.plane import mean
from booklet.pattern import Sewing
from booklet.pattern import Step as Declared
from booklet.sewing.auto.dividing_lines import Cut, connected, inner_seams, through_cuts
from booklet.sewing.order.stretches import common_seams, rim_points, stretches
from booklet.sewing.order.table import free_name

Region = frozenset[str]
MOST_PARTS = 12  # a join of more is split: nobody keeps count of a longer row


@dataclass(frozen=True, slots=True, eq=False)
class Node:
    """A unit to be made: the pieces, and the nodes joined to make it (none for a patch).

    Nodes are told apart by identity, which is quick; within a block no two have the same pieces.
    """

    pieces: Region
    parts: tuple[Node, ...] = ()

    @property
    def level(self) -> int:
        """0 for a patch, else one more than the highest part."""
        return 1 + max(part.level for part in self.parts) if self.parts else 0


def order_for(tiling: Tiling, sewing: Sewing) -> tuple[Declared, ...]:
    """Steps that sew the whole block: low levels first, so that alike joins can be chained."""
    if len(tiling.pieces) < 2:
        return ()
    planner = _Planner(tiling)
    top = planner.node(frozenset(piece.id for piece in tiling.pieces))
    nodes = sorted(_units(top), key=lambda node: (node.level, *planner.place(node)))
    names = _names(nodes, tiling)
    span = tiling.pieces[0].span
    return tuple(
        Declared(
            make=names[node.pieces],
            join=tuple(names[part.pieces] for part in node.parts),
            span=span,
            join_spans=(span,) * len(node.parts),
            entry=entry,
        )
        for entry, node in enumerate(nodes)
    )


def _units(node: Node) -> Iterable[Node]:
    """The node and all units below it, patches left out."""
    if node.parts:
        yield node
        for part in node.parts:
            yield from _units(part)


def _names(nodes: Sequence[Node], tiling: Tiling) -> dict[Region, str]:
    """A name for every unit: row1, row2, … for level rows of patches, else unit1, unit2, …

    Numbered by the first piece of each, so that row1 is the one at the top.
    """
    number = {piece.id: k for k, piece in enumerate(tiling.pieces)}
    names = {frozenset({piece.id}): piece.id for piece in tiling.pieces}
    taken = {tiling.block, *names.values()}
    for node in sorted(nodes[:-1], key=lambda n: (n.level, min(number[p] for p in n.pieces))):
        name = free_name(taken, "row" if _is_row(node, tiling) else "unit")
        names[node.pieces] = name
        taken.add(name)
    names[nodes[-1].pieces] = tiling.block
    return names


def _is_row(node: Node, tiling: Tiling) -> bool:
    """Whether a unit is three patches or more side by side from left to right."""
    if node.level != 1 or len(node.parts) < 3:
        return False
    middles = [_middle(part.pieces, tiling) for part in node.parts]
    return max(y for _, y in middles) - min(y for _, y in middles) < DRAWN


def _middle(pieces: Iterable[str], tiling: Tiling) -> tuple[float, float]:
    """The middle of the corners of some pieces."""
    points = [p for piece in pieces for p in tiling.piece(piece).outline.corners]
    return mean(points)


class _Planner:
    """Finds the tree of joins of one tiling."""

    def __init__(self, tiling: Tiling) -> None:
        self.tiling = tiling
        self.rim = rim_points(tiling)
        self.look = {p.id: (p.patch, p.reversed, p.fabric) for p in tiling.pieces}
        self.number = {piece.id: k for k, piece in enumerate(tiling.pieces)}

    def place(self, node: Node) -> tuple[object, ...]:
        """A key that puts alike units side by side, then by the order of the pieces."""
        return (self.likeness(node.pieces), min(self.number[piece] for piece in node.pieces))

    def likeness(self, region: Region) -> tuple[object, ...]:
        """What alike regions have in common: their patches and fabrics."""
        return tuple(sorted(self.look[piece] for piece in region))

    def node(self, region: Region) -> Node:
        """The tree of a region: cut along straight lines where that goes, else joined pair by pair."""
        if len(region) == 1:
            return Node(region)
        cuts = through_cuts(self.tiling, region)
        if not cuts:
            return self._kernel(region)
        parts = min((self._parts(region, cuts, cut) for cut in cuts), key=self._merit)
        return Node(region, tuple(self.node(part) for part in parts))

    def _parts(self, region: Region, cuts: Sequence[Cut], cut: Cut) -> tuple[Region, ...]:
        """The parts of a region, side by side, when it is cut along all cuts parallel to one."""
        parallel = [other for other in cuts if other.is_parallel(cut)]
        gone = {seam.id for other in parallel for seam in other.seams}
        kept = [seam for seam in inner_seams(self.tiling, region) if seam.id not in gone]
        parts = connected(region, kept)
        if len(parts) != len(parallel) + 1 or len(parts) > MOST_PARTS:
            return tuple(sorted(cut.halves, key=lambda part: min(self.number[p] for p in part)))
        return self._in_row(parts)

    def _in_row(self, parts: Sequence[Region]) -> tuple[Region, ...]:
        """The parts in an order in which each touches those before it."""
        beside = {
            part: [o for o in parts if o != part and common_seams(self.tiling.seams, part, o)]
            for part in parts
        }
        rank = {part: min(self.number[p] for p in part) for part in parts}
        row = [min(parts, key=lambda part: (len(beside[part]), rank[part]))]
        while len(row) < len(parts):
            ahead = [p for p in parts if p not in row and any(o in row for o in beside[p])]
            row.append(min(ahead, key=lambda part: rank[part]))
        return tuple(row)

    def _merit(self, parts: tuple[Region, ...]) -> tuple[object, ...]:
        """Smaller is better: parts that repeat, then parts of equal size, then level rows."""
        kinds = len({self.likeness(part) for part in parts})
        largest = max(len(part) for part in parts)
        first = min(self.number[piece] for piece in parts[-1])
        return (kinds - len(parts), largest, -first)

    def _kernel(self, region: Region) -> Node:
        """The tree of a region without a straight cut: the cheapest join of two units, again and again."""
        units = [Node(frozenset({piece})) for piece in sorted(region, key=self.number.__getitem__)]
        seams = inner_seams(self.tiling, region)
        known: dict[tuple[Node, Node], tuple[object, ...]] = {}  # a join costs the same till made
        while len(units) > 1:
            pairs = self._pairs(units, seams)
            for pair, shared in pairs.items():
                if pair not in known:
                    known[pair] = self._cost(*pair, shared)
            a, b = min(pairs, key=known.__getitem__)
            units = [unit for unit in units if unit not in (a, b)]
            units.append(Node(a.pieces | b.pieces, (a, b)))
        return units[0]

    def _pairs(
        self, units: Sequence[Node], seams: Sequence[Seam]
    ) -> dict[tuple[Node, Node], list[Seam]]:
        """The pairs of units that share seams, with those seams."""
        home = {piece: unit for unit in units for piece in unit.pieces}
        pairs: dict[tuple[Node, Node], list[Seam]] = {}
        for seam in seams:
            a, b = sorted((home[p] for p in seam.between), key=lambda u: self._first(u))
            if a != b:
                pairs.setdefault((a, b), []).append(seam)
        return pairs

    def _first(self, unit: Node) -> int:
        return min(self.number[piece] for piece in unit.pieces)

    def _cost(self, a: Node, b: Node, seams: Sequence[Seam]) -> tuple[object, ...]:
        """Smaller is better: no ring closed, few turns, many points passed straight (none of them can
        become a turn later), small units, short seams, early pieces."""
        found = stretches(seams, a.pieces, self.rim)
        ring = len(found) > 1 or any(stretch.closed for stretch in found)
        bends = sum(len(stretch.turns) for stretch in found)
        passed = sum(len(stretch.seams) - 1 for stretch in found) - bends
        length = round(sum(seam.length for seam in seams), 6)
        return (ring, bends, -passed, a.level + b.level, length, self._first(a), self._first(b))
