"""Floor 3: closed rings of points as rows of numbers: corners are put into the sides they lie on, and sides are paired.

Every different point has a number, in the order of the points, so that a ring is a row of numbers and a side a pair of
them. All rings lie one after the other in one row, and what is asked of all sides is asked in one go; points and tuples
are made at the end, once.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import chain, pairwise
from typing import Any

import numpy as np

from booklet.geometry.loops import Edge
from booklet.geometry.overlay import near_edges, rows
from booklet.kit.outlines.near import ONE_POINT
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record

TOO_CLOSE = 1e-3  # inches: points neither one (within ONE_POINT) nor apart by this cannot be told
Ring = tuple[Point, ...]
Near = list[tuple[Point, Edge]]


class RingRows(Record, kw_only=True):
    """Closed rings in one row: `points` are the different points, sorted; of each side of the rings, one after the
    other, `start` and `end` are the numbers of its points and `ring` is that of its ring, of `count`."""

    points: Sequence[Point]
    start: Any
    end: Any
    ring: Any
    count: int

    def listed(self) -> list[Ring]:
        """The points of each ring."""
        row = [self.points[n] for n in self.start.tolist()]
        bounds = np.searchsorted(self.ring, np.arange(self.count + 1)).tolist()
        return [tuple(row[first:after]) for first, after in pairwise(bounds)]

    def some(self, which: Any) -> RingRows:
        """Some of the rings, told by a mask of all sides."""
        start, end, ring = self.start[which], self.end[which], self.ring[which]
        return RingRows(points=self.points, start=start, end=end, ring=ring, count=self.count)

    def edges(self, which: Any) -> list[Edge]:
        """Some of the sides, as pairs of points."""
        points, start, end = self.points, self.start[which].tolist(), self.end[which].tolist()
        return [(points[a], points[b]) for a, b in zip(start, end, strict=True)]


class SidePairs(Record):
    """The sides of rings by the ring that has each, first come first; those that a second ring has in the same
    direction, with that ring; and those whose reverse no ring has."""

    owner: dict[Edge, int]
    repeated: tuple[tuple[Edge, int], ...]
    rim: frozenset[Edge]


def numbered(rings: Sequence[Ring]) -> RingRows:
    """Rings of points as rows of numbers; sides without length are left out."""
    flat = list(chain.from_iterable(rings))
    numbers = {point: n for n, point in enumerate(sorted(set(flat)))}
    start = np.fromiter(map(numbers.__getitem__, flat), int, len(flat))
    lengths = np.fromiter(map(len, rings), int, len(rings))
    return _closed(tuple(numbers), start, np.repeat(np.arange(len(rings)), lengths), len(rings))


def _closed(points: Sequence[Point], start: Any, ring: Any, count: int) -> RingRows:
    """The rings by the points where their sides start."""
    end = np.roll(start, -1)
    last = np.flatnonzero(np.diff(ring, append=count))
    end[last] = start[np.searchsorted(ring, ring[last])]
    long = start != end
    return RingRows(points=points, start=start[long], end=end[long], ring=ring[long], count=count)


def noded(rings: RingRows) -> tuple[RingRows, Near]:
    """The rings with points lying on their sides put in, and the (point, side) too close to tell, sorted."""
    size = len(rings.points)
    keys, side = np.unique(
        np.minimum(rings.start, rings.end) * size + np.maximum(rings.start, rings.end),
        return_inverse=True,
    )
    low, high = np.divmod(keys, size)
    at = rows(rings.points)
    point, on = near_edges(at, np.stack([at[low], at[high]], axis=1), TOO_CLOSE)
    other = (point != low[on]) & (point != high[on])
    point, on = point[other], on[other]
    along, off = _along(at[point], at[low[on]], at[high[on]])
    meets = off <= 2 * ONE_POINT  # each of the two points may have been moved by ONE_POINT
    close = np.stack([point, low[on], high[on]], axis=1)[~meets].tolist()
    near = [(rings.points[p], (rings.points[a], rings.points[b])) for p, a, b in sorted(close)]
    point, on, along = point[meets], on[meets], along[meets]
    order = np.lexsort((point, along, on))
    return _with_inserted(rings, side, point[order], on[order]), near


def _along(points: Any, start: Any, end: Any) -> tuple[Any, Any]:
    """How far along each edge (0 to 1) the nearest point to each point is, and the distance to it."""
    way = end - start
    along = ((points - start) * way).sum(axis=1) / (way * way).sum(axis=1)
    along = np.clip(along, 0.0, 1.0)
    away = start + along[:, None] * way - points
    return along, np.hypot(away[:, 0], away[:, 1])


def _with_inserted(rings: RingRows, side: Any, point: Any, on: Any) -> RingRows:
    """The rings with points on their sides: of each the number of its side whichever way round, of each point, in order
    along them, the side it is `on`."""
    first = np.searchsorted(on, side)
    more = np.searchsorted(on, side, side="right") - first
    owner = np.repeat(np.arange(len(side)), 1 + more)
    nth = np.arange(len(owner)) - np.flatnonzero(np.diff(owner, prepend=-1))[owner]
    forward = (rings.start < rings.end)[owner]
    start = rings.start[owner]
    inner = nth > 0
    from_first = np.where(forward, nth - 1, more[owner] - nth)
    start[inner] = point[(first[owner] + from_first)[inner]]
    return _closed(rings.points, start, rings.ring[owner], rings.count)


def paired(rings: RingRows) -> SidePairs:
    """The sides by their rings, and those that repeat or have no reverse."""
    size = len(rings.points)
    key, back = rings.start * size + rings.end, rings.end * size + rings.start
    keys, first, same = np.unique(key, return_index=True, return_inverse=True)
    own = np.sort(first)
    again = np.flatnonzero(rings.ring != rings.ring[first[same]])
    alone = own[~np.isin(back[own], keys, assume_unique=True)]
    return SidePairs(
        dict(zip(rings.edges(own), rings.ring[own].tolist(), strict=True)),
        tuple(zip(rings.edges(again), rings.ring[again].tolist(), strict=True)),
        frozenset(rings.edges(alone)),
    )
