"""Floor 10: a template larger than the page, in tiles that overlap, with crosses to match them by.

The tiles are as few as a quarter turn allows and all of one size; those that hold nothing of the template
are left out. On each a small picture shows how the parts lie together.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from booklet.drawing.colours import PALE, WHITE, mix
from booklet.drawing.plane import Box, depth, edges, plus, to_segment, vector
from booklet.drawing.scene import Area, Fill, Ink, Item, Label, Line, Mark, Point, Sign
from booklet.drawing.template_layout import HEAD, SQUARES, Template
from booklet.words import ENGLISH, Speaker, phrase

OVERLAP = 12.0  # mm that neighbouring tiles share
CROSS = 3.0  # mm, half a cross
PICTURE = (40.0, 26.0)  # mm: the room of the picture of the parts, less on narrow pages
WORDS_TO = 110.0  # mm from the left: how far the squares and the words beside them reach
_HERE = Fill(mix(PALE, WHITE, 0.55))


@dataclass(frozen=True, slots=True)
class Tile:
    """One part of a large template: its row and column from 0, its box in the template's frame."""

    row: int
    column: int
    box: Box


@dataclass(frozen=True, slots=True)
class Tiling:
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


def tiled(template: Template, width: float, height: float) -> Tiling:
    """A template cut into tiles for pages of `width` x `height` mm, turned where that saves tiles."""
    ways = [Tiling(t, _tiles(t, width, height)) for t in (template, template.turned())]
    return min(ways, key=lambda way: len(way.tiles))


def _tiles(template: Template, width: float, height: float) -> tuple[Tile, ...]:
    room_x, room_y = width - 1, height - HEAD - SQUARES
    left, top, right, low = _box(template.cut)
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


def _box(points: Sequence[Point]) -> Box:
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def tiles(
    template: Template, width: float, height: float, speaker: Speaker = ENGLISH
) -> list[tuple[int, int, list[Item]]]:
    """(part, of how many, what is drawn on its page) for a template that is larger than the page."""
    tiling = tiled(template, width, height)
    numbered = list(enumerate(tiling.tiles, 1))
    return [
        (
            number,
            len(tiling.tiles),
            [*_drawn(tiling, tile), *_picture(tiling, number, width, height, speaker)],
        )
        for number, tile in numbered
    ]


def _drawn(tiling: Tiling, tile: Tile) -> list[Item]:
    """The lines of a template inside a tile, its crosses, the edges to cut off, letter and words."""
    template, box = tiling.template, tile.box
    corner = (0.5 - box[0], HEAD - box[1])
    items: list[Item] = []
    lines: list[tuple[Point, Point]] = []
    for points, ink in ((template.cut, Ink.CUT), (template.seam, Ink.SEAM_LINE)):
        for a, b in edges(points):
            if (part := clipped(a, b, box)) is not None:
                lines.append(part)
                items.append(Line((plus(part[0], corner), plus(part[1], corner)), ink))
    items += [Sign(plus(p, corner), Mark.POINT) for p in template.points if _within(p, box)]
    for number, cross in enumerate(tiling.crosses(), 1):
        if _within(cross, box):
            at = plus(cross, corner)
            for way in ((CROSS, 0.0), (0.0, CROSS)):
                items.append(Line((plus(at, way, -1), plus(at, way)), Ink.RULE))
            items.append(Label(plus(at, (2.4, -2.2)), str(number), 7.5, "start", halo=True))
    items += _edges(tiling, tile, corner)
    return [*items, *_words(template, box, corner, lines)]


def _edges(tiling: Tiling, tile: Tile, corner: Point) -> list[Item]:
    """Grey edges toward the parts above and at the left: this part is cut off there and laid over."""
    there = {(other.row, other.column) for other in tiling.tiles}
    left, top, right, low = tile.box
    items: list[Item] = []
    for neighbour, a, b in (
        ((tile.row, tile.column - 1), (left, top), (left, low)),
        ((tile.row - 1, tile.column), (left, top), (right, top)),
    ):
        if neighbour in there:
            items.append(Line((plus(a, corner), plus(b, corner)), Ink.LEADER))
    return items


