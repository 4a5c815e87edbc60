"""Floor 11, smooth outlines: curves for a machine that cuts, from the points they are held as.

The geometry holds a curve as evenly spaced points of it, joined by chords up to 1/20 mm off. Here points
are put between them that lie on the curve itself: on the circle through them if there is one, else on the
cubic through the four nearest, which for quadratic and cubic Bezier curves is the curve exactly.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from booklet.cutting.cutting_plan import CutOutline
from booklet.cutting.patches.cut_outlines import cut_outline
from booklet.geometry.tiling import Outline, Side
from booklet.kit.measure import INCH_MM
from booklet.kit.outlines.near import NOISE
from booklet.kit.outlines.plane import Point, circle_through
from booklet.kit.records import replace

STRAY = 0.002 / INCH_MM  # inches between the curve and the new chords, at most


def smooth(outline: CutOutline) -> CutOutline:
    """The outline with its curves drawn finely, seam line and cutting line; straight ones as they are."""
    if not outline.seam.is_curved:
        return outline
    fine = cut_outline(smooth_seam(outline.seam), outline.allowance)
    return fine if outline.points else replace(fine, points=())


def smooth_seam(outline: Outline) -> Outline:
    """The outline with more points along its curved sides."""
    return Outline(tuple(_side(side) if side.via else side for side in outline.sides))


def _side(side: Side) -> Side:
    points = side.points
    circle = circle_through(points)
    if circle is not None:
        return Side(side.start, side.end, _on_circle(points, *circle))
    return Side(side.start, side.end, _on_cubics(points))


def _on_circle(points: Sequence[Point], centre: Point, radius: float) -> tuple[Point, ...]:
    """The points with others between them on the circle."""
    made: list[Point] = []
    for a, b in itertools.pairwise(points):
        start = math.atan2(a[1] - centre[1], a[0] - centre[0])
        turn = math.atan2(b[1] - centre[1], b[0] - centre[0]) - start
        turn = (turn + math.pi) % (2 * math.pi) - math.pi
        parts = _parts(radius * (1 - math.cos(turn / 2)))
        for k in range(1, parts):
            angle = start + turn * k / parts
            made.append(
                (centre[0] + radius * math.cos(angle), centre[1] + radius * math.sin(angle))
            )
        made.append(b)
    return tuple(made[:-1])


def _on_cubics(points: Sequence[Point]) -> tuple[Point, ...]:
    """The points with others between them on the cubic through the four nearest."""
    made: list[Point] = []
    for i in range(len(points) - 1):
        first = min(max(i - 1, 0), max(len(points) - 4, 0))
        near = points[first : first + 4]
        halfway = _cubic(near, i + 0.5 - first)
        chord = (
            (points[i][0] + points[i + 1][0]) / 2,
            (points[i][1] + points[i + 1][1]) / 2,
        )
        parts = _parts(math.dist(halfway, chord))
        made += [_cubic(near, i + k / parts - first) for k in range(1, parts)]
        made.append(points[i + 1])
    return tuple(made[:-1])


def _cubic(points: Sequence[Point], t: float) -> Point:
    """The value at `t` of the polynomial that has point k at k (Lagrange)."""
    x = y = 0.0
    for k, point in enumerate(points):
        share = math.prod((t - j) / (k - j) for j in range(len(points)) if j != k)
        x, y = x + share * point[0], y + share * point[1]
    return x, y


def _parts(sagitta: float) -> int:
    """Into how many parts a chord is split: n parts stray 1/n² as far from the curve."""
    return max(1, math.ceil(math.sqrt(sagitta / STRAY) - NOISE))
