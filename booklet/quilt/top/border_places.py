"""Floor 6: where the strips and corner squares of a border lie in the top, for drawing."""

from __future__ import annotations

from booklet.kit.outlines.plane import Frame, Point, rectangle
from booklet.pattern import Corners

Places = tuple[tuple[Point, ...], ...]


def border_places(corners: Corners, frame: Frame, side: float, end: float) -> tuple[Places, Places]:
    """The outlines of top and bottom, `end` wide, then of the left and right side, `side` wide, around `frame`."""
    x, y, w, h = frame.left, frame.top, frame.width, frame.height
    if corners is Corners.MITRED:
        outer = rectangle(x - side, y - end, w + 2 * side, h + 2 * end)
        inner = rectangle(x, y, w, h)
        ring = [(outer[k], outer[(k + 1) % 4], inner[(k + 1) % 4], inner[k]) for k in range(4)]
        return (ring[0], ring[2]), (ring[3], ring[1])
    out = side if corners is Corners.BUTTED else 0.0
    level = (
        rectangle(x - out, y - end, w + 2 * out, end),
        rectangle(x - out, y + h, w + 2 * out, end),
    )
    return level, (rectangle(x - side, y, side, h), rectangle(x + w, y, side, h))


def corner_places(frame: Frame, side: float, end: float) -> Places:
    """The outlines of what lies in the four corners, clockwise from the top left."""
    x, y, w, h = frame.left, frame.top, frame.width, frame.height
    corners = ((x - side, y - end), (x + w, y - end), (x + w, y + h), (x - side, y + h))
    return tuple(rectangle(a, c, side, end) for a, c in corners)