def _words(
    template: Template, box: Box, corner: Point, lines: list[tuple[Point, Point]]
) -> list[Item]:
    """The letter, the grain arrow below it and the name, where the part has most room for them."""

    def room(p: Point) -> float:
        free = min((to_segment(p, a, b) for a, b in lines), default=30.0)
        edge = min(p[0] - box[0], box[2] - p[0], p[1] - box[1], box[3] - p[1])
        return min(free, edge, 30.0) - (0.0 if depth(p, template.seam) > 0 else 30.0)

    wide, tall = box[2] - box[0], box[3] - box[1]
    middle = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
    spots = [
        (box[0] + wide * i / 20, box[1] + tall * j / 20) for i in range(1, 20) for j in range(1, 20)
    ]
    best = max(spots, key=lambda p: (room(p) - 0.02 * math.dist(p, middle), -p[1], -p[0]))
    free = room(best)
    if free < 4.0:
        return []
    at = plus(best, corner)
    if free < 16.0:
        return [Label(at, template.letter, min(24.0, free * 2.5), bold=True, halo=True)]
    words = template.lines[:-1] if free > 18.0 + 3.5 * len(template.lines) else template.lines[:1]
    below = 3.5 * (len(words) - 1)
    grain = vector(template.grain)
    upright = abs(grain[1]) > 0.5
    long = max(5.0, min(12.0, free - 8.0 - below if upright else free * 0.7))
    foot = plus(at, (0.0, 6.0 + below + (long if upright else 0.0)))
    made: list[Item] = [
        Line((plus(foot, grain, long), plus(foot, grain, -long)), Ink.GRAIN, True, True),
        Label(plus(at, (0.0, -6.0)), template.letter, 24.0, bold=True, halo=True),
    ]
    if free > 20.0:
        for i, text in enumerate(words):
            made.append(Label(plus(at, (0.0, 1.0 + 3.5 * i)), text, 8.0, halo=True))
    return made


def _picture(
    tiling: Tiling, number: int, width: float, height: float, speaker: Speaker
) -> list[Item]:
    """All parts as they lie together, this one grey, at the foot on the right, and what to do."""
    left, top, right, low = _box(tiling.template.cut)
    wide = min(PICTURE[0], width - WORDS_TO)
    scale = min(wide / (right - left), PICTURE[1] / (low - top))
    start = (width - 0.5 - scale * (right - left), height - 0.5 - scale * (low - top))

    def put(points: Sequence[Point]) -> tuple[Point, ...]:
        return tuple(
            (start[0] + (x - left) * scale, start[1] + (y - top) * scale) for x, y in points
        )

    def frame(box: Box) -> tuple[Point, ...]:
        return put(((box[0], box[1]), (box[2], box[1]), (box[2], box[3]), (box[0], box[3])))

    here = tiling.tiles[number - 1]
    items: list[Item] = [Area(frame(here.box), _HERE, None)]
    items += [Area(frame(tile.box), None, Ink.CONTEXT) for tile in tiling.tiles]
    items.append(Area(put(tiling.template.cut), None, Ink.FINE))
    for n, tile in enumerate(tiling.tiles, 1):
        box = tile.box
        (at,) = put((((box[0] + box[2]) / 2, (box[1] + box[3]) / 2),))
        items.append(Label(at, str(n), 8.0, bold=n == number, halo=True))
    steps = (
        phrase("Cut the gray edges off. Lay crosses"),
        phrase("of one number on each other, and tape."),
    )
    for i, text in enumerate(steps):
        items.append(Label((54.9, height - 16.7 + 4.2 * i), speaker.say(text), 8.0, "start"))
    return items


def _within(p: Point, box: Box) -> bool:
    return box[0] <= p[0] <= box[2] and box[1] <= p[1] <= box[3]


def clipped(a: Point, b: Point, box: Box) -> tuple[Point, Point] | None:
    """The part of a segment inside a box, or None (Liang and Barsky)."""
    start, end = 0.0, 1.0
    d = (b[0] - a[0], b[1] - a[1])
    for p, q in (
        (-d[0], a[0] - box[0]), (d[0], box[2] - a[0]), (-d[1], a[1] - box[1]), (d[1], box[3] - a[1]),
    ):  # fmt: skip
        if abs(p) < 1e-12:
            if q < 0:
                return None
        elif p < 0:
            start = max(start, q / p)
        else:
            end = min(end, q / p)
    if start >= end:
        return None
    return plus(a, d, start), plus(a, d, end)
