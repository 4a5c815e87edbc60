"""Floor 6: ragged rims. The straight-sided top that can be trimmed from one whose edge goes in and out."""

from __future__ import annotations

from booklet.kit.outlines.near import NO_LENGTH
from booklet.kit.outlines.plane import Frame, Point, frame_of
from booklet.kit.outlines.polygon import edges

LEAST = 1 / 16  # inches: a narrower rest is no top
Segment = tuple[Point, Point]


def inner_rectangle(rim: tuple[Point, ...]) -> Frame | None:
    """An upright rectangle inside a closed outline that touches its notches, None if there is none.

    Each side is moved in to the deepest notch of its own rim, judged first over the middle half of the
    top and then over the whole side. Cloth beyond a notch is its block's allowance, so the trimmed
    edge has a full seam allowance everywhere.
    """
    box = frame_of(rim)
    middle = box.left + box.width / 2, box.top + box.height / 2
    upright = tuple(edges(rim))
    level = tuple((_swap(a), _swap(b)) for a, b in upright)
    top, bottom = middle[1] - box.height / 4, middle[1] + box.height / 4
    left, right = middle
    for _ in range(len(rim)):
        before = (left, right, top, bottom)
        left, right = _between(upright, middle[0], top, bottom)
        top, bottom = _between(level, middle[1], left, right)
        if (
            max(abs(a - b) for a, b in zip(before, (left, right, top, bottom), strict=True))
            < NO_LENGTH
        ):
            break
    left, right = _between(
        upright, middle[0], top, bottom
    )  # never beyond a notch of the last round
    if min(right - left, bottom - top) < LEAST:
        return None
    return Frame(left, top, right - left, bottom - top)


def _swap(point: Point) -> Point:
    return point[1], point[0]


def _between(
    segments: tuple[Segment, ...], middle: float, low: float, high: float
) -> tuple[float, float]:
    """How far left and right of `middle` is free of the rim, over all heights from low to high."""
    left, right = float("-inf"), float("inf")
    for a, b in segments:
        reach = _clipped(a, b, low + NO_LENGTH, high - NO_LENGTH)
        for x in reach:
            if x <= middle:
                left = max(left, x)
            else:
                right = min(right, x)
    return left, right


def _clipped(a: Point, b: Point, low: float, high: float) -> tuple[float, ...]:
    """The x at both ends of the part of a segment between two heights; nothing if it is outside."""
    if max(a[1], b[1]) < low or min(a[1], b[1]) > high:
        return ()
    if abs(a[1] - b[1]) < NO_LENGTH:
        return a[0], b[0]
    ends = []
    for y in (min(max(a[1], low), high), min(max(b[1], low), high)):
        share = (y - a[1]) / (b[1] - a[1])
        ends.append(a[0] + share * (b[0] - a[0]))
    return tuple(ends)
