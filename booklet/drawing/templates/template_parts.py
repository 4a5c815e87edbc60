"""Floor 10: the parts of a template larger than the page, as each is printed: its lines, numbered crosses
to match it by, edges to cut off, and a small picture of how all parts lie together.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from booklet.drawing.ink.colours import PALE, WHITE
from booklet.drawing.scene import Area, Fill, Ink, Item, Label, Line, Mark, Sign
from booklet.drawing.templates.template_layout import HEAD, Template
from booklet.drawing.templates.template_tiles import Tile, TiledTemplate, clipped, tiled
from booklet.drawing.templates.template_ups import HIGH, rows_of
from booklet.drawing.templates.template_words import cells_on
from booklet.kit.colour import mix
from booklet.kit.outlines.plane import Box, Point, box_of, plus, to_segment, vector
from booklet.kit.outlines.polygon import depth, edges, point_to_box, to_box
from booklet.kit.words import phrase

CROSS = 3.0  # mm, half a cross
BESIDE_WORDS = 20.0  # mm from the middle of a part's words that they and the grain arrow take
PUT_TOGETHER = phrase("Cut the gray edges off. Lay crosses of one number on each other, and tape.")
_HERE = Fill(mix(PALE, WHITE, 0.55))


def tiles(template: Template, width: float, height: float) -> list[tuple[int, int, list[Item]]]:
    """(part, of how many, what is drawn on its page) for a template that is larger than the page."""
    tiling = tiled(template, width, height)
    numbered = list(enumerate(tiling.tiles, 1))
    return [
        (
            number,
            len(tiling.tiles),
            [*_drawn(tiling, tile), *_picture(tiling, number, width, height)],
        )
        for number, tile in numbered
    ]


def _drawn(tiling: TiledTemplate, tile: Tile) -> list[Item]:
    """The lines of a template inside a tile, its crosses, the edges to cut off, letter and words."""
    template, box = tiling.template, tile.box
    corner = (0.5 - box[0], HEAD - box[1])
    items: list[Item] = []
    lines: list[tuple[Point, Point]] = []
    outer, inner = template.inks
    for points, ink in ((template.cut, outer), (template.seam, inner)):
        for a, b in edges(points):
            if (part := clipped(a, b, box)) is not None:
                lines.append(part)
                items.append(Line(points=(plus(part[0], corner), plus(part[1], corner)), ink=ink))
    for stroke in template.strokes:
        for a, b in pairwise(stroke):
            if (part := clipped(a, b, box)) is not None:
                items.append(
                    Line(points=(plus(part[0], corner), plus(part[1], corner)), ink=Ink.CUT)
                )
    items += [Sign(plus(p, corner), Mark.POINT) for p in template.points if _within(p, box)]
    for number, cross in enumerate(tiling.crosses(), 1):
        if _within(cross, box):
            at = plus(cross, corner)
            for way in ((CROSS, 0.0), (0.0, CROSS)):
                items.append(Line(points=(plus(at, way, -1), plus(at, way)), ink=Ink.RULE))
            items.append(
                Label(
                    at=plus(at, (2.4, -2.2)), text=str(number), size=7.5, anchor="start", halo=True
                )
            )
            lines.append((cross, plus(cross, (5.0, -2.2))))  # no letter lies on it
    items += _edges(tiling, tile, corner)
    if template.cells:
        return [*items, *cells_on(template, corner, box)]
    return [*items, *_words(template, box, corner, lines)]


def _edges(tiling: TiledTemplate, tile: Tile, corner: Point) -> list[Item]:
    """Grey edges toward the parts above and at the left: this part is cut off there and laid over."""
    there = {(other.row, other.column) for other in tiling.tiles}
    left, top, right, low = tile.box
    items: list[Item] = []
    for neighbour, a, b in (
        ((tile.row, tile.column - 1), (left, top), (left, low)),
        ((tile.row - 1, tile.column), (left, top), (right, top)),
    ):
        if neighbour in there:
            items.append(Line(points=(plus(a, corner), plus(b, corner)), ink=Ink.LEADER))
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
    if free < 20.0:
        return [
            Label(at=at, text=template.letter, size=min(24.0, free * 2.5), bold=True, halo=True)
        ]
    said = template.lines  # its name first, its size and version last
    words = said if free > 16.0 + 3.5 * len(said) else (said[0], said[-1])
    below = 3.5 * (len(words) - 1)
    grain = vector(template.grain)
    upright = abs(grain[1]) > 0.5
    long = max(5.0, min(12.0, free - 8.0 - below if upright else free * 0.7))
    foot = plus(at, (0.0, 6.0 + below + (long if upright else 0.0)))
    made: list[Item] = [
        Line(
            points=(plus(foot, grain, long), plus(foot, grain, -long)),
            ink=Ink.GRAIN,
            start_arrow=True,
            end_arrow=True,
        ),
        Label(at=plus(at, (0.0, -6.0)), text=template.letter, size=24.0, bold=True, halo=True),
    ]
    for i, text in enumerate(words):
        made.append(Label(at=plus(at, (0.0, 1.0 + 3.5 * i)), text=text, size=8.0, halo=True))
    return [
        *made,
        *_ups(template, box, corner, best, [spot for spot in spots if spot != best], lines),
    ]


def _ups(
    template: Template,
    box: Box,
    corner: Point,
    words: Point,
    spots: Sequence[Point],
    lines: Sequence[tuple[Point, Point]],
) -> list[Item]:
    """Which way is up on prints that may not be turned: beside the words of the part where no line runs, as near as can
    be; nothing where a part has no room for it."""
    if not template.ups:
        return []
    wide, high = max(row.width for row in template.ups) / 2, HIGH * len(template.ups) / 2

    def is_free(p: Point) -> bool:
        room = (p[0] - wide - 1, p[1] - high - 1, p[0] + wide + 1, p[1] + high + 1)
        inside = box[0] < room[0] and box[1] < room[1] and room[2] < box[2] and room[3] < box[3]
        clear = inside and point_to_box(room, words) > BESIDE_WORDS and depth(p, template.seam) > 0
        return clear and all(to_box(room, a, b) > 0 for a, b in lines)

    near = next(filter(is_free, sorted(spots, key=lambda p: math.dist(p, words))), None)
    if near is None:
        return []
    x, y = plus(near, corner)
    return list(rows_of(template.ups, y - high, x, True))


def picture_room(width: float) -> tuple[float, float]:
    """The width and height in mm of the picture of all parts on a page of that width."""
    return min(40.0, max(24.0, width - 130.0)), 26.0


def _picture(tiling: TiledTemplate, number: int, width: float, height: float) -> list[Item]:
    """All parts as they lie together, this one grey, at the foot on the right."""
    left, top, right, low = box_of(tiling.template.cut)
    wide, tall = picture_room(width)
    scale = min(wide / (right - left), tall / (low - top))
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
        items.append(Label(at=at, text=str(n), size=8.0, bold=n == number, halo=True))
    return items


def _within(p: Point, box: Box) -> bool:
    return box[0] <= p[0] <= box[2] and box[1] <= p[1] <= box[3]
