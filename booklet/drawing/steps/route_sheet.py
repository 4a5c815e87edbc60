"""Floor 10: the block to write one's own routes on: pale, large, without a number."""

from __future__ import annotations

from booklet.drawing.ink.svg import figure
from booklet.drawing.scene import Area, Figure, Ink, Item, Mark, Scene, Sign
from booklet.kit.outlines.plane import Point, box_of
from booklet.kit.words import phrase
from booklet.pattern import By
from booklet.plan import BlockPlan

ROOM = 3.0  # mm about the block, so that its line is not cut off


def route_sheet_figure(block: BlockPlan, width: float, tallest: float) -> Figure | None:
    """The block with a dot wherever a seam sewn by hand begins or ends, `width` mm wide at most; None where
    nothing is sewn by hand."""
    tiling = block.tiling
    hand = [id for id, sewn in block.assembly.sewn.items() if sewn.by is By.HAND]
    if not hand:
        return None
    left, top, right, bottom = box_of(tiling.outline.points)
    mm = min((width - 2 * ROOM) / (right - left), (tallest - 2 * ROOM) / (bottom - top))
    wide = (right - left) * mm + 2 * ROOM

    def put(p: Point) -> Point:
        return ROOM + (p[0] - left) * mm, ROOM + (p[1] - top) * mm

    items: list[Item] = [
        Area(tuple(map(put, piece.outline.points)), None, Ink.CONTEXT) for piece in tiling.pieces
    ]
    items.append(Area(tuple(map(put, tiling.outline.points)), None, Ink.SEAM_LINE))
    ends = dict.fromkeys(end for id in hand for end in (tiling.seam(id).start, tiling.seam(id).end))
    items += [Sign(put(p), Mark.DOT) for p in ends]
    title = phrase("“{block}”, to write your own routes on", block=block.block.title)
    told = phrase("The block in outlines, with a dot at every end of a seam that is sewn by hand.")
    name = f"{tiling.size}-{tiling.block}-route-sheet"
    scene = Scene.of(name, (wide, (bottom - top) * mm + 2 * ROOM), items, title, told)
    return figure(scene, title)
