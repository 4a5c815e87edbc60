"""Floor 7: sides on the rim of a block, where a bias edge would stretch."""

from __future__ import annotations

import math

from booklet.geometry.tiling import Outline
from booklet.kit.outlines.near import TOUCH
from booklet.kit.outlines.plane import Point, dot, minus, off_line
from booklet.kit.outlines.polygon import edges


def lies_on_rim(start: Point, end: Point, outline: Outline) -> bool:
    """Whether a side shares more than a point with the block's outline."""
    points = outline.points
    return any(_overlap(start, end, a, b) > TOUCH for a, b in edges(points))


def _overlap(start: Point, end: Point, a: Point, b: Point) -> float:
    """The length that two segments share; 0 unless they lie on one line."""
    if off_line(a, start, end) > TOUCH or off_line(b, start, end) > TOUCH:
        return 0.0
    way, length = minus(end, start), math.dist(start, end)
    along = sorted(dot(minus(p, start), way) / length for p in (a, b))
    return min(along[1], length) - max(along[0], 0.0)
