"""Floor 7: cuts from a strip at an angle. Parallelograms, diamonds, trapezoids, triangles, hexagons, kites."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from booklet.cutting.cutting_plan import Method
from booklet.cutting.demand import Want
from booklet.cutting.figures import Figure, Form, laid, mirrored
from booklet.cutting.marks import By, on_mark
from booklet.cutting.patches.cut_outlines import mitred
from booklet.cutting.patches.nesting import row_of
from booklet.cutting.ruler import Lay, Points, Rotary, Ruler, given_grain, singly
from booklet.cutting.sums import added
from booklet.kit.near import ONE_POINT
from booklet.kit.plane import Point, extent
from booklet.pattern import Direction
from booklet.words import listing


def parallelogram(want: Want, figure: Figure, way: float, ruler: Ruler) -> Rotary:
    """Strips as wide as the height and an allowance on each side, cut across at the figure's angle."""
    angle = math.radians(figure.angle or 90.0)
    other = figure.along[1] if way == figure.along[0] else figure.along[0]
    heights = {figure.along[0]: figure.sizes[1], figure.along[1]: figure.sizes[0] * math.sin(angle)}
    across, apart = heights[way], heights[other]
    exact = (across + 2 * ruler.s, apart + 2 * ruler.s)
    by, both = ruler.slanted(*exact)
    cut = (both[0], both[1])
    texts = [
        added(f, e, c, ruler.units, by) for f, e, c in zip((across, apart), exact, cut, strict=True)
    ]
    text = listing(dict.fromkeys(texts), "semicolons")
    seen = _as_cut(want, way)
    size = exact if by is By.TEMPLATE else (float(cut[0]), float(cut[1]))
    height, base = size[0], size[1] / math.sin(angle)
    lean = height / math.tan(angle)
    right = _leans_right(seen)
    shape: Points = (
        ((lean, 0.0), (lean + base, 0.0), (base, height), (0.0, height))
        if right
        else ((0.0, 0.0), (base, 0.0), (base + lean, height), (lean, height))
    )
    method = Method.DIAMOND if figure.form is Form.DIAMOND else Method.PARALLELOGRAM
    lays = _lays(want, shape, symmetric=figure.form is Form.DIAMOND)
    given = given_grain(want, way)
    return Rotary(method, cut, exact, 1, text, figure.angle, given, lays, by=by)


def _leans_right(points: Sequence[Point]) -> bool:
    """Whether the upper side of a parallelogram lies farther right than its lower side."""
    top = min(y for _, y in points)
    middle = sum(x for x, _ in points) / len(points)
    upper = [x for x, y in points if y < top + ONE_POINT]
    return sum(upper) / len(upper) > middle


_STRIP_METHODS = {
    Form.ISOSCELES: Method.TRIANGLE,
    Form.TRAPEZOID: Method.TRAPEZOID,
    Form.HEXAGON: Method.HEXAGON,
    Form.KITE: Method.KITE,
}


def from_strip(want: Want, figure: Figure, way: float, ruler: Ruler) -> Rotary:
    """Strips as wide as the piece with its allowance is high; the second figure is its longest line.

    All are cut with a template, which is exact: across a strip as high as they are, where the ruler shows that,
    else drawn round on a strip that is a little higher.
    """
    seen = _as_cut(want, way)
    finished = extent(seen)
    full = mitred(seen, ruler.s)
    exact = (extent(full)[1], extent(full)[0])
    cut_height = on_mark(exact[0], ruler.step) or ruler.up(exact[0])
    scale = float(cut_height) / exact[0]
    cut = (cut_height, ruler.up(exact[1] * scale))
    texts = [
        added(finished[1], exact[0], cut[0], ruler.units),
        added(finished[0], exact[1], cut[1], ruler.units),
    ]
    shape = laid(full, 90.0)
    symmetric = not (want.reversed and figure.form is Form.TRAPEZOID)
    lays = _lays(want, shape, symmetric)
    if figure.form is Form.TRAPEZOID:
        wider = float(cut[1]) - exact[1] * scale
        lays = tuple(
            replace(lay, rows=tuple(row.widened(wider) for row in lay.rows)) for lay in lays
        )
    method, given = _STRIP_METHODS[figure.form], given_grain(want, way)
    text = listing(texts, "semicolons")
    return Rotary(method, cut, exact, 1, text, figure.angle, given, lays, by=By.TEMPLATE)


def _as_cut(want: Want, way: float) -> Points:
    """The seam outline with `way` along the strip."""
    if want.laid is not None:
        return want.laid
    return laid(want.patch.outline.points, way)


def _lays(want: Want, shape: Points, symmetric: bool) -> tuple[Lay, ...]:
    """The rows of a shape, and of its mirror image for reversed pieces that are not like the others."""
    turns = want.fabric.direction is not Direction.ONE_WAY
    if want.laid is not None:
        return (singly(want.pieces, (row_of(shape, turns),), want.reversed > 0),)
    back = 0 if symmetric else want.reversed
    lays = [(want.pieces - back, shape, False), (back, mirrored(shape), True)]
    return tuple(singly(n, (row_of(points, turns),), is_back) for n, points, is_back in lays if n)
