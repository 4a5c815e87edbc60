"""Floor 6: places in a top. Rectangles and turned frames, in inches, x to the right and y down."""

from __future__ import annotations

import math
from dataclasses import dataclass

from booklet.kit.plane import Point


@dataclass(frozen=True, slots=True)
class Frame:
    """An upright rectangle: its top left corner, width and height in inches."""

    x: float
    y: float
    width: float
    height: float


def rectangle(x: float, y: float, width: float, height: float) -> tuple[Point, ...]:
    """The corners of an upright rectangle, clockwise from the top left."""
    return ((x, y), (x + width, y), (x + width, y + height), (x, y + height))


def turned(point: Point, degrees: float) -> Point:
    """A point turned clockwise about (0, 0); quarter turns are exact."""
    x, y = point
    quarters, rest = divmod(degrees % 360, 90)
    for _ in range(int(quarters)):
        x, y = -y, x
    if rest:
        c, s = math.cos(math.radians(rest)), math.sin(math.radians(rest))
        x, y = x * c - y * s, x * s + y * c
    return x + 0.0, y + 0.0


def bounds(points: tuple[Point, ...]) -> Frame:
    """The smallest upright rectangle around some points."""
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return Frame(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))


def origin_for(outline: tuple[Point, ...], turn: float, corner: Point) -> Point:
    """Where a block's (0, 0) lies when, turned, its bounding box has `corner` as its top left."""
    box = bounds(tuple(turned(p, turn) for p in outline))
    return corner[0] - box.x, corner[1] - box.y


def shifted(points: tuple[Point, ...], dx: float, dy: float) -> tuple[Point, ...]:
    """The points moved by (dx, dy)."""
    return tuple((x + dx, y + dy) for x, y in points)
