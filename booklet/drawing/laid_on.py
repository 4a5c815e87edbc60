"""Floor 10: what is laid on a block, painted over its pieces in the order in which it is laid."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from booklet.drawing.ink.fills import Looks
from booklet.drawing.scene import Area, Ink
from booklet.drawing.viewport import View
from booklet.geometry.overlay import difference, overlap_area
from booklet.geometry.tiling import PlacedPiece, Tiling
from booklet.kit.outlines.near import NOTHING
from booklet.kit.outlines.plane import Point, box_of, overlap, rectangle
from booklet.kit.outlines.polygon import area_of, roomiest

SLIT = 1e-4  # inches: too thin to be seen, wide enough to be cut out
MOST = 48  # shapes that a letter keeps clear of: the largest


def shapes_over(tiling: Tiling, view: View, looks: Looks, ink: Ink) -> list[Area]:
    """The applied shapes of a block, each covering those before it."""
    return [
        Area(view.put(shape.piece.outline.points), looks[shape.piece.fabric], ink)
        for shape in tiling.applied
    ]


def seen_parts(tiling: Tiling) -> Iterable[tuple[PlacedPiece, tuple[Point, ...]]]:
    """For each piece and applied shape the largest part that is seen of it, without what lies on it."""
    laid = tiling.laid
    ground = len(tiling.pieces)
    outlines = [piece.outline.points for piece in laid]
    for n, piece in enumerate(laid):
        above = outlines[max(n + 1, ground) :]
        yield piece, seen_of(outlines[n], above)


def seen_of(points: tuple[Point, ...], above: Sequence[Sequence[Point]]) -> tuple[Point, ...]:
    """The roomiest part of an outline that others leave free; itself where they cover all. A part that runs round a shape
    is slit there, so that it has one outline."""
    box = box_of(points)
    near = (other for other in above if overlap(box, box_of(other)))
    large = sorted(near, key=lambda other: -abs(area_of(other)))[:MOST]
    above = [other for other in large if overlap_area(points, other) > NOTHING]
    if not above:
        return points
    parts = difference(points, [*above, *(_slit(points, other) for other in above)])
    return max(parts, key=lambda part: roomiest(part)[1], default=points)


def _slit(points: Sequence[Point], other: Sequence[Point]) -> tuple[Point, ...]:
    """A hair's breadth from the middle of a shape down to the edge of an outline."""
    left, top, right, bottom = box_of(other)
    x, y = (left + right) / 2, (top + bottom) / 2
    return rectangle(x, y, SLIT, max(box_of(points)[3], bottom) + 1 - y)
