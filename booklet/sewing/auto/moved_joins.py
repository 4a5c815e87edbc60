"""Floor 4, the ways to build: an order bettered join by join: parts are joined earlier or later, all alike ones at once, the cheapest
order known first. A turn more costs too much, as everywhere.

What it is for: 15 of 69 orders of the test patterns that are sewn by hand take a thread less, or two or four.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Iterator

from booklet.kit.outlines.near import WHOLE
from booklet.sewing.auto.unit_bench import HandUnit, UnitBench, is_hollow, tree_of
from booklet.sewing.mosaic.joining import Joins
from booklet.sewing.mosaic.likeness import Likeness
from booklet.sewing.mosaic.mosaic import Faces
from booklet.sewing.mosaic.trees import Tree

SLACK = 1.5  # inches: an order so much dearer than the best may lead to a better one
MOST_SEEN = 1_500  # orders looked at

Made = object  # a patch by its number, or two units that were joined
Look = tuple[
    int, int, int, int
]  # what units look like: two parts, what they are joined to, and which goes first


class MovedJoins:
    """Betters one order; `effort` is how many ways to sew a run may be looked at. Where `closes_rings` is false no
    join sets a part in all the way round: such an order would not be taken."""

    def __init__(
        self, bench: UnitBench, likeness: Likeness, effort: int, closes_rings: bool
    ) -> None:
        self.bench, self.likeness, self.effort = bench, likeness, effort
        self.closes_rings = closes_rings
        self._joins = Joins(bench.mosaic)
        self.card = float(bench.sewing.route_costs.card)
        self._units: dict[Made, HandUnit] = {}
        self._faces: dict[Made, Faces] = {}

    def bettered(self, tree: Tree) -> Tree:
        """The best order that is reached within the effort, the cheapest known moved first."""
        first = _binary(tree)
        best = (self._worth(first), 0, first)
        waiting, seen = [best], {first}
        while waiting:
            made = heapq.heappop(waiting)[2]
            for look in dict.fromkeys(self._looks(made)):
                tried = self._moved(made, look)
                if tried in seen:
                    continue
                if self.bench.sewer.effort > self.effort or len(seen) > MOST_SEEN:
                    return tree_of(best[2])
                seen.add(tried)
                found = self._worth(tried)
                if found < best[0] + SLACK:
                    heapq.heappush(waiting, (found, len(seen), tried))
                if found < best[0] - WHOLE:
                    best = (found, len(seen), tried)
        return tree_of(best[2])

    def _looks(self, made: Made) -> Iterator[Look]:
        """The moves there are: of two parts joined to a third, either may be joined to that first."""
        if not isinstance(made, tuple):
            return
        for one, other in (made, made[::-1]):
            if isinstance(one, tuple):
                for first, second in (one, one[::-1]):
                    if self._touch(second, other):
                        yield (self._look(first), self._look(second), self._look(other), 0)
        for part in made:
            yield from self._looks(part)

    def _moved(self, made: Made, look: Look) -> Made:
        """An order with all joins that look so moved."""
        if not isinstance(made, tuple):
            return made
        for one, other in (made, made[::-1]):
            for first, second in (one, one[::-1]) if isinstance(one, tuple) else ():
                here = (self._look(first), self._look(second), self._look(other), 0)
                if here == look and self._touch(second, other):
                    late = self._moved(first, look)
                    return (late, (self._moved(second, look), self._moved(other, look)))
        return tuple(self._moved(part, look) for part in made)

    def _look(self, made: Made) -> int:
        return self.likeness.sort(self.faces(made))

    def faces(self, made: Made) -> Faces:
        """The patches of a unit."""
        if made not in self._faces:
            self._faces[made] = (
                self.faces(made[0]) | self.faces(made[1])
                if isinstance(made, tuple)
                else 1 << int(str(made))
            )
        return self._faces[made]

    def _touch(self, one: Made, other: Made) -> bool:
        mosaic = self.bench.mosaic
        return mosaic.is_connected(self.faces(one) | self.faces(other))

    def _worth(self, made: Made) -> float:
        """What an order costs with its routes and its cards."""
        states = self._unit(made).states
        if not states:
            return math.inf  # a unit lies all round others
        return states[0].cost + self.card * len(set(self._cards(made)))

    def _cards(self, made: Made) -> Iterator[tuple[int, ...]]:
        if isinstance(made, tuple):
            yield (self._look(made), *sorted(self._look(part) for part in made))
            for part in made:
                yield from self._cards(part)

    def _unit(self, made: Made) -> HandUnit:
        """A unit with its states, worked out once."""
        if made not in self._units:
            if is_hollow(self.bench.mosaic, self.faces(made)) or self._closes(made):
                self._units[made] = HandUnit(self.faces(made), ())
            elif isinstance(made, tuple):
                self._units[made] = self.bench.joined(self._unit(made[0]), self._unit(made[1]))
            else:
                self._units[made] = self.bench.patch(int(str(made)))
        return self._units[made]

    def _closes(self, made: Made) -> bool:
        """Whether the last join of a unit closes a ring that must not be closed."""
        if self.closes_rings or not isinstance(made, tuple):
            return False
        return self._joins(self.faces(made[0]), self.faces(made[1])).ring


def _binary(tree: Tree) -> Made:
    """A tree as joins of two."""
    if not tree.parts:
        return tree.faces.bit_length() - 1
    made = _binary(tree.parts[0])
    for part in tree.parts[1:]:
        made = (made, _binary(part))
    return made
