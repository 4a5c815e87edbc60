"""Floor 4, the searches: a small block sewn upward in many ways, every join made wherever the block, turned,
has its like.

Which join comes next is drawn by lot (from a seed that never changes, so the answer does not either)
among those that cost nothing needless; straight ones are likelier. The orders are compared elsewhere.

What it is for: 9 of the 186 orders of the test patterns are easier to tell.
"""

from __future__ import annotations

import random
from collections.abc import Iterator

from booklet.sewing.mosaic.joining import Joins
from booklet.sewing.mosaic.likeness import Likeness
from booklet.sewing.mosaic.mosaic import Faces, Mosaic, bits, moved
from booklet.sewing.mosaic.trees import Tree, joined, leaf
from booklet.sewing.searches.sectors import MOST_TURNS, Turned, turned
from booklet.sewing.searches.upward import Two, neighbours, spoilt

EFFORT = 1200  # orders times pieces
MOST_ORDERS = 60
FEW_ORDERS = 4  # of a block that is alike in no way it is turned
CHANCES = (6, 3, 1)  # of a join with no turn, with one, with more


def random_orders(joins: Joins, looks: tuple[Likeness, ...]) -> Iterator[Tree]:
    """Orders of a whole block, alike in all alike sectors as far as that goes."""
    mosaic = joins.mosaic
    ways = _symmetries(mosaic, looks)
    lots = _Lots(joins)
    most = MOST_ORDERS if any(len(chain) > 1 for chain in ways) else FEW_ORDERS
    count = min(most, EFFORT // len(mosaic.names))
    for number in range(count):
        yield lots.order(ways[number % len(ways)], random.Random(number))


Turns = tuple[Turned, ...]  # a group of turns, but for the one that leaves all in place


def _symmetries(mosaic: Mosaic, looks: tuple[Likeness, ...]) -> list[list[Turns]]:
    """Chains of ever fewer turns that lay the block on itself, ended by none."""
    chains: list[list[Turns]] = []
    for likeness in looks:
        counts = range(min(MOST_TURNS, len(mosaic.names)), 1, -1)
        groups = [
            _powers(turn, count)
            for count in counts
            if (turn := turned(likeness, mosaic.whole, count))
        ]
        for first in range(len(groups)):
            chain = groups[first : first + 1]
            for group in groups[first + 1 :]:
                if (len(chain[-1]) + 1) % (len(group) + 1) == 0:
                    chain.append(group)
            if [*chain, ()] not in chains:
                chains.append([*chain, ()])
    return chains or [[()]]


def _powers(turn: Turned, count: int) -> Turns:
    """A turn made once, twice, ... up to all but a whole round."""
    made = [turn]
    while len(made) < count - 1:
        made.append({f: turn[g] for f, g in made[-1].items()})
    return tuple(made)


class _Lots:
    """The drawing of orders."""

    def __init__(self, joins: Joins) -> None:
        self.mosaic, self.joins = joins.mosaic, joins

    def order(self, chain: list[Turns], chance: random.Random) -> Tree:
        """One order, with joins wherever the turns of the chain's first group have their like; of the
        next where nothing more goes that way."""
        units = [leaf(f) for f in bits(self.mosaic.whole)]
        groups = iter(chain)
        turns = next(groups)
        while len(units) > 1:
            steps = list(self._steps(units, turns))
            if not steps:
                turns = next(groups)
                continue
            step = self._drawn(steps, units, chance)
            gone = {unit.faces for two in step for unit in two}
            units = [unit for unit in units if unit.faces not in gone]
            units.extend(joined(*two) for two in step)
            units.sort(key=lambda unit: unit.faces & -unit.faces)
        return units[0]

    def _steps(self, units: list[Tree], turns: Turns) -> Iterator[list[Two]]:
        """Joins that can be made next, each with all those alike that the turns give."""
        home = {unit.faces: unit for unit in units}
        seen: set[Faces] = set()
        for one, other in neighbours(self.mosaic, units):
            both = one.faces | other.faces
            if both in seen:
                continue
            step = {both: (one, other)}
            for turn in turns:
                a, b = moved(one.faces, turn), moved(other.faces, turn)
                step.setdefault(a | b, (home[a], home[b]))
            seen.update(step)
            if sum(whole.bit_count() for whole in step) == _union(step).bit_count():
                yield list(step.values())

    def _drawn(self, steps: list[list[Two]], units: list[Tree], chance: random.Random) -> list[Two]:
        """One of the steps that cost least beyond need."""
        home = {f: unit.faces for unit in units for f in bits(unit.faces)}
        rated = [(self._needless(home, *step[0]), step) for step in steps]
        least = min(worth for worth, _ in rated)
        good = [step for worth, step in rated if worth == least]
        weights = [
            CHANCES[min(2, self.joins(step[0][0].faces, step[0][1].faces).turns)] for step in good
        ]
        return chance.choices(good, weights)[0]

    def _needless(self, home: dict[int, Faces], one: Tree, other: Tree) -> tuple[bool, float]:
        """Whether a join closes a ring, and what it costs beyond need."""
        made = self.joins(one.faces, other.faces)
        both = one.faces | other.faces
        more = sum(spoilt(self.mosaic, home, point, both) for point in made.ends)
        return made.ring, round(made.needless + more, 6)


def _union(step: dict[Faces, Two]) -> Faces:
    """The faces of all units a step makes."""
    union = 0
    for whole in step:
        union |= whole
    return union
