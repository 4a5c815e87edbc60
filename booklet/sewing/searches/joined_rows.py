"""Floor 4, the searches: joins that only lengthen a row become one step, as rows are sewn."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise

from booklet.sewing.mosaic.joining import Joins
from booklet.sewing.mosaic.likeness import Likeness
from booklet.sewing.mosaic.mosaic import Faces
from booklet.sewing.mosaic.trees import MOST_PARTS, Tree


def with_rows(
    joins: Joins, likeness: Likeness, tree: Tree, used: Tree | None, by_one: bool = False
) -> Tree:
    """The same order with its rows as one step each.

    A row is taken into the step that follows where all is sewn without a turn or a curve, the new
    parts touch just an end of it, and no other unit like it is used in another way in the order
    `used` (None: even then). With `by_one` just one of two rows is taken in where both could be.
    """
    count = Counter(likeness.sort(unit.faces) for unit in used.units()) if used else None
    return _Rows(joins, likeness, count, by_one).made(tree)


def in_one_row(joins: Joins, ones: tuple[Tree, ...], others: tuple[Tree, ...]) -> tuple[Tree, ...]:
    """The units of two rows laid end to end as one, or none where that is no row."""
    if not 2 < len(ones) + len(others) <= MOST_PARTS:
        return ()
    # the ends that meet are looked at first: most rows come to nothing there
    back = others[::-1]
    for first, then in ((ones, others), (ones, back), (others, ones), (back, ones)):
        if joins.is_straight(first[-1].faces, then[0].faces) and _is_row(joins, first + then):
            return first + then
    return ()


class _Rows:
    """The rows of one order."""

    def __init__(
        self, joins: Joins, likeness: Likeness, count: Counter[int] | None, by_one: bool
    ) -> None:
        self.joins, self.likeness, self.count, self.by_one = joins, likeness, count, by_one

    def made(self, tree: Tree) -> Tree:
        """The unit with rows made of its parts."""
        if not tree.parts:
            return tree
        parts = tuple(self.made(part) for part in tree.parts)
        if len(parts) == 2:
            ones, others = (self._opened(part, tree.faces) for part in parts)
            ways = [(ones, others), (ones, parts[1:]), (parts[:1], others)]
            for row in ways[self.by_one :]:
                spliced = in_one_row(self.joins, *row)
                if spliced:
                    return Tree(tree.faces, spliced)
        return Tree(tree.faces, parts)

    def _opened(self, row: Tree, whole: Faces) -> tuple[Tree, ...]:
        """The parts of a row that may go into a longer one; of what is none or stays, itself."""
        opened = row.parts and self._is_used_once(row, whole) and _is_row(self.joins, row.parts)
        return row.parts if opened else (row,)

    def _is_used_once(self, row: Tree, whole: Faces) -> bool:
        """Whether all units like the row go into a unit like the whole."""
        count, sort = self.count, self.likeness.sort
        return count is None or count[sort(row.faces)] <= count[sort(whole)]


def _is_row(joins: Joins, row: tuple[Tree, ...]) -> bool:
    """Whether each unit is sewn straight to the one before and touches no other."""
    done = 0
    for before, unit in pairwise(row):
        if joins.near(unit.faces) & done or not joins.is_straight(before.faces, unit.faces):
            return False
        done |= before.faces
    return True
