"""Floor 10: where strips are joined to a part that is longer than the cloth is wide."""

from __future__ import annotations

from booklet.kit.outlines.near import ONE_POINT
from booklet.kit.outlines.plane import Point, box_of
from booklet.kit.outlines.polygon import half_plane
from booklet.plan import SizePlan
from booklet.plan.cuts.joined import joins_at
from booklet.quilt.sized import Part


def join_lines(size: SizePlan, part: Part) -> list[tuple[Point, Point]]:
    """The seams across the pieces of a part, in inches where they lie in the top; none of one cut whole."""
    made = size.cutting.joined(part.name)
    if made is None:
        return []
    join, pieces = made
    lines = []
    for place, piece in zip(part.places, pieces, strict=False):
        beyond = (
            float(piece.length) - _long(place)
        ) / 2  # cut beyond the finished part at either end
        for at in joins_at(piece, join.loss):
            lines += _across(place, float(at) - beyond)
    return lines


def _long(place: tuple[Point, ...]) -> float:
    left, top, right, bottom = box_of(place)
    return max(right - left, bottom - top)


def _across(place: tuple[Point, ...], at: float) -> list[tuple[Point, Point]]:
    """The line right across a convex place, so far from its left or upper end."""
    left, top, right, bottom = box_of(place)
    level = right - left >= bottom - top
    start, inward = ((left + at, top), (1.0, 0.0)) if level else ((left, top + at), (0.0, 1.0))
    rest = half_plane(place, start, inward)
    k = 0 if level else 1
    on = sorted(p for p in rest if abs(p[k] - start[k]) < ONE_POINT)
    return [(on[0], on[-1])] if len(on) > 1 else []
