"""Floor 4, the mosaic: what it means to join two units of a mosaic."""

from __future__ import annotations

import math

from booklet.kit.records import Record
from booklet.sewing.mosaic.mosaic import Faces, Mosaic, bits

WRAPS = 0.45  # a seam whose ends lie nearer than this share of its length goes round something


class Join(Record, kw_only=True):
    """The cost and the turns of joining two units, what of the cost another order could save, how
    many points are passed straight, whether the seam closes a ring, whether it goes most of the way
    round something, its length and its ends."""

    cost: float
    turns: int
    needless: float
    passed: int
    ring: bool
    wraps: bool
    length: int
    ends: tuple[int, ...]


def common_edges(mosaic: Mosaic, a: Faces, b: Faces) -> list[int]:
    """The edges between two units."""
    if a.bit_count() > b.bit_count():
        a, b = b, a
    edges = mosaic.edges
    return [
        e
        for f in bits(a)
        for e in mosaic.edges_of[f]
        if b >> (edges[e].b if edges[e].a == f else edges[e].a) & 1
    ]


def join(mosaic: Mosaic, a: Faces, b: Faces) -> Join:
    """What joining two units means. Their seam is one stretch from rim to rim of the unit made, else it
    closes a ring: it falls into two stretches, or it ends where it began."""
    shared = common_edges(mosaic, a, b)
    at: dict[int, list[int]] = {}
    length = 0
    for e in shared:
        edge = mosaic.edges[e]
        length += edge.weight
        at.setdefault(edge.u, []).append(e)
        at.setdefault(edge.v, []).append(e)
    both = a | b
    cost, turned, needless, passed = 0.0, 0, 0.0, 0
    ends: list[int] = []
    for point, there in at.items():
        if len(there) == 2 and mosaic.is_inside(point, both):
            pair = mosaic.pair(point, there[0], there[1])
            cost += pair.cost
            turned += pair.turns
            needless += pair.cost - mosaic.least[point]
            passed += not pair.turns
        else:
            ends.extend([point] * len(there))
    ring = len(ends) != 2 or ends[0] == ends[1]
    wraps = turned > 1 and not ring and _apart(mosaic, *ends) < WRAPS * length
    return Join(
        cost=cost,
        turns=turned,
        needless=needless,
        passed=passed,
        ring=ring,
        wraps=wraps,
        length=length,
        ends=tuple(ends),
    )


class Joins:
    """What is known of the joins of a mosaic that were met so far, each worked out once."""

    def __init__(self, mosaic: Mosaic) -> None:
        self.mosaic = mosaic
        self._known: dict[tuple[Faces, Faces], Join] = {}
        self._straight: dict[tuple[Faces, Faces], bool] = {}
        self._near: dict[Faces, Faces] = {}

    def __call__(self, a: Faces, b: Faces) -> Join:
        """What joining two units means."""
        key = (a, b) if a < b else (b, a)
        if key not in self._known:
            self._known[key] = join(self.mosaic, *key)
        return self._known[key]

    def is_straight(self, a: Faces, b: Faces) -> bool:
        """Whether two units touch and are joined without a turn, a curve or a ring."""
        key = (a, b) if a < b else (b, a)
        if key not in self._straight:
            self._straight[key] = self._is_straight(*key)
        return self._straight[key]

    def near(self, unit: Faces) -> Faces:
        """The faces beside those of a unit."""
        if unit not in self._near:
            near = 0
            for f in bits(unit):
                near |= self.mosaic.beside[f]
            self._near[unit] = near
        return self._near[unit]

    def _is_straight(self, a: Faces, b: Faces) -> bool:
        if not self.near(a) & b:
            return False
        made = self(a, b)
        edges = self.mosaic.edges
        curved = (edges[e].curved for e in common_edges(self.mosaic, a, b))
        return not made.turns and not made.ring and not any(curved)


def _apart(mosaic: Mosaic, a: int, b: int) -> float:
    """The distance of two points."""
    return math.dist(mosaic.places[a], mosaic.places[b])
