"""Floor 4, the searches: the cheapest order of a small region, found by looking at all.

f(S) is the least over all ways to part S into connected A and B of cost(A, B) + f(A) + f(B); rings are
counted second. A straight line through S is taken at once (see `straight_lines`).

What it is for: the programme in its place finds as much on all patterns and on 1,500 random blocks, but knows nothing of
rings. Of 2,000 random blocks of 3 to 7 pieces with long arms 6 turn less often where a ring is closed, so that it turned
once or twice more and called that proven.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.kit.outlines.near import NOISE
from booklet.sewing.mosaic.joining import join
from booklet.sewing.mosaic.mosaic import Faces, Mosaic
from booklet.sewing.mosaic.straight_lines import through_lines
from booklet.sewing.mosaic.trees import Tree

Worth = tuple[float, int]  # cost, rings
NOTHING: Worth = (0.0, 0)


def cheapest(mosaic: Mosaic, region: Faces) -> Tree:
    """The cheapest order of a region, with fewest rings among those. Meant for up to 16 faces."""
    return _Search(mosaic).tree(region)


class _Search:
    """What is known of the regions met so far."""

    def __init__(self, mosaic: Mosaic) -> None:
        self.mosaic = mosaic
        self.known: dict[Faces, tuple[Worth, Faces]] = {}
        self.least: dict[Faces, float] = {}
        self.held: dict[Faces, bool] = {}
        self.at: dict[int, dict[Faces, float]] = {}  # by point: faces on one side -> cost

    def tree(self, region: Faces) -> Tree:
        """The order found."""
        if region & (region - 1) == 0:
            return Tree(region)
        _, side = self.best(region)
        return Tree(region, (self.tree(side), self.tree(region & ~side)))

    def best(self, region: Faces) -> tuple[Worth, Faces]:
        """The worth of the best order of a region, and one side of its last join."""
        if region & (region - 1) == 0:
            return NOTHING, 0
        if region not in self.known:
            self.known[region] = self._best(region)
        return self.known[region]

    def _best(self, region: Faces) -> tuple[Worth, Faces]:
        lines = through_lines(self.mosaic, region)
        if lines:
            side = lines[0].side
            return self._sum(side, region & ~side, NOTHING), side
        points = self.mosaic.inner_points(region)
        floor = sum(self.mosaic.least[p] for p in points)
        best: tuple[Worth, Faces] = ((float("inf"), 0), 0)
        for side in self._sides(region):
            rest = region & ~side
            cost = sum(self._closing(p, side) for p in points)
            if cost + self._floor(side) + self._floor(rest) > best[0][0] + NOISE:
                continue
            ring = join(self.mosaic, side, rest).ring
            worth = self._sum(side, rest, (cost, int(ring)))
            if _less(worth, best[0]):
                best = worth, side
                if worth[0] <= floor + NOISE and not worth[1]:
                    break
        return best

    def _sum(self, a: Faces, b: Faces, more: Worth) -> Worth:
        one, other = self.best(a)[0], self.best(b)[0]
        return one[0] + other[0] + more[0], one[1] + other[1] + more[1]

    def _floor(self, region: Faces) -> float:
        if region not in self.least:
            self.least[region] = self.mosaic.least_cost(region)
        return self.least[region]

    def _closing(self, point: int, side: Faces) -> float:
        """The cost at a point when the faces of `side` are joined to all others round it."""
        around = self.mosaic.around[point]
        mine = around & side
        if mine in (0, around):
            return 0.0
        known = self.at.setdefault(point, {})
        if mine not in known:
            edges = self.mosaic.edges
            pair = [
                e
                for e in self.mosaic.rays[point]
                if (mine >> edges[e].a & 1) != (mine >> edges[e].b & 1)
            ]
            known[mine] = self.mosaic.pair(point, *pair).cost if len(pair) == 2 else float("inf")
        return known[mine]

    def _sides(self, region: Faces) -> Iterator[Faces]:
        """Every connected part of the region that holds its first face and leaves a connected rest."""
        first = region & -region
        stack = [(first, first)]
        beside = self.mosaic.beside
        while stack:
            side, settled = stack.pop()
            rest = region & ~side
            if self._connected(rest):
                yield side
            near, front = 0, side
            while front:
                low = front & -front
                front ^= low
                near |= beside[low.bit_length() - 1]
            near &= region & ~settled
            while near:
                low = near & -near
                near ^= low
                settled |= low
                if side | low != region:
                    stack.append((side | low, settled))

    def _connected(self, region: Faces) -> bool:
        if region not in self.held:
            self.held[region] = self.mosaic.is_connected(region)
        return self.held[region]


def _less(a: Worth, b: Worth) -> bool:
    """Whether the first is worth more: cheaper, or as cheap with fewer rings."""
    return a[0] < b[0] - NOISE or (a[0] < b[0] + NOISE and a[1] < b[1])
