"""Floor 4, the searches: a region that is alike when turned, sewn in alike sectors round its middle.

What it is for: 7 of the 186 orders of the test patterns are easier to tell, all of them rosettes.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence

from booklet.kit.outlines.alike import rotated
from booklet.kit.outlines.plane import mean, minus, plus
from booklet.sewing.mosaic.likeness import Likeness
from booklet.sewing.mosaic.mosaic import Faces, Mosaic, bits
from booklet.sewing.mosaic.trees import Tree, joined
from booklet.sewing.searches.rows import touching

MOST_TURNS = 12
NEAR = 0.02  # inches
MOST_SECTORS = 12  # ways to choose the first sector

Turned = dict[int, int]


def sectors(
    mosaic: Mosaic, likeness: Likeness, region: Faces
) -> Iterator[tuple[tuple[Faces, ...], Faces]]:
    """Ways to part a region into alike sectors, each a turned copy of the one before, and a face in the
    middle that stays where it is (0 where there is none)."""
    if region.bit_count() < 4:
        return
    for count in range(min(MOST_TURNS, region.bit_count()), 1, -1):
        turn = turned(likeness, region, count)
        if turn is None:
            continue
        fixed = [f for f, g in turn.items() if f == g]
        if len(fixed) > 1:
            continue
        seen: set[Faces] = set()
        for start in list(bits(region))[:MOST_SECTORS]:
            first = _sector(mosaic, turn, start)
            if start in fixed or first is None or first in seen:
                continue
            seen.add(first)
            parts = [first]
            while len(parts) < count:
                parts.append(sum(1 << turn[f] for f in bits(parts[-1])))
            yield tuple(parts), sum(1 << f for f in fixed)


def round_the_middle(mosaic: Mosaic, sewn: Sequence[Tree], middle: Faces) -> Iterator[Tree]:
    """Sectors joined to their neighbours while that makes alike units, then one by one; or to two halves,
    which are joined last, straight across the middle. Where there is a face in the middle, one by
    one to that."""
    if middle:
        ways = [_one_by_one(mosaic, Tree(middle), sewn)]
    else:
        ways = [_twos(mosaic, sewn, lambda ring: _one_by_one(mosaic, ring[0], ring[1:]))]
        half = len(sewn) // 2
        if len(sewn) % 4 == 2 or half % 3 == 0:
            ways += [
                _half_and_half(mosaic, arc(mosaic, sewn[:half]), arc(mosaic, sewn[half:]))
                for arc in (_arc, _arc_back)
            ]
            ways.append(
                _half_and_half(mosaic, _arc(mosaic, sewn[:half]), _arc_back(mosaic, sewn[half:]))
            )
    yield from (tree for tree in ways if tree is not None)


def _twos(
    mosaic: Mosaic, units: Sequence[Tree], at_last: Callable[[Sequence[Tree]], Tree | None]
) -> Tree | None:
    """Units joined two by two, again and again; what is left of an odd number as `at_last` says."""
    ring = list(units)
    while len(ring) > 1 and len(ring) % 2 == 0:
        twos = list(zip(ring[::2], ring[1::2], strict=True))
        if not all(touching(mosaic, *two) for two in twos):
            return None
        ring = [joined(*two) for two in twos]
    return at_last(ring)


def _arc(mosaic: Mosaic, units: Sequence[Tree]) -> Tree | None:
    """Units that follow one another as one, begun at the first."""
    return _twos(mosaic, units, lambda row: _one_by_one(mosaic, row[0], row[1:]))


def _arc_back(mosaic: Mosaic, units: Sequence[Tree]) -> Tree | None:
    """Units that follow one another as one, begun at the last."""
    return _twos(mosaic, units, lambda row: _one_by_one(mosaic, row[-1], row[-2::-1]))


def _half_and_half(mosaic: Mosaic, one: Tree | None, other: Tree | None) -> Tree | None:
    """Two halves joined."""
    if one is None or other is None or not touching(mosaic, one, other):
        return None
    return joined(one, other)


def _one_by_one(mosaic: Mosaic, first: Tree, others: Sequence[Tree]) -> Tree | None:
    """Units joined in the order given."""
    tree = first
    for other in others:
        if not touching(mosaic, other, tree):
            return None
        tree = joined(tree, other)
    return tree


def turned(likeness: Likeness, region: Faces, count: int) -> Turned | None:
    """For every face the one on which it comes to lie when the region is turned by a `count`-th; None
    where it is not alike then."""
    faces = list(bits(region))
    looks = likeness.looks
    centre = mean([looks[f].middle for f in faces])
    c, s = math.cos(math.tau / count), math.sin(math.tau / count)

    def near(p: float, q: float, a: float, b: float) -> bool:
        return abs(p - a) < NEAR and abs(q - b) < NEAR

    turn: Turned = {}
    for f in faces:
        look = looks[f]
        px, py = plus(centre, rotated(minus(look.middle, centre), c, s))
        for g in faces:
            other = looks[g]
            if other.label == look.label and near(px, py, *other.middle):
                spots = [rotated(corner, c, s) for corner in look.corners]
                if all(any(near(*spot, *corner) for corner in other.corners) for spot in spots):
                    turn[f] = g
                    break
        else:
            return None
    return turn if len(set(turn.values())) == len(turn) else None


def _sector(mosaic: Mosaic, turn: Turned, start: int) -> Faces | None:
    """A connected part with one face of every set of faces that are turned onto one another."""
    taken: set[int] = set()
    sector, front = 0, [start]
    while front:
        f = front.pop(0)
        if f in taken or turn[f] == f:
            continue
        sector |= 1 << f
        g = f
        while g not in taken:
            taken.add(g)
            g = turn[g]
        front.extend(g for g in bits(mosaic.beside[f]) if g in turn and g not in taken)
    whole = len(taken) + sum(f == g for f, g in turn.items()) == len(turn)
    return sector if whole and mosaic.is_connected(sector) else None
