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

Limits: a curved seam is folded edge by edge of its chain, in layers counted and drawn by no more than CHORDS edges, cloth has no thickness, tips
are not trimmed but for those that would stand out by more than LONGEST allowances.
"""

from __future__ import annotations

from collections.abc import Mapping

from booklet.geometry.overlay import convex_parts, layer_map, most_layers, offset
from booklet.geometry.tiling import Outline, Seam
from booklet.kit.outlines.plane import Point
from booklet.kit.records import replace
from booklet.pressing.layers.folding import Polygon, fold
from booklet.pressing.layers.sewn_so_far import Cloth, SewnSoFar
from booklet.pressing.pressing import JunctionKind, Pressing
from booklet.sewing.assembly import Assembly

LONGEST = 6.0  # allowances: a point that stands out farther (sharper than 19 degrees) is cut off, as a curve has that ends along a side
CHORDS = 16  # edges of a curved seam that are folded: every fold may cut all cloth in two


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
    cloth = folded(coarse(assembly), toward, released, allowance)
    polygons = [polygon for parts in cloth.values() for polygon in parts]
    return dict(zip(points, most_layers(polygons, points, allowance), strict=True))


def bulk_map(pressing: Pressing, allowance: float) -> tuple[tuple[Polygon, int], ...]:
    """The pressed block, seen as on the page, as cells with how many layers of cloth lie on each."""
    toward = {seam: pressed.toward for seam, pressed in pressing.pressed.items()}
    fans = (j.at for j in pressing.junctions if j.kind is JunctionKind.FAN)
    cloth = folded(coarse(pressing.assembly), toward, frozenset(fans), allowance)
    return layer_map([polygon for parts in cloth.values() for polygon in parts])


def coarse(assembly: Assembly) -> Assembly:
    """The same block with every curved seam held by at most CHORDS edges, on the same curve: both patches keep
    the same points of it, so that they still lie side by side."""
    tiling = assembly.tiling
    spared = {point for seam in tiling.seams for point in _spared(seam)}
    if not spared:
        return assembly
    pieces = tuple(
        replace(
            piece,
            outline=Outline(
                tuple(
                    replace(side, via=tuple(p for p in side.via if p not in spared))
                    for side in piece.outline.sides
                )
            ),
        )
        for piece in tiling.pieces
    )
    seams = tuple(
        replace(seam, path=tuple(p for p in seam.path if p not in spared)) for seam in tiling.seams
    )
    return replace(assembly, tiling=replace(tiling, pieces=pieces, seams=seams))


def _spared(seam: Seam) -> tuple[Point, ...]:
    """The points along a curved seam that can be done without."""
    edges = len(seam.path) - 1
    each = -(-edges // CHORDS)
    return tuple(p for k, p in enumerate(seam.path[:-1]) if k % each)


def folded(
    assembly: Assembly,
    toward: Mapping[str, str | None],
    released: frozenset[Point],
    allowance: float,
) -> Cloth:
    """The cloth of every piece once all seams are sewn and pressed: convex polygons lying flat."""
    cloth = _cut_cloth(assembly, allowance)
    table = SewnSoFar(assembly, cloth, released, allowance)
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
        piece.id: list(convex_parts(offset(piece.outline.points, allowance, LONGEST)))
        for piece in assembly.tiling.pieces
    }
