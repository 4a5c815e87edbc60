"""Floor 4, the searches: what an order asks of the reader, by which equally cheap ones are compared."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from booklet.sewing.mosaic.joining import Joins
from booklet.sewing.mosaic.likeness import Likeness
from booklet.sewing.mosaic.mosaic import Mosaic
from booklet.sewing.mosaic.trees import Tree, sums
from booklet.sewing.searches.fewer_cards import Worth, retold
from booklet.sewing.searches.joined_rows import with_rows
from booklet.sewing.searches.random_orders import random_orders
from booklet.sewing.searches.upward import grown

WRAP = 3  # a seam most of the way round something is as tedious as so many cards
FAN_OF_THREE = 1.5
MOST_RETOLD = 4  # orders whose parts are moved
RETELLING = 90  # such orders times pieces


class Effort:
    """What orders of one block ask of the reader: smaller is better."""

    def __init__(self, mosaic: Mosaic, likeness: Likeness, shapes: Likeness) -> None:
        self.mosaic, self.likeness, self.shapes = mosaic, likeness, shapes
        self.joins = Joins(mosaic)

    def worth(self, tree: Tree) -> Worth:
        """Smaller is better: cost; rings; cards to be told, and set-ins; sorts of parts to be laid out;
        shapes; levels."""
        made = sums(self.mosaic, tree, self.joins)
        units = list(tree.units())
        cards = {self._card(unit): unit for unit in units}
        shapes = {self.shapes.sort(unit.faces) for unit in units}
        effort = sum(map(self._effort, cards.values())) + made.set_ins + WRAP * made.wraps
        laid_out = sum(len(set(card[1:])) for card in cards)
        return (round(made.cost, 6), made.rings, effort, laid_out, len(shapes), tree.level)

    def _card(self, unit: Tree) -> tuple[int, ...]:
        """What units made alike have in common: how they look and how their parts look."""
        sort = self.likeness.sort
        return (sort(unit.faces), *sorted(sort(part.faces) for part in unit.parts))

    def _effort(self, unit: Tree) -> float:
        """What a card asks of the reader: 1. A step whose seams do not lie side by side is a fan, not a
        row: half a card more with three parts, with more as much as twice its joins."""
        seams = [self.joins(a.faces, b.faces).ends for a, b in pairwise(unit.parts)]
        if all(self._are_parallel(a, b) for a, b in pairwise(seams)):
            return 1.0
        return FAN_OF_THREE if len(seams) == 2 else 2.0 * len(seams)

    def _are_parallel(self, a: tuple[int, ...], b: tuple[int, ...]) -> bool:
        return len(a) == len(b) == 2 and self.mosaic.are_parallel((a[0], a[1]), (b[0], b[1]))

    def told(self, tree: Tree) -> Tree:
        """The order with those of its rows as one step that make it easiest to tell."""
        once = with_rows(self.joins, self.likeness, tree, tree)
        ways = [tree, once]
        for used, by_one in ((once, False), (None, False), (tree, True)):
            rowed = with_rows(self.joins, self.likeness, tree, used, by_one)
            if all(_shape(rowed) != _shape(way) for way in ways):
                ways.append(rowed)
        return min(ways, key=self.worth)

    def best(self, tree: Tree) -> Tree:
        """The order of a whole small block that is easiest to follow, among as cheap ones as the given."""
        starts = {_shape(start): start for start in (tree, *self._starts())}
        ranked = sorted(starts.values(), key=lambda start: self.worth(self.told(start)))
        most = max(1, min(MOST_RETOLD, RETELLING // len(self.mosaic.names)))
        made = [
            retold(self.joins, self.likeness, start, self.told, self.worth)
            for start in ranked[:most]
        ]
        return min(made, key=self.worth)

    def _starts(self) -> Iterator[Tree]:
        """Orders that do not begin with the block's straight lines: outer pieces may be sewn to alike
        units first."""
        for looks in (self.likeness, self.shapes):
            for many in (False, True):
                yield grown(self.mosaic, looks, self.mosaic.whole, many=many)
        yield from random_orders(self.joins, (self.likeness, self.shapes))


def _shape(tree: Tree) -> tuple[tuple[int, ...], ...]:
    """What tells orders apart: the parts of every unit."""
    return tuple(tuple(part.faces for part in unit.parts) for unit in tree.units())
