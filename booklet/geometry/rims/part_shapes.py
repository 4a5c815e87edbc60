"""Floor 3: what of a block shows in a frame: its patches whole, or cut along the frame, in parts that hang together."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from booklet.crafts.forms import form_named
from booklet.geometry.overlay import within_frame
from booklet.geometry.placing.placing import LaidPiece
from booklet.geometry.rims.ground import Ground
from booklet.geometry.rims.lattice import Cell
from booklet.geometry.soundness.sites import Sound
from booklet.geometry.soundness.subdivision import subdivide
from booklet.geometry.tiling import Outline, Side
from booklet.geometry.vectors import turned
from booklet.kit.groups import tied_groups
from booklet.kit.outlines.near import DRAWN
from booklet.kit.outlines.plane import Frame, Point, turn_point
from booklet.kit.records import replace
from booklet.pattern import RimPatches

Parts = tuple[tuple[LaidPiece, ...], ...]


def shown_parts(ground: Ground, cell: Cell, frame: Frame, patches: RimPatches) -> Parts | None:
    """What of the block in a cell is sewn, in its own frame: parts whose pieces hang together; None where
    that is the whole block."""
    shares, areas = ground.showing(cell, frame), ground.areas(cell)
    cut = patches is RimPatches.CUT
    whole = [abs(share - area) < DRAWN for share, area in zip(shares, areas, strict=True)]
    if all(whole) or (not cut and all(shares)):
        return None
    pieces: list[LaidPiece] = []
    for n, piece in enumerate(ground.pieces(cell)):
        if shares[n] and (whole[n] or not cut):
            pieces.append(piece)
        elif shares[n]:
            pieces += _cut(ground, cell, n, frame)
    return hanging_together(pieces)


def _cut(ground: Ground, cell: Cell, n: int, frame: Frame) -> Iterator[LaidPiece]:
    """The piece numbered n of a block, cut along a frame; where it falls apart, its parts."""
    piece, turn = ground.pieces(cell)[n], ground.lattice.setting(cell).turn
    along = {turn_point(p, turn): p for side in piece.outline.sides for p in side.via}
    corners = {turn_point(p, turn): p for p in piece.outline.corners}
    found = within_frame(turned(piece.outline, turn).points, ground.own_frame(cell, frame))
    for k, points in enumerate(found):
        outline = _sided(points, along, corners, turn)
        name = piece.id if k == 0 else f"{piece.id}.{k + 1}"
        yield replace(piece, id=name, outline=outline, drawn=None, form=form_named("polygon"))


def _sided(
    points: Sequence[Point], along: dict[Point, Point], corners: dict[Point, Point], turn: int
) -> Outline:
    """The outline of a cut piece, turned back, the points along its curves kept as such."""
    start = next((k for k, p in enumerate(points) if p not in along), 0)
    ring = [*points[start:], *points[:start], points[start]]
    known = along | corners

    def back(point: Point) -> Point:
        return known[point] if point in known else turn_point(point, -turn)

    sides: list[Side] = []
    first, via = ring[0], list[Point]()
    for point in ring[1:]:
        if point in along:
            via.append(back(point))
        else:
            sides.append(Side(back(first), back(point), tuple(via)))
            first, via = point, []
    return Outline(tuple(sides))


def hanging_together(pieces: Sequence[LaidPiece]) -> Parts:
    """Pieces in parts that can be sewn: those that share sides, where these leave no hole; else each by itself."""
    parts = subdivide([piece.outline for piece in pieces])
    found: list[tuple[LaidPiece, ...]] = []
    for numbers in tied_groups(len(pieces), parts.beside()):
        part = tuple(pieces[n] for n in numbers)
        found += [part] if sound_of("", part).parts.is_sound() else [(piece,) for piece in part]
    return tuple(found)


def sound_of(block: str, pieces: Iterable[LaidPiece]) -> Sound:
    """Pieces as a block, their points made one."""
    laid = tuple(pieces)
    parts = subdivide([piece.outline for piece in laid])
    moved = zip(laid, parts.outlines, strict=True)
    return Sound(block, tuple(replace(p, outline=outline) for p, outline in moved), parts)
