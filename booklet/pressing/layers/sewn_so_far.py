"""Floor 5: a block on the table while it is sewn: which cloth each seam folds, and along which lines."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from booklet.geometry.tiling import Seam
from booklet.kit.outlines.near import ONE_POINT
from booklet.kit.outlines.plane import Point
from booklet.pressing.layers.folding import HalfPlane, Polygon, between
from booklet.pressing.strands import stops
from booklet.sewing.assembly import Assembly

Cloth = dict[str, list[Polygon]]  # by piece, the convex polygons it lies as
REACH = 4.0  # allowances: how far past its corners the allowance of a side of an inward patch goes


class SewnSoFar:
    """The block on the table while it is sewn: what is a unit by now, what touches what."""

    def __init__(
        self, assembly: Assembly, cloth: Cloth, released: frozenset[Point], allowance: float
    ) -> None:
        self.assembly = assembly
        self.released = released
        self.allowance = allowance
        self.outlines = {piece.id: piece.outline.points for piece in assembly.tiling.pieces}
        self.whole = {id: len(parts) == 1 for id, parts in cloth.items()}
        self.unit = {id: {id} for id in cloth}
        self.at: dict[Point, list[str]] = {}
        for piece in assembly.tiling.pieces:
            for corner in piece.outline.corners:
                self.at.setdefault(corner, []).append(piece.id)

    def in_order(self) -> Iterator[Seam]:
        """The seams in the order in which they are sewn up."""
        seams = {seam.id: seam for seam in self.assembly.tiling.seams}
        for step in self.assembly.steps:
            for run in step.runs:
                for id in run.seams:
                    if self.assembly.sewn[id].step == step.n and id in seams:
                        yield seams.pop(id)
        yield from seams.values()

    def join(self, seam: Seam) -> None:
        """Both pieces of a seam belong to one unit from now on."""
        one, other = (self.unit[id] for id in seam.between)
        if one is not other:
            small, large = sorted((one, other), key=len)
            large |= small
            for id in small:
                self.unit[id] = large

    def touched(self, seam: Seam, side: str) -> list[str]:
        """The pieces folded by a seam on the side of piece `side`: that piece, and those of its unit
        that come to a point over which the seam is sewn off."""
        found = [side]
        if len(seam.path) > 2:
            return found
        line = self._line(seam.start, seam.end, side == seam.between[0])
        for at in (seam.start, seam.end):
            if at in self.released or stops(self.assembly, seam, at):
                continue
            found += [
                id
                for id in self.at.get(at, ())
                if id not in found
                and id in self.unit[side]
                and self.whole[id]
                and max(line.depth(p) for p in self.outlines[id]) < ONE_POINT
            ]
        return found

    def folds(
        self, seam: Seam, side: str, piece: str
    ) -> Iterator[tuple[HalfPlane, tuple[HalfPlane, ...]]]:
        """The half planes whose cloth is reflected, with what they are limited to."""
        for start, end in pairwise(seam.path):
            line = self._line(start, end, side == seam.between[0])
            if self.whole[piece] and len(seam.path) == 2:
                yield line, ()
            else:
                yield line, self._limits(line, seam, (start, end), piece)

    @staticmethod
    def _line(start: Point, end: Point, right: bool) -> HalfPlane:
        """What lies beyond a seam, seen from the piece on its right hand (or left)."""
        return between(end, start) if right else between(start, end)

    def _limits(
        self, line: HalfPlane, seam: Seam, edge: tuple[Point, Point], piece: str
    ) -> tuple[HalfPlane, ...]:
        """The strip beside an edge of a seam in which the allowance of a patch lies that is not convex
        or is curved: to the bisectors along a curve and at inward corners, some allowances past other
        corners."""
        reach = REACH * self.allowance
        dx, dy = line.along
        deep = HalfPlane((line.at[0] - dy * reach, line.at[1] + dx * reach), (-dx, -dy))
        ends = []
        for at, far in (edge, edge[::-1]):
            curving = at not in (seam.start, seam.end)
            ends.append(self._end(at, far, self._bisector(at, piece, curving=curving), reach))
        return (*ends, deep)

    @staticmethod
    def _end(at: Point, far: Point, bisector: Point | None, reach: float) -> HalfPlane:
        """The limit at one end of an edge, `far` being the other."""
        back = between(far, at).along
        if bisector is None:
            at = (at[0] + back[0] * reach, at[1] + back[1] * reach)
            bisector = (-back[1], back[0])
        plane = HalfPlane(at, bisector)
        return plane if plane.depth(far) > 0 else plane.other

    def _bisector(self, at: Point, piece: str, *, curving: bool) -> Point | None:
        """The direction of the bisector of a patch's outline at an inward corner, or at any point
        along a curve; None elsewhere."""
        points = self.outlines[piece]
        if at not in points:
            return None
        k = points.index(at)
        before, after = points[k - 1], points[(k + 1) % len(points)]
        u, v = between(before, at).along, between(at, after).along
        if u[0] * v[1] - u[1] * v[0] >= 0 and not curving:
            return None
        x, y = u[0] - v[0], u[1] - v[1]
        length = (x * x + y * y) ** 0.5
        return (x / length, y / length) if length > ONE_POINT else (-u[1], u[0])
