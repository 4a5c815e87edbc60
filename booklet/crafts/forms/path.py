"""The outline drawn freely with curves: cut by template."""

from __future__ import annotations

import math

from booklet.crafts.figure import FlatOutline, Points
from booklet.crafts.form import Form, Seen
from booklet.crafts.measures import OUTLINE
from booklet.kit.outlines.near import DRAWN, SAME_ANGLE
from booklet.kit.outlines.plane import mean, turning
from booklet.kit.words import phrase

_CURVED = phrase("curved patch", context="patch")


def recognise(figure: FlatOutline, _: float | None) -> Seen | None:
    """A curved side; the grain runs along the longest straight one, where there is one."""
    straight = [i for i, line in enumerate(figure.lines) if len(line) == 2]
    if not figure.lines:
        return None
    if not straight:
        return Seen(phrase("circle", context="patch") if _is_circle(figure) else _CURVED, 0)
    longest = max(straight, key=lambda i: round(math.dist(*figure.lines[i]), 6))
    quarter = len(straight) == 2 and len(figure.lines) == 3 and _is_quarter(figure.lines)
    return Seen(phrase("quarter circle", context="patch") if quarter else _CURVED, longest)


def _is_circle(figure: FlatOutline) -> bool:
    """Whether all points lie as far from their middle."""
    points = [point for line in figure.lines for point in line[:-1]]
    centre = mean(points)
    radii = [math.dist(centre, point) for point in points]
    return max(radii) - min(radii) <= DRAWN


def _is_quarter(lines: tuple[Points, ...]) -> bool:
    """Whether the two straight sides are radii of the curve at a right angle."""
    curve = next(n for n, line in enumerate(lines) if len(line) > 2)
    after = lines[(curve + 1) % 3]
    centre = after[-1]
    radii = [math.dist(centre, point) for point in lines[curve]]
    right = abs(abs(turning(after[0], centre, lines[curve][0])) - 90) <= SAME_ANGLE
    return right and max(radii) - min(radii) <= DRAWN


FORM = Form(
    word="path",
    rank=170,
    must=(OUTLINE,),
    recognise=recognise,
    written="{shape: path, outline: M 0 0 L 4 0 A 4 4 0 0 1 0 4 Z}",
)
