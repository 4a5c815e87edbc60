"""Floor 4, the planner: a block sewn on printed paper, parted into the fewest sections.

A section is sewn on one paper: each next piece is laid along one straight line on what is there, and the paper is folded
along that line, so all that was sewn before lies on one side of it. Sections are joined along straight lines. Taken
apart from its end, a section gives up one piece after the other; which goes first does not matter (a piece that can go
can still go when another has gone), so one try tells whether a region is a section. Of all others every straight line
through is tried, each region once: what is found is proven where no effort ran out.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cached_property
from itertools import combinations

from booklet.geometry.tiling import Tiling
from booklet.kit.outlines.near import DRAWN
from booklet.kit.outlines.plane import Point, bearing, direction, dot, minus, right_of
from booklet.kit.records import Mutable, Record, field
from booklet.sewing.mosaic.mosaic import Faces, Mosaic, bits
from booklet.sewing.mosaic.straight_lines import StraightLine, through_lines

MOST_EFFORT = 400_000  # faces of regions looked at before the search is cut short

STRAIGHT = 1.0  # degrees
MOST_TRIED = 24  # pieces of which each is tried as the one in the way


class Parting(Record):
    """A region as one section (`parts` empty), or as two parts joined along a straight line."""

    faces: Faces
    parts: tuple[Parting, ...] = ()

    def sections(self) -> Iterator[Faces]:
        """Its sections, in the order in which they are joined."""
        if not self.parts:
            yield self.faces
        for part in self.parts:
            yield from part.sections()

    @property
    def count(self) -> int:
        """How many sections it has."""
        return sum(1 for _ in self.sections())


class Sectioned(Record):
    """How a block is parted, and the fewest sections that are proven; or the pieces that hold each other so that no
    straight line parts them."""

    parting: Parting | None
    least: int
    stuck: Faces = 0


class _Stuck(Exception):
    """No straight line goes through these faces."""

    def __init__(self, faces: Faces) -> None:
        super().__init__(faces)
        self.faces = faces


class Sections(Mutable, kw_only=True, dict=True):
    """Looks for the fewest sections of one block."""

    tiling: Tiling
    mosaic: Mosaic
    most: int = MOST_EFFORT
    effort: int = 0
    known: dict[Faces, Parting] = field(default_factory=dict)
    cut_short: bool = False

    def found(self) -> Sectioned:
        """The parting of the whole block with the fewest sections."""
        try:
            parting = self._best(self.mosaic.whole)
        except _Stuck as stuck:
            return Sectioned(None, 0, stuck.faces)
        if self.cut_short and parting.parts:
            return Sectioned(parting, self.least(self.mosaic.whole))
        return Sectioned(parting, parting.count)

    def in_the_way(self, stuck: Faces) -> int:
        """Of faces that no straight line parts, the one that would have to be set in: without it, the others could be
        sewn; of several the last. Where there is none, the one with most seams to the others."""
        seams = {
            f: sum(self._inside(e, stuck) for e in self.mosaic.edges_of[f]) for f in bits(stuck)
        }
        if stuck.bit_count() <= MOST_TRIED:
            free = [f for f in bits(stuck) if self._is_sewable(stuck & ~(1 << f))]
            if free:
                return max(free, key=lambda f: (seams[f] > 1, f))
        return max(seams, key=lambda f: seams[f])

    def _inside(self, edge: int, region: Faces) -> bool:
        """Whether an edge lies between two faces of a region."""
        return bool(region >> self.mosaic.edges[edge].a & region >> self.mosaic.edges[edge].b & 1)

    def _is_sewable(self, region: Faces) -> bool:
        """Whether straight lines part a region to its last piece."""
        if not self.mosaic.is_connected(region):
            return False
        try:
            self._best(region)
        except _Stuck:
            return False
        return True

    def _best(self, region: Faces) -> Parting:
        """The region in the fewest sections, as far as the effort goes."""
        if region not in self.known:
            self.known[region] = self._looked_for(region)
        return self.known[region]

    def _looked_for(self, region: Faces) -> Parting:
        kernel = self.kernel(region)
        if not kernel & (kernel - 1):
            return Parting(region)
        lines = sorted(
            through_lines(self.mosaic, region), key=lambda line: self._rank(region, line)
        )
        if not lines:
            raise _Stuck(region)
        if self.effort > self.most:
            self.cut_short = True
            lines = lines[:1]
        best: Parting | None = None
        least = self.least(region)
        for line in lines:
            parts = (self._best(line.side), self._best(region & ~line.side))
            made = Parting(region, parts)
            if best is None or made.count < best.count:
                best = made
            if best.count == least:
                break
        assert best is not None
        return best

    def least(self, region: Faces) -> int:
        """A lower bound for the sections of a region that is known to be no single one, at least 2: crossings of which no
        straight line holds two each need a line of their own along which sections are joined."""
        taken: set[int] = set()
        count = 1
        for around, lines in self.crossings:
            if not around & ~region and taken.isdisjoint(lines):
                taken |= lines
                count += 1
        return max(2, count)

    @cached_property
    def crossings(self) -> list[tuple[Faces, frozenset[int]]]:
        """The points round which every piece has a corner, so that they lie inside no section: the faces round each, and
        the straight lines that go through it."""
        mosaic, line = self.mosaic, self._lines()
        found = []
        for point in mosaic.inners:
            rays = mosaic.rays[point]
            ways = sorted(
                bearing(minus(mosaic.places[mosaic.far(e, point)], mosaic.places[point]))
                for e in rays
            )
            gaps = [(b - a) % 360 for a, b in zip(ways, (*ways[1:], ways[0]), strict=True)]
            if len(rays) > 2 and max(gaps) < 180.0 - STRAIGHT:
                through = {
                    line[e] for e, f in combinations(rays, 2) if not mosaic.pair(point, e, f).turns
                }
                found.append((mosaic.around[point], frozenset(through)))
        return found

    def _lines(self) -> list[int]:
        """For each edge the first edge of the straight line on which it lies."""
        first = list(range(len(self.mosaic.edges)))

        def root(e: int) -> int:
            while first[e] != e:
                e = first[e]
            return e

        for point in self.mosaic.inners:
            for e, f in combinations(self.mosaic.rays[point], 2):
                if not self.mosaic.pair(point, e, f).turns:
                    low, high = sorted((root(e), root(f)))
                    first[high] = low
        return [root(e) for e in first]

    def kernel(self, region: Faces) -> Faces:
        """What is left of a region when one piece after the other is taken off: one piece of a section."""
        left, before = region, 0
        while left != before:
            before = left
            for face, _ in self.last_pieces(left):
                left = left & ~face or left  # of two pieces, each of which may go, one stays
        return left

    def last_pieces(self, region: Faces) -> Iterator[tuple[Faces, StraightLine]]:
        """The pieces of a region, each as a set of one, that may be sewn to it last, with their lines."""
        if not region & (region - 1):
            return
        self.effort += region.bit_count()
        for line in through_lines(self.mosaic, region):
            for one in (line.side, region & ~line.side):
                if not one & (one - 1) and self._folds(line, one, region & ~one):
                    yield one, line

    def _folds(self, line: StraightLine, piece: Faces, rest: Faces) -> bool:
        """Whether the paper folds along a line: the piece lies on one side of it and all the rest on the other."""
        a, b = (self.tiling.junctions[end].at for end in line.ends)
        return parted_by(self.tiling, (a, b), map(self._id, bits(piece)), map(self._id, bits(rest)))

    def _id(self, face: int) -> str:
        return self.tiling.pieces[face].id

    def _rank(self, region: Faces, line: StraightLine) -> tuple[int, int]:
        """Lines through the middle first: alike halves are sewn alike."""
        one = line.side.bit_count()
        return abs(region.bit_count() - 2 * one), min(line.edges)


def parted_by(
    tiling: Tiling, line: tuple[Point, Point], piece: Iterable[str], rest: Iterable[str]
) -> bool:
    """Whether all of `piece` lies on one side of the line through two points, and all of `rest` on the other."""
    a, b = line
    across = right_of(direction(a, b))
    sides = [
        {
            off > 0
            for id in ids
            for p in tiling.piece(id).outline.points
            if abs(off := dot(minus(p, a), across)) > DRAWN
        }
        for ids in (piece, rest)
    ]
    return all(len(side) == 1 for side in sides) and sides[0] != sides[1]
