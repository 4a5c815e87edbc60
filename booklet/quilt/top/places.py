"""Floor 6: places in a top, in inches, x to the right and y down."""

from __future__ import annotations

from booklet.kit.outlines.plane import Point, box_of, turn_point


def origin_for(outline: tuple[Point, ...], turn: float, corner: Point) -> Point:
    """Where a block's (0, 0) lies when, turned, its bounding box has `corner` as its top left."""
    left, top, _, _ = box_of(turn_point(p, turn) for p in outline)
    return corner[0] - left, corner[1] - top
