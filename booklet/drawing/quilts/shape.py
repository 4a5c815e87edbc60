"""Floor 10: a shape as it stands, its corners and its sides by their numbers."""

from __future__ import annotations

import math

from booklet.drawing.ink.svg import figure
from booklet.drawing.lettering.labels import Desk
from booklet.drawing.scene import Area, Figure, Fill, Ink, Item, Label, Mark, Scene, Sign
from booklet.geometry.tiling import Outline
from booklet.kit.outlines.plane import Point, box_of, direction, middle, plus, right_of
from booklet.kit.words import phrase

ROOM = 9.0  # mm about the shape, for its numbers
WIDTH, TALLEST = 60.0, 46.0  # mm of the picture
CLOTH = Fill("#e9dcc3")


def shape_figure(name: str, outline: Outline) -> Figure:
    """The outline of a shape: dots at its corners with their numbers outside, the numbers of
    its sides within."""
    left, top, right, bottom = box_of(outline.points)
    mm = min((WIDTH - 2 * ROOM) / (right - left), (TALLEST - 2 * ROOM) / (bottom - top))
    start = ((WIDTH - (right - left) * mm) / 2, ROOM)
    height = (bottom - top) * mm + 2 * ROOM

    def put(p: Point) -> Point:
        return start[0] + (p[0] - left) * mm, start[1] + (p[1] - top) * mm

    points = tuple(map(put, outline.points))
    corners = tuple(map(put, outline.corners))
    strokes = list(zip(points, (*points[1:], points[0]), strict=True))
    desk = Desk(strokes, (), (0.3, 0.3, WIDTH - 0.3, height - 0.3), corners)
    items: list[Item] = [Area(points, CLOTH, Ink.PATCH), *(Sign(p, Mark.SMALL) for p in corners)]
    centre = (sum(x for x, _ in corners) / len(corners), sum(y for _, y in corners) / len(corners))
    for number, (corner, side) in enumerate(zip(corners, outline.sides, strict=True), 1):
        out = direction(centre, corner) if math.dist(centre, corner) > 0.01 else (0.0, -1.0)
        items += desk.named(corner, str(number), 8.5, out)
        path = tuple(map(put, side.points))
        inward = right_of(direction(path[0], path[-1]))  # outlines run clockwise
        ways = (
            Label(
                at=plus(middle(path), inward, far),
                text=f"({number})",
                size=7.5,
                muted=True,
                halo=True,
            )
            for far in (3.6, -3.6, 6.0, -6.0)
        )
        label = next(way for way in ways if desk.clear_of(way))
        desk.keep((label,))
        items.append(label)
    title = phrase("{shape}, its corners and sides numbered", shape=name)
    scene = Scene.of(f"shape-{name.replace(' ', '-')}", (WIDTH, height), items, title, title)
    return figure(scene, title)
