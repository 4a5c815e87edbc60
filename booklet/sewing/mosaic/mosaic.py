"""Floor 4, the mosaic: a block as a plain drawing of faces, edges and points, without lengths or cloth.

Faces are numbered in the order of the pieces, and a set of faces is a number whose bit k stands for face k.
At an inner point the last of the joins that meet there sews along two of its edges, all others along
one: these two are the closing pair of the point, and they are free only where they go straight on.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from booklet.geometry.patches.headings import bends, leaving, walked
from booklet.geometry.tiling import Seam, Tiling
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record, replace
from booklet.pattern import By, Sewing, TurnCosts
from booklet.sewing.order.machine_or_hand import is_short, least_by_machine

Faces = int
PARALLEL = math.sin(math.radians(1.0))


class MosaicSeam(Record, kw_only=True):
    """A seam between faces `a` and `b`, from point `u` to point `v`; `weight` is its length in
    millionths of the block's longest seam. `short` is one that is sewn by hand however it goes on, `curved`
    one along a curve."""

    a: int
    b: int
    u: int
    v: int
    weight: int
    short: bool = False
    curved: bool = False


class Pair(Record):
    """Two edges at a point, sewn one after the other: whether that turns, what it costs, and the
    change of direction. `spared` is what it costs less than a turn because a partial seam can be
    sewn in its place."""

    turns: bool
    cost: float
    change: float
    spared: float = 0.0


class Mosaic(Record, kw_only=True):
    """A planar subdivision. By point: whether it is inner, its edges clockwise, the faces around it and
    what each pair of its edges costs (inner points only). By face: its neighbours and edges."""

    names: tuple[str, ...]
    edges: tuple[MosaicSeam, ...]
    inner: tuple[bool, ...]
    rays: tuple[tuple[int, ...], ...]
    around: tuple[Faces, ...]
    pairs: tuple[Mapping[tuple[int, int], Pair], ...]
    beside: tuple[Faces, ...]
    edges_of: tuple[tuple[int, ...], ...]
    least: tuple[float, ...]  # the cheapest pair of each inner point, else 0
    must_turn: tuple[bool, ...]  # whether every pair of the inner point turns
    places: tuple[Point, ...]  # where the points lie, in the measure of the weights
    inners: tuple[int, ...]  # the inner points

    @property
    def whole(self) -> Faces:
        """All faces."""
        return (1 << len(self.names)) - 1

    def pair(self, point: int, e: int, f: int) -> Pair:
        """What sewing from edge e to edge f past an inner point means."""
        return self.pairs[point][(e, f) if e < f else (f, e)]

    def inner_points(self, region: Faces) -> list[int]:
        """The inner points all of whose faces lie in the region."""
        outside = ~region
        if region.bit_count() * 8 > len(self.inners):
            return [p for p in self.inners if not self.around[p] & outside]
        found = {p for f in bits(region) for e in self.edges_of[f] for p in self.ends(e)}
        return sorted(p for p in found if self.inner[p] and not self.around[p] & outside)

    def is_inside(self, point: int, region: Faces) -> bool:
        """Whether an inner point has all its faces in the region."""
        return self.inner[point] and not self.around[point] & ~region

    def inner_edges(self, region: Faces) -> list[int]:
        """The edges between two faces of the region."""
        found = []
        for f in bits(region):
            for e in self.edges_of[f]:
                edge = self.edges[e]
                if edge.a == f and region >> edge.b & 1:
                    found.append(e)
        return found

    def ends(self, e: int) -> tuple[int, int]:
        """The two points of an edge."""
        return self.edges[e].u, self.edges[e].v

    def far(self, e: int, point: int) -> int:
        """The other end of an edge."""
        edge = self.edges[e]
        return edge.v if edge.u == point else edge.u

    def is_connected(self, region: Faces) -> bool:
        """Whether the faces of a region hang together along edges."""
        return self.spread(region & -region, region) == region

    def spread(self, start: Faces, region: Faces) -> Faces:
        """All faces of the region that hang together with `start`."""
        seen = front = start
        beside = self.beside
        while front:
            low = front & -front
            front ^= low
            new = beside[low.bit_length() - 1] & region & ~seen
            seen |= new
            front |= new
        return seen

    def are_parallel(self, a: tuple[int, int], b: tuple[int, int]) -> bool:
        """Whether the straight lines between two pairs of points run the same way."""
        (p, q), (r, s) = ([self.places[k] for k in ends] for ends in (a, b))
        ux, uy, vx, vy = q[0] - p[0], q[1] - p[1], s[0] - r[0], s[1] - r[1]
        return abs(ux * vy - uy * vx) < PARALLEL * math.hypot(ux, uy) * math.hypot(vx, vy)

    def least_cost(self, region: Faces) -> float:
        """A lower bound on the cost of any order: at every inner point its cheapest pair."""
        return sum(self.least[p] for p in self.inner_points(region))

    def least_turns(self, region: Faces) -> int:
        """How many inner points have no two edges that go straight on: every order turns there."""
        return sum(self.must_turn[p] for p in self.inner_points(region))


def moved(faces: Faces, to: Mapping[int, int]) -> Faces:
    """The faces to which a map leads."""
    return sum(1 << to[f] for f in bits(faces))


def bits(faces: Faces) -> Iterator[int]:
    """The numbers of the faces in a set, the least first."""
    while faces:
        low = faces & -faces
        yield low.bit_length() - 1
        faces ^= low


def first_face(faces: Faces) -> int:
    """The number of the first face of a set."""
    return next(bits(faces))


def mosaic_of(tiling: Tiling, sewing: Sewing, costs: TurnCosts) -> Mosaic:
    """The drawing of a block. A turn between seams of which one is shorter than `machine from` is
    sewn by hand, any other as `set in by` says."""
    number = {piece.id: k for k, piece in enumerate(tiling.pieces)}
    point = {junction.at: k for k, junction in enumerate(tiling.junctions)}
    longest = max((seam.length for seam in tiling.seams), default=1.0)
    edges = tuple(
        MosaicSeam(
            a=number[s.between[0]], b=number[s.between[1]], u=point[s.start], v=point[s.end],
            weight=round(s.length / longest * 1e6),
            short=is_short(s, sewing),
            curved=len(s.path) > 2,
        )
        for s in tiling.seams
    )  # fmt: skip
    place = {seam.id: k for k, seam in enumerate(tiling.seams)}
    seams = {seam.id: seam for seam in tiling.seams}
    pairs: list[dict[tuple[int, int], Pair]] = []
    for junction in tiling.junctions:
        there: dict[tuple[int, int], Pair] = {}
        if junction.inside:
            away = {s: leaving(walked(seams[s], junction.at)) for s in junction.seams}
            for k, one in enumerate(junction.seams):
                for other in junction.seams[k + 1 :]:
                    key = (min(place[one], place[other]), max(place[one], place[other]))
                    bent = abs(math.remainder(away[other] - away[one] - math.pi, math.tau))
                    there[key] = _pair(seams[one], seams[other], bent, sewing, costs)
            if not any(edges[place[s]].short for s in junction.seams):
                _spare_turns(there, costs.partial)
        pairs.append(there)
    rays = tuple(tuple(place[s] for s in junction.seams) for junction in tiling.junctions)
    inner = tuple(j.inside and len(j.seams) > 1 for j in tiling.junctions)
    scale = 1e6 / longest
    places = tuple((j.at[0] * scale, j.at[1] * scale) for j in tiling.junctions)
    return build(tuple(number), edges, inner, rays, tuple(pairs), places)


def build(
    names: tuple[str, ...],
    edges: tuple[MosaicSeam, ...],
    inner: tuple[bool, ...],
    rays: tuple[tuple[int, ...], ...],
    pairs: tuple[Mapping[tuple[int, int], Pair], ...],
    places: tuple[Point, ...],
) -> Mosaic:
    """A mosaic with the tables that follow from its drawing."""
    beside = [0] * len(names)
    edges_of: list[list[int]] = [[] for _ in names]
    for k, edge in enumerate(edges):
        beside[edge.a] |= 1 << edge.b
        beside[edge.b] |= 1 << edge.a
        edges_of[edge.a].append(k)
        edges_of[edge.b].append(k)
    around = []
    for there in rays:
        faces = 0
        for e in there:
            faces |= 1 << edges[e].a | 1 << edges[e].b
        around.append(faces)
    return Mosaic(
        names=names,
        edges=edges,
        inner=inner,
        rays=rays,
        around=tuple(around),
        pairs=pairs,
        beside=tuple(beside),
        edges_of=tuple(tuple(listed) for listed in edges_of),
        least=tuple(min((p.cost for p in there.values()), default=0.0) for there in pairs),
        must_turn=tuple(bool(there) and all(p.turns for p in there.values()) for there in pairs),
        places=places,
        inners=tuple(p for p, there in enumerate(inner) if there),
    )


def _spare_turns(there: dict[tuple[int, int], Pair], partial: float) -> None:
    """At a T the turn from the stem into the straight seam may be a partial seam, if that costs less."""
    if len(there) != 3 or sum(not pair.turns for pair in there.values()) != 1:
        return
    for key, pair in there.items():
        if pair.turns and partial < pair.cost:
            there[key] = replace(pair, cost=partial, spared=pair.cost - partial)


def _pair(one: Seam, other: Seam, bent: float, sewing: Sewing, costs: TurnCosts) -> Pair:
    """What sewing from one seam to the other means, with this change of direction."""
    if not bends(one, other, bent):
        return Pair(False, 0.0, bent)
    by_hand = min(one.length, other.length) < least_by_machine(sewing)
    hand = by_hand or sewing.set_in_by is By.HAND
    return Pair(True, costs.hand if hand else costs.machine, bent)
