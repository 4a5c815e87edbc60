"""Floor 3: the marks along curved seams by which the hollow side is matched to the bulging one.

A mark lies at half the length of a seam, on long ones at the quarters too; both patches have it, for it is a
point of their common seam. (Common practice: fold both curves in half, pin the folds.)
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable

from booklet.crafts.figure import figure_of
from booklet.geometry.tiling import Outline, PlacedPiece, Seam, Tiling
from booklet.geometry.vectors import mirrored, outline_of, shifted, turned
from booklet.kit.outlines.near import ONE_POINT
from booklet.kit.outlines.plane import Point, box_of, length_of

QUARTERS_FROM = 6.0  # inches of curve from which one mark leaves too much to ease in between
_ONE = 0.01  # inches: marks of two seams this near each other are one


def curve_marks(seam: Seam) -> tuple[Point, ...]:
    """The points of a curved seam that are marked, along its path; none of a straight one."""
    if len(seam.path) < 3:
        return ()
    shares = (0.25, 0.5, 0.75) if seam.length >= QUARTERS_FROM - ONE_POINT else (0.5,)
    return tuple(_point_at(seam.path, share * length_of(seam.path)) for share in shares)


def _point_at(path: tuple[Point, ...], along: float) -> Point:
    """The point of a path that many inches from its start."""
    for a, b in itertools.pairwise(path):
        step = math.dist(a, b)
        if along <= step:
            share = along / step if step else 0.0
            return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share
        along -= step
    return path[-1]


def patch_marks(tilings: Iterable[Tiling], letter: str) -> tuple[Point, ...]:
    """The marks of a patch in its own frame: those of the seams of all its pieces, each once."""
    found: list[Point] = []
    for tiling in tilings:
        curved = [seam for seam in tiling.seams if len(seam.path) > 2]
        for piece in (piece for piece in tiling.pieces if piece.patch == letter):
            own = [seam for seam in curved if piece.id in seam.between]
            marks = [point for seam in own for point in curve_marks(seam)]
            for point in _in_patch(piece, marks):
                if all(math.dist(point, other) > _ONE for other in found):
                    found.append(point)
    return tuple(found)


def _in_patch(piece: PlacedPiece, points: list[Point]) -> tuple[Point, ...]:
    """Points of a piece in the block, in the frame of its patch."""
    if not points:
        return ()
    left, top, _, _ = box_of(_back(piece, piece.outline).points)
    return shifted(_back(piece, outline_of(points)), (-left, -top)).corners


def _back(piece: PlacedPiece, outline: Outline) -> Outline:
    """An outline in the block turned (and mirrored) back to how the patch lies."""
    straight = turned(outline, -piece.turn)
    return mirrored(straight) if piece.reversed else straight


def has_hand(outline: Outline) -> bool:
    """Whether an outline and its mirror image differ, so that it matters which face of it is up."""
    back = figure_of(mirrored(outline).points)
    return not back.turns_onto(figure_of(outline.points))
