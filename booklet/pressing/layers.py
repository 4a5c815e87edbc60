"""Floor 5: how many layers of cloth lie at every point, by folding the cut patches flat.

Every patch starts as its cut outline (allowance all round, tips not trimmed). Seam by seam, in sewing
order, the allowance is folded: what lies beyond the seam line on the side it is pressed toward is
reflected in that line; pressed open, on both sides. A seam sewn off its edge folds all cloth of its unit
at the points it passes; one that stops at its points folds only the two patches it joins. Reflection
keeps areas, so the layers, integrated over the plane, are exactly the area of the cut patches.

Wedges that meet in a point, all open, tips not trimmed: the cloth of each covers the whole turn about the
point once, and folds through the point keep it there, so k wedges lie in k layers on the mean, never fewer at
the most. Every second seam first (pairs, then the pairs to each other) gives k everywhere: folded at one seam
and then at the other, a wedge lies 4 times in its own sector and twice in k/2 - 2 sectors beyond the
seam folded first; these alternate to the left and to the right, so that k/2 - 2 such strips lie on every sector,
4 + 2 (k/2 - 2) = k. In straight halves a unit of a wedges folds to 2a layers on the half turn it joins along, so
both sides are even only while equal units meet: k = 4, 8, 16. Three and three give (2 + 1) 8, 6 and 4
layers, mean 6; one wedge after another gives more than k from k = 6 on.

Limits: a curved seam is folded edge by edge of its chain, cloth has no thickness, tips are not trimmed.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise

from booklet.geometry.plane import convex_parts, layer_map, layered_area, most_layers, offset
from booklet.geometry.tiling import Point, Seam
from booklet.pressing.folding import HalfPlane, Polygon, between, fold
from booklet.pressing.pressing import JunctionKind, Pressing
from booklet.pressing.strands import stops
from booklet.sewing.assembly import Assembly

Cloth = dict[str, list[Polygon]]
REACH = 4.0  # allowances: how far past its corners the allowance of a side of an inward patch goes
NEAR = 1e-6  # inches


def layers_at(
    assembly: Assembly,
    toward: Mapping[str, str | None],
    released: frozenset[Point],
    points: tuple[Point, ...],
    allowance: float,
) -> dict[Point, int]:
    """For each point the most layers of cloth within one allowance of it.

    `toward` is the piece each seam is pressed toward (None: open); at points of `released` the
    stitches within the allowance are taken out.
    """
    cloth = folded(assembly, toward, released, allowance)
    polygons = [polygon for parts in cloth.values() for polygon in parts]
    return dict(zip(points, most_layers(polygons, points, allowance), strict=True))


def bulk_map(pressing: Pressing, allowance: float) -> tuple[tuple[Polygon, int], ...]:
    """The pressed block, seen as on the page, as cells with how many layers of cloth lie on each."""
    toward = {seam: pressed.toward for seam, pressed in pressing.pressed.items()}
    fans = (j.at for j in pressing.junctions if j.kind is JunctionKind.FAN)
    cloth = folded(pressing.assembly, toward, frozenset(fans), allowance)
    return layer_map([polygon for parts in cloth.values() for polygon in parts])


def areas(assembly: Assembly, cloth: Cloth, allowance: float) -> tuple[float, float]:
    """(the area of the cut patches, the area of the layers summed over the plane): equal, always."""
    flat = _cut_cloth(assembly, allowance)
    cut = layered_area([p for parts in flat.values() for p in parts])
    return cut, layered_area([p for parts in cloth.values() for p in parts])


def folded(
    assembly: Assembly,
    toward: Mapping[str, str | None],
    released: frozenset[Point],
    allowance: float,
) -> Cloth:
    """The cloth of every piece once all seams are sewn and pressed: convex polygons lying flat."""
    cloth = _cut_cloth(assembly, allowance)
    table = _Table(assembly, cloth, released, allowance)
    for seam in table.in_order():
        piece = toward[seam.id]
        for side in seam.between if piece is None else (piece,):
            for touched in table.touched(seam, side):
                for line, within in table.folds(seam, side, touched):
                    cloth[touched] = fold(cloth[touched], line, within)
        table.join(seam)
    return cloth


def _cut_cloth(assembly: Assembly, allowance: float) -> Cloth:
    """The cut outline of every piece as convex parts."""
    return {
        piece.id: list(convex_parts(offset(piece.outline.points, allowance)))
        for piece in assembly.tiling.pieces
    }


class _Table:
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
                and max(line.depth(p) for p in self.outlines[id]) < NEAR
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
        return (x / length, y / length) if length > NEAR else (-u[1], u[0])
