"""Floor 10: the strokes of signs: what no label may lie on."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.drawing.scene import Mark, Sign
from booklet.kit.outlines.plane import (
    Box,
    Point,
    bearing,
    direction,
    plus,
    right_of,
    to_segment,
    vector,
)
from booklet.kit.outlines.polygon import crosses

NEEDLE_LENGTH = 8.0  # mm
DOTS = (Mark.DOT, Mark.SMALL, Mark.STOP, Mark.OPEN, Mark.THROUGH)


def sign_strokes(sign: Sign) -> tuple[tuple[Point, Point], ...]:
    """The strokes of a sign, as svg.py draws them; a dot has none."""
    along = vector(sign.angle)
    across = right_of(along)
    match sign.mark:
        case Mark.OPENED:
            ways = (vector(sign.angle - 20), vector(sign.angle + 20))
            return tuple((plus(sign.at, way, 0.9), plus(sign.at, way, 4.2)) for way in ways)
        case Mark.CLIP:
            fork = plus(sign.at, along, 2.9)
            tips = [plus(fork, vector(sign.angle + aside), 1.5) for aside in (-30, 30)]
            return ((plus(sign.at, along, 0.9), fork), *((fork, tip) for tip in tips))
        case Mark.NEEDLE:
            return ((sign.at, plus(sign.at, along, -NEEDLE_LENGTH)),)
        case Mark.STOP | Mark.MIDDLE:
            return ((plus(sign.at, across, -1.6), plus(sign.at, across, 1.6)),)
        case Mark.BACKSTITCH:
            ends = [plus(plus(sign.at, along, far), across, 1.25) for far in (0.5, 3.2)]
            return ((ends[0], ends[1]),)
    return ()


def needle_at(
    start: Point,
    then: Point,
    strokes: Sequence[tuple[Point, Point]],
    dots: Sequence[Point],
    room: Box,
) -> Sign:
    """A needle with its tip at the start of a seam, behind its beginning or, where that is taken, at the
    nearest angle that is free."""
    ahead = bearing(direction(start, then))
    best = min(
        (
            abs(aside) / 20 + _in_the_way(start, ahead + aside, strokes, dots, room),
            abs(aside),
            aside,
        )
        for aside in range(-120, 121, 20)
    )
    return Sign(start, Mark.NEEDLE, ahead + best[2])


def _in_the_way(
    start: Point,
    angle: float,
    strokes: Sequence[tuple[Point, Point]],
    dots: Sequence[Point],
    room: Box,
) -> float:
    """How much a needle at an angle covers: 10 for each stroke or dot, 20 for leaving the picture."""
    way = vector(angle)
    tip, eye = plus(start, way, -1.3), plus(start, way, -NEEDLE_LENGTH)
    covered = sum(
        crosses(tip, eye, a, b)
        or min(to_segment(p, a, b) for p in (eye, plus(start, way, -4.0))) < 1.3
        for a, b in strokes
    )
    covered += sum(to_segment(p, tip, eye) < 1.6 for p in dots if p != start)
    left, top, right, bottom = room
    out = not (left + 0.3 < eye[0] < right - 0.3 and top + 0.3 < eye[1] < bottom - 0.3)
    return 10.0 * covered + 20.0 * out
