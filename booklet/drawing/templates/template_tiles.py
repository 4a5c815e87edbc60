"""Floor 10: a template larger than the page is cut into tiles that overlap.

The tiles are as few as a quarter turn allows and all of one size; those that hold nothing of the template
are left out.
"""

from __future__ import annotations

import math

from booklet.drawing.templates.template_layout import HEAD, SQUARES, Template
from booklet.kit.outlines.near import NOTHING
from booklet.kit.outlines.plane import Box, Point, box_of, plus
from booklet.kit.outlines.polygon import depth, edges
from booklet.kit.records import Record

OVERLAP = 12.0  # mm that neighbouring tiles share


class Tile(Record):
    """One part of a large template: its row and column from 0, its box in the template's frame."""

    row: int
    column: int
    box: Box


class TiledTemplate(Record):
    """A large template, turned as it is printed, and the tiles that hold something of it."""

    template: Template
    tiles: tuple[Tile, ...]

    def crosses(self) -> tuple[Point, ...]:
        """Two points in every overlap of two neighbours, in the template's frame."""
        places = {(tile.row, tile.column): tile.box for tile in self.tiles}
        made: list[Point] = []
        for (row, column), box in places.items():
            if (row, column + 1) in places:
                x, tall = box[2] - OVERLAP / 2, box[3] - box[1]
                made += [(x, box[1] + tall * share) for share in (0.2, 0.8)]
            if (row + 1, column) in places:
                y, wide = box[3] - OVERLAP / 2, box[2] - box[0]
                made += [(box[0] + wide * share, y) for share in (0.2, 0.8)]
        return tuple(made)


def tiled(template: Template, width: float, height: float) -> TiledTemplate:
    """A template cut into tiles for pages of `width` x `height` mm, turned where that saves tiles."""
    ways = [TiledTemplate(t, _tiles(t, width, height)) for t in (template, template.turned())]
    return min(ways, key=lambda way: len(way.tiles))


def _tiles(template: Template, width: float, height: float) -> tuple[Tile, ...]:
    room_x, room_y = width - 1, height - HEAD - SQUARES
    left, top, right, low = box_of(template.cut)
    columns = max(1, math.ceil((right - left - OVERLAP) / (room_x - OVERLAP)))
    rows = max(1, math.ceil((low - top - OVERLAP) / (room_y - OVERLAP)))
    step_x, step_y = (right - left - OVERLAP) / columns, (low - top - OVERLAP) / rows
    made = []
    for row in range(rows):
        for column in range(columns):
            x, y = left + column * step_x, top + row * step_y
            box = (x, y, x + step_x + OVERLAP, y + step_y + OVERLAP)
            middle = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
            if depth(middle, template.cut) > 0 or any(
                clipped(a, b, box) for a, b in edges(template.cut)
            ):
                made.append(Tile(row, column, box))
    return tuple(made)


def clipped(a: Point, b: Point, box: Box) -> tuple[Point, Point] | None:
    """The part of a segment inside a box, or None (Liang and Barsky)."""
    start, end = 0.0, 1.0
    d = (b[0] - a[0], b[1] - a[1])
    for p, q in (
        (-d[0], a[0] - box[0]), (d[0], box[2] - a[0]), (-d[1], a[1] - box[1]), (d[1], box[3] - a[1]),
    ):  # fmt: skip
        if abs(p) < NOTHING:
            if q < 0:
                return None
        elif p < 0:
            start = max(start, q / p)
        else:
            end = min(end, q / p)
    if start >= end:
        return None
    return plus(a, d, start), plus(a, d, end)
