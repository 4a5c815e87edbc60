"""Floor 10: a template larger than the page, in tiles that overlap, with crosses to match them by."""

from __future__ import annotations

import math

from booklet.drawing.plane import plus, vector
from booklet.drawing.scene import Ink, Item, Label, Line, Mark, Point, Sign
from booklet.drawing.template_layout import HEAD, SQUARES, Template

OVERLAP = 12.0  # mm that the tiles of a large template share


def tiles(template: Template, width: float, height: float) -> list[tuple[str, list[Item]]]:
    """A large template in tiles that overlap, with marks to match them by."""
    step_x, step_y = width - OVERLAP - 1, height - HEAD - SQUARES - OVERLAP
    columns = max(1, math.ceil((template.width - OVERLAP) / step_x))
    rows = max(1, math.ceil((template.height - OVERLAP) / step_y))
    tiles = []
    for row in range(rows):
        for column in range(columns):
            frame = (
                column * step_x,
                row * step_y,
                column * step_x + step_x + OVERLAP,
                row * step_y + step_y + OVERLAP,
            )
            corner = (0.5 - frame[0], HEAD - frame[1])
            items: list[Item] = []
            for points, ink in ((template.cut, Ink.CUT), (template.seam, Ink.SEAM_LINE)):
                for a, b in zip(points, (*points[1:], points[0]), strict=True):
                    clipped = _clipped(a, b, frame)
                    if clipped is not None:
                        items.append(
                            Line((plus(clipped[0], corner), plus(clipped[1], corner)), ink)
                        )
            items += [
                Sign(plus(p, corner), Mark.POINT) for p in template.points
                if frame[0] <= p[0] <= frame[2] and frame[1] <= p[1] <= frame[3]
            ]  # fmt: skip
            items += _registration(template, frame, corner, (row, column), (rows, columns))
            tiles.append((f", part {row * columns + column + 1} of {rows * columns}", items))
    return tiles


def _registration(
    template: Template,
    frame: tuple[float, float, float, float],
    corner: Point,
    place: tuple[int, int],
    many: tuple[int, int],
) -> list[Item]:
    """Crosses where neighbouring tiles share paper, and the letter with the tile's place."""
    items: list[Item] = []
    half = OVERLAP / 2
    for x in (frame[0] + half, frame[2] - half):
        for y in (frame[1] + half, frame[3] - half):
            at = plus((x, y), corner)
            for d in ((3.0, 0.0), (0.0, 3.0)):
                items.append(Line((plus(at, d, -1), plus(at, d)), Ink.RULE))
    middle = plus(((frame[0] + frame[2]) / 2, (frame[1] + frame[3]) / 2), corner)
    items.append(Label(middle, template.letter, 24.0, bold=True))
    text = f"row {place[0] + 1} of {many[0]}, column {place[1] + 1} of {many[1]}: lay the crosses on each other"
    items.append(Label(plus(middle, (0.0, 9.0)), text, 8.0))
    grain = vector(template.grain)
    foot = plus(middle, (0.0, 26.0))
    items.append(Line((plus(foot, grain, 12), plus(foot, grain, -12)), Ink.GRAIN, True, True))
    return items


def _clipped(
    a: Point, b: Point, frame: tuple[float, float, float, float]
) -> tuple[Point, Point] | None:
    """The part of a segment inside a box, or None."""
    start, end = 0.0, 1.0
    d = (b[0] - a[0], b[1] - a[1])
    for p, q in (
        (-d[0], a[0] - frame[0]), (d[0], frame[2] - a[0]), (-d[1], a[1] - frame[1]), (d[1], frame[3] - a[1]),
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
