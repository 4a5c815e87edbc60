"""Floor 10: a block as it lies on the table to be sewn by touching: its cloths, its pieces by their names."""

from __future__ import annotations

from booklet.drawing.ink.fills import looks
from booklet.drawing.lettering.labels import letter_in
from booklet.drawing.scene import Area, Ink, Item, Scene
from booklet.drawing.viewport import Margins, View, fitted
from booklet.geometry.tiling import Tiling
from booklet.pattern import Size

WIDTH = 100.0  # mm; the page shows it as large as there is room


def table_view(tiling: Tiling) -> tuple[View, float]:
    """How inches of the block come onto its picture, and how high that is, in mm."""
    view, _, height = fitted(tiling.outline.points, WIDTH, WIDTH, Margins(2.0, 2.0, 2.0, 2.0), True)
    return view, height


def table_scene(size: Size, tiling: Tiling, title: str) -> Scene:
    """The picture."""
    view, height = table_view(tiling)
    colours = {id: fabric.colour for id, fabric in size.fabrics.items()}
    cloths = [tuple(tiling.piece(id).fabric for id in seam.between) for seam in tiling.seams]
    touching = {(min(pair), max(pair)) for pair in cloths if pair[0] != pair[1]}
    fills = looks(colours, touching)
    drawn = [(piece, view.put(piece.outline.points)) for piece in tiling.pieces]
    items: list[Item] = [Area(points, fills[piece.fabric], Ink.FINE) for piece, points in drawn]
    items += filter(None, (letter_in(points, piece.id, 8.5) for piece, points in drawn))
    return Scene.of("touched-block", (WIDTH, height), items, title, title)
