"""Floor 11, crop marks: the short lines by which a sheet is folded and trimmed; in points, y upward."""

from __future__ import annotations

from booklet.kit.measure import INCH_MM
from booklet.kit.outlines.plane import Point

POINTS_PER_MM = 72 / INCH_MM
MARK_LENGTH = 5.0 * POINTS_PER_MM
MARK_GAP = 3.5 * POINTS_PER_MM  # from the trimmed page to its marks: outside the bleed
FOLD_MARK = 4.0 * POINTS_PER_MM
AROUND = MARK_LENGTH + MARK_GAP + 2.0 * POINTS_PER_MM
"""The room about a page that has crop marks."""

Stroke = tuple[Point, Point]
Box = tuple[float, ...]  # left, low, right, top


def crop_lines(trim: Box) -> list[Stroke]:
    """Two lines outside each corner of a box, in line with its sides."""
    left, low, right, top = trim
    made = []
    for x, outward in ((left, -1), (right, 1)):
        for y, upward in ((low, -1), (top, 1)):
            near, far = MARK_GAP, MARK_GAP + MARK_LENGTH
            made.append(((x + outward * near, y), (x + outward * far, y)))
            made.append(((x, y + upward * near), (x, y + upward * far)))
    return made


def fold_lines(width: float, height: float, around: float) -> list[Stroke]:
    """A short line at the top and at the foot where a sheet with room `around` it is folded."""
    x, top = around + width / 2, height + 2 * around
    return [((x, 0.0), (x, FOLD_MARK)), ((x, top - FOLD_MARK), (x, top))]
