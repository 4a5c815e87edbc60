"""Floor 6: where the strips and corner squares of a border lie in the top, for drawing."""

from __future__ import annotations

from booklet.kit.outlines.plane import Frame, Point, rectangle
from booklet.pattern import Corners

Places = tuple[tuple[Point, ...], ...]


def border_places(corners: Corners, frame: Frame, b: float) -> tuple[Places, Places]:
    """The outlines of top and bottom, then of the left and right side, around `frame`."""
    x, y, w, h = frame.left, frame.top, frame.width, frame.height
    if corners is Corners.MITRED:
        outer = ((x - b, y - b), (x + w + b, y - b), (x + w + b, y + h + b), (x - b, y + h + b))
        inner = rectangle(x, y, w, h)
        ring = [(outer[k], outer[(k + 1) % 4], inner[(k + 1) % 4], inner[k]) for k in range(4)]
        return (ring[0], ring[2]), (ring[3], ring[1])
    out = b if corners is Corners.BUTTED else 0.0
    level = (
        rectangle(x - out, y - b, w + 2 * out, b),
        rectangle(x - out, y + h, w + 2 * out, b),
    )
    return level, (rectangle(x - b, y, b, h), rectangle(x + w, y, b, h))


def corner_places(frame: Frame, b: float) -> Places:
    """The outlines of the four corner squares, clockwise from the top left."""
    x, y, w, h = frame.left, frame.top, frame.width, frame.height
    corners = ((x - b, y - b), (x + w, y - b), (x + w, y + h), (x - b, y + h))
    return tuple(rectangle(a, c, b, b) for a, c in corners)
