"""Floor 6: places in a top. Rectangles and turned frames, in inches, x to the right and y down."""

from __future__ import annotations

from dataclasses import dataclass

from booklet.kit.plane import Point, box_of, turn_point


@dataclass(frozen=True, slots=True)
class Frame:
    """An upright rectangle: its top left corner, width and height in inches."""

    x: float
    y: float
    width: float
    height: float


def bounds(points: tuple[Point, ...]) -> Frame:
    """The smallest upright rectangle around some points."""
    left, top, right, bottom = box_of(points)
    return Frame(left, top, right - left, bottom - top)


def origin_for(outline: tuple[Point, ...], turn: float, corner: Point) -> Point:
    """Where a block's (0, 0) lies when, turned, its bounding box has `corner` as its top left."""
    box = bounds(tuple(turn_point(p, turn) for p in outline))
    return corner[0] - box.x, corner[1] - box.y


def shifted(points: tuple[Point, ...], dx: float, dy: float) -> tuple[Point, ...]:
    """The points moved by (dx, dy)."""
    return tuple((x + dx, y + dy) for x, y in points)
