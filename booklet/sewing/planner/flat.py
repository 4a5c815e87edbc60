"""Floor 4, the planner: joins that only lengthen a row become one step, as rows are sewn."""

from __future__ import annotations

from collections import Counter

from booklet.sewing.planner.joining import join
from booklet.sewing.planner.likeness import Likeness, Sign
from booklet.sewing.planner.mosaic import Faces, Mosaic, bits
from booklet.sewing.planner.rows import MOST_PARTS
from booklet.sewing.planner.trees import Tree


def with_rows(mosaic: Mosaic, likeness: Likeness, tree: Tree) -> Tree:
    """The same order with its rows as one step each.

    A unit is taken into the step that follows where both are sewn without a turn, the new part touches
    just an end of it, and no other unit like it is used in another way.
    """
    count = Counter(likeness.sign(unit.faces) for unit in tree.units())
    return _Rows(mosaic, likeness, count).made(tree)


class _Rows:
    """The rows of one order."""

    def __init__(self, mosaic: Mosaic, likeness: Likeness, count: Counter[Sign]) -> None:
        self.mosaic, self.likeness, self.count = mosaic, likeness, count

    def made(self, tree: Tree) -> Tree:
        """The unit with rows made of its parts."""
        if not tree.parts:
            return tree
        parts = tuple(self.made(part) for part in tree.parts)
        if len(parts) == 2:
            for row, more in (parts, parts[::-1]):
                longer = self._longer(row, more, tree.faces)
                if longer:
                    return Tree(tree.faces, longer)
        return Tree(tree.faces, parts)

    def _longer(self, row: Tree, more: Tree, whole: Faces) -> tuple[Tree, ...]:
        """The parts of a row with one more at an end, or none where that is not all there is to it."""
        once = self.count[self.likeness.sign(row.faces)] == self.count[self.likeness.sign(whole)]
        if not 2 <= len(row.parts) < MOST_PARTS or not once or not self._is_row(row):
            return ()
        near = 0
        for f in bits(more.faces):
            near |= self.mosaic.beside[f]
        touched = [part for part in row.parts if near & part.faces]
        if len(touched) != 1 or not self._is_straight(touched[0], more):
            return ()
        if touched[0] is row.parts[-1]:
            return (*row.parts, more)
        return (more, *row.parts) if touched[0] is row.parts[0] else ()

    def _is_row(self, unit: Tree) -> bool:
        """Whether each part is sewn straight to the one before and touches no other."""
        done = 0
        for before, part in zip(unit.parts, unit.parts[1:], strict=False):
            near = 0
            for f in bits(part.faces):
                near |= self.mosaic.beside[f]
            if near & done or not self._is_straight(before, part):
                return False
            done |= before.faces
        return True

    def _is_straight(self, a: Tree, b: Tree) -> bool:
        made = join(self.mosaic, a.faces, b.faces)
        return not made.turns and not made.ring
