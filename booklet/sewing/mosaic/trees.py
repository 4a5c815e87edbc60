"""Floor 4, the mosaic: an order as a tree of joins, and the sums by which orders are compared."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.kit.records import Record
from booklet.sewing.mosaic.joining import Joins, join
from booklet.sewing.mosaic.mosaic import Faces, Mosaic

MOST_PARTS = 12  # a step of more is split: nobody keeps count of a longer row


class Tree(Record, eq=False):
    """A unit to be made: its faces, and the units joined to make it, in order (none for a patch).

    Trees are told apart by identity; within an order no two have the same faces.
    """

    faces: Faces
    parts: tuple[Tree, ...] = ()

    def units(self) -> Iterator[Tree]:
        """The unit and all units below it, patches left out, parts before wholes."""
        found, below = [], [self] if self.parts else []
        while below:  # wholes before parts, and the last part first: the same way back
            unit = below.pop()
            found.append(unit)
            below += [part for part in unit.parts if part.parts]
        return reversed(found)

    @property
    def level(self) -> int:
        """0 for a patch, else one more than the highest part."""
        return 1 + max(part.level for part in self.parts) if self.parts else 0


def leaf(face: int) -> Tree:
    """A patch."""
    return Tree(1 << face)


def joined(*parts: Tree) -> Tree:
    """The unit made of parts."""
    faces = 0
    for part in parts:
        faces |= part.faces
    return Tree(faces, parts)


class Sums(Record, kw_only=True):
    """The cost of an order, its turns, the joins with a turn, those that close a ring and those that go
    most of the way round something."""

    cost: float
    turns: int
    set_ins: int
    rings: int
    wraps: int


def sums(mosaic: Mosaic, tree: Tree, joins: Joins | None = None) -> Sums:
    """The sums of an order; `joins` remembers what was worked out before."""
    cost, turns, set_ins, rings, wraps = 0.0, 0, 0, 0, 0
    for unit in tree.units():
        done = unit.parts[0].faces
        for part in unit.parts[1:]:
            made = joins(done, part.faces) if joins else join(mosaic, done, part.faces)
            cost += made.cost
            turns += made.turns
            set_ins += made.turns > 0
            rings += made.ring
            wraps += made.wraps
            done |= part.faces
    return Sums(cost=cost, turns=turns, set_ins=set_ins, rings=rings, wraps=wraps)
