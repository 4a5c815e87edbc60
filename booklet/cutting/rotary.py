"""Floor 7: how one want is cut. The method, the figures on the ruler with their sum, and the rows that the
cuts form in a strip."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from booklet.cutting.cutting_plan import CutOutline, Method
from booklet.cutting.demand import Want, on_grain
from booklet.cutting.figures import (
    Figure,
    Form,
    extent,
    laid,
    mirrored,
    recognise,
    same_angle,
)
from booklet.cutting.methods import (
    half_rectangle,
    half_square_addition,
    quarter_square_addition,
    up,
)
from booklet.cutting.nesting import Row, row_of
from booklet.cutting.outlines import mitred
from booklet.cutting.sums import added, by_template
from booklet.geometry.plane import offset
from booklet.geometry.tiling import Point
from booklet.measure import EIGHTH, MILLIMETRE, Length, UnitSystem
from booklet.pattern import Direction

Points = tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Ruler:
    """What the figures are printed in: the allowance, the units, the step they are rounded up to."""

    allowance: Length
    units: UnitSystem

    @property
    def s(self) -> float:
        """The allowance in inches."""
        return float(self.allowance)

    @property
    def step(self) -> Fraction:
        """1/8 in, or 1 mm in patterns in centimetres."""
        return EIGHTH if self.units == "inch" else MILLIMETRE

    def up(self, value: float) -> Length:
        """A figure rounded up to the step."""
        return up(value, self.step)


@dataclass(frozen=True, slots=True)
class Lay:
    """Cuts that lie in rows alike: how many, and the rows they may form (one for each way of lying)."""

    cuts: int
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class Rotary:
    """How a want is cut; the fields are those of a CutPatch. `grain` in the patch's frame."""

    method: Method
    cut: tuple[Length, Length]
    exact: tuple[float, float]
    per_cut: int
    sum: str
    angle: float | None
    grain: float
    lays: tuple[Lay, ...]
    shares: str | None = None  # wants of one letter that say the same here come from the same cuts

    @property
    def cuts(self) -> int:
        """How many of the cut figures it takes."""
        return sum(lay.cuts for lay in self.lays)


def rotary(want: Want, outline: CutOutline, ruler: Ruler) -> Rotary:
    """The method for a want: from its form and its grain; a template where no method keeps the grain."""
    points = want.laid or want.patch.outline.points
    figure = recognise(points, not want.patch.outline.is_curved)
    ways = _ways(want, figure)
    if want.patch.motif:
        return _template(want, outline, ruler, Method.FUSSY)
    if not ways and figure.form is not Form.RIGHT_ISOSCELES:
        return _template(want, outline, ruler)
    match figure.form:
        case Form.SQUARE | Form.RECTANGLE:
            return _rectangle(want, figure, ways[0], ruler)
        case Form.RIGHT_ISOSCELES:
            return _right_isosceles(want, figure, ruler) or _template(want, outline, ruler)
        case Form.RIGHT_TRIANGLE:
            return _half_rectangle(want, figure, ways[0], ruler)
        case Form.OCTAGON:
            return _octagon(want, figure, ways[0], ruler)
        case Form.DIAMOND | Form.PARALLELOGRAM:
            return _parallelogram(want, figure, ways[0], ruler)
        case Form.ISOSCELES | Form.TRAPEZOID | Form.HEXAGON | Form.KITE:
            return _from_strip(want, figure, ways[0], ruler)
    return _template(want, outline, ruler)


def _ways(want: Want, figure: Figure) -> list[float]:
    """The directions of the figure that may lie along a strip, the best first."""
    if want.laid is not None:
        full = 90 if figure.form in _SQUARE_CUT else 180
        return [d for d in figure.along if same_angle(d, 90, full)]
    if want.wished:
        return [d for d in figure.along if on_grain(d, want.grain)]
    return list(figure.along)


_SQUARE_CUT = (Form.SQUARE, Form.RECTANGLE, Form.RIGHT_TRIANGLE, Form.OCTAGON)


def _box(width: float, height: float) -> Points:
    return ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))


def box_rows(width: float, height: float, may_turn: bool) -> tuple[Row, ...]:
    """The rows of a rectangle: lying, and standing where it may be turned."""
    rows = [row_of(_box(width, height), False)]
    if may_turn and abs(width - height) > 1e-9:
        rows.append(row_of(_box(height, width), False))
    return tuple(rows)


def _grain(want: Want, way: float) -> float:
    """The grain that the method gives, in the patch's frame: what was asked for, else along the strip."""
    return want.grain if want.wished or want.laid is not None else way % 180


def _rectangle(want: Want, figure: Figure, way: float, ruler: Ruler) -> Rotary:
    finished = figure.sizes
    if want.laid is not None:
        finished = extent(want.laid)
    exact = (finished[0] + 2 * ruler.s, finished[1] + 2 * ruler.s)
    cut = (ruler.up(exact[0]), ruler.up(exact[1]))
    square = figure.form is Form.SQUARE
    text = added(finished[0], exact[0], cut[0], ruler.units)
    if not square:
        text = f"{text}; {added(finished[1], exact[1], cut[1], ruler.units)}"
    rows = box_rows(float(cut[0]), float(cut[1]), want.laid is None)
    method = Method.SQUARE if square else Method.RECTANGLE
    lays = (Lay(want.pieces, rows),)
    return Rotary(method, cut, exact, 1, text, None, _grain(want, way), lays)


def _right_isosceles(want: Want, figure: Figure, ruler: Ruler) -> Rotary | None:
    """Half- or quarter-square triangles, whichever keeps the grain; None where neither does."""
    leg = figure.sizes[0]
    leg_way = figure.along[0]
    long_way = (leg_way + 45) % 90
    if want.laid is not None:
        half, quarter = same_angle(leg_way, 0, 90), same_angle(long_way, 0, 90)
    elif want.wished:
        half, quarter = on_grain(leg_way, want.grain), on_grain(long_way, want.grain)
    else:
        quarter = want.quarter if want.quarter is not None else on_grain(long_way, want.grain)
        half = not quarter
    if not (half or quarter):
        return None
    per_cut = 4 if quarter else 2
    finished = leg * math.sqrt(2) if quarter else leg
    addition = quarter_square_addition if quarter else half_square_addition
    exact = finished + addition(ruler.allowance)
    cut = ruler.up(exact)
    text = added(finished, exact, cut, ruler.units)
    cuts = -(-want.pieces // _alike(want, per_cut))
    lays = (Lay(cuts, box_rows(float(cut), float(cut), False)),)
    method = Method.QUARTER_SQUARE if quarter else Method.HALF_SQUARE
    given = _grain(want, long_way if quarter else leg_way)
    shares = None if want.laid is None else "quarters" if quarter else _diagonal(figure)
    return Rotary(method, (cut, cut), (exact, exact), per_cut, text, None, given, lays, shares)


def _alike(want: Want, per_cut: int) -> int:
    """How many of the triangles of one cut lie alike: of a print with an up one, of stripes two."""
    match want.fabric.direction:
        case Direction.ONE_WAY:
            return 1
        case Direction.STRIPE:
            return 2
    return per_cut


def _diagonal(figure: Figure) -> str:
    """The way the cut from corner to corner runs: rising or falling to the right."""
    corners = figure.corners
    sides = list(zip(corners, (*corners[1:], corners[0]), strict=True))
    (ax, ay), (bx, by) = max(sides, key=lambda s: math.dist(*s))
    return "falling" if (bx - ax) * (by - ay) > 0 else "rising"


def _half_rectangle(want: Want, figure: Figure, way: float, ruler: Ruler) -> Rotary:
    """Rectangles cut once from corner to corner; mirrored ones need the other diagonal."""
    finished = figure.sizes
    if want.laid is not None:
        finished = extent(want.laid)
    exact = half_rectangle(finished[0], finished[1], ruler.s)
    cut = (ruler.up(exact[0]), ruler.up(exact[1]))
    sums = (added(f, e, c, ruler.units) for f, e, c in zip(finished, exact, cut, strict=True))
    plain = want.pieces - want.reversed
    cuts = -(-plain // 2) + -(-want.reversed // 2)
    if want.laid is not None:
        cuts = -(-want.pieces // _alike(want, 2))
    rows = box_rows(float(cut[0]), float(cut[1]), want.laid is None)
    text = "; ".join(sums)
    given = _grain(want, way)
    shares = None if want.laid is None else f"{_diagonal(figure)} {cut[0]} {cut[1]}"
    lays = (Lay(cuts, rows),)
    return Rotary(Method.HALF_RECTANGLE, cut, exact, 2, text, None, given, lays, shares)


def _octagon(want: Want, figure: Figure, way: float, ruler: Ruler) -> Rotary:
    """Octagons from squares: the corners are cut off afterwards."""
    across = figure.sizes[0] * (1 + math.sqrt(2))
    exact = across + 2 * ruler.s
    cut = ruler.up(exact)
    text = added(across, exact, cut, ruler.units)
    lays = (Lay(want.pieces, box_rows(float(cut), float(cut), False)),)
    return Rotary(
        Method.OCTAGON, (cut, cut), (exact, exact), 1, text, 45.0, _grain(want, way), lays
    )


def _parallelogram(want: Want, figure: Figure, way: float, ruler: Ruler) -> Rotary:
    """Strips as wide as the height and an allowance on each side, cut across at the figure's angle."""
    angle = math.radians(figure.angle or 90.0)
    other = figure.along[1] if way == figure.along[0] else figure.along[0]
    heights = {figure.along[0]: figure.sizes[1], figure.along[1]: figure.sizes[0] * math.sin(angle)}
    across, apart = heights[way], heights[other]
    exact = (across + 2 * ruler.s, apart + 2 * ruler.s)
    cut = (ruler.up(exact[0]), ruler.up(exact[1]))
    texts = [
        added(f, e, c, ruler.units) for f, e, c in zip((across, apart), exact, cut, strict=True)
    ]
    text = "; ".join(dict.fromkeys(texts))
    seen = _as_cut(want, way)
    height, base = float(cut[0]), float(cut[1]) / math.sin(angle)
    lean = height / math.tan(angle)
    right = _leans_right(seen)
    shape: Points = (
        ((lean, 0.0), (lean + base, 0.0), (base, height), (0.0, height))
        if right
        else ((0.0, 0.0), (base, 0.0), (base + lean, height), (lean, height))
    )
    method = Method.DIAMOND if figure.form is Form.DIAMOND else Method.PARALLELOGRAM
    lays = _lays(want, shape, symmetric=figure.form is Form.DIAMOND)
    given = _grain(want, way)
    return Rotary(method, cut, exact, 1, text, figure.angle, given, lays)


def _leans_right(points: Sequence[Point]) -> bool:
    """Whether the upper side of a parallelogram lies farther right than its lower side."""
    top = min(y for _, y in points)
    middle = sum(x for x, _ in points) / len(points)
    upper = [x for x, y in points if y < top + 1e-6]
    return sum(upper) / len(upper) > middle


_STRIP_METHODS = {
    Form.ISOSCELES: Method.TRIANGLE,
    Form.TRAPEZOID: Method.TRAPEZOID,
    Form.HEXAGON: Method.HEXAGON,
    Form.KITE: Method.KITE,
}


def _from_strip(want: Want, figure: Figure, way: float, ruler: Ruler) -> Rotary:
    """Strips as wide as the piece with its allowance is high; the second figure is its longest line.

    The outline grows with the strip width, which is rounded up, so that it never falls short.
    """
    seen = _as_cut(want, way)
    finished = extent(seen)
    full = mitred(seen, ruler.s)
    exact = (extent(full)[1], extent(full)[0])
    cut_height = ruler.up(exact[0])
    scale = float(cut_height) / exact[0]
    cut = (cut_height, ruler.up(exact[1] * scale))
    texts = [
        added(finished[1], exact[0], cut[0], ruler.units),
        added(finished[0], exact[1], cut[1], ruler.units),
    ]
    shape = laid([(x * scale, y * scale) for x, y in full], 90.0)
    symmetric = not (want.reversed and figure.form is Form.TRAPEZOID)
    lays = _lays(want, shape, symmetric)
    if figure.form is Form.TRAPEZOID:
        wider = float(cut[1]) - exact[1] * scale
        lays = tuple(replace(lay, rows=tuple(_spread(r, wider) for r in lay.rows)) for lay in lays)
    method, given = _STRIP_METHODS[figure.form], _grain(want, way)
    return Rotary(method, cut, exact, 1, "; ".join(texts), figure.angle, given, lays)


def _spread(row: Row, wider: float) -> Row:
    """The row of pieces that are each cut `wider` than their outline."""
    return replace(row, pitches=tuple(p + wider for p in row.pitches), width=row.width + wider)


def _template(
    want: Want, outline: CutOutline, ruler: Ruler, method: Method = Method.TEMPLATE
) -> Rotary:
    """Cut around a template laid with its grain arrow along the cloth or across it."""
    if want.laid is not None:
        shapes = [laid(offset(want.laid, ruler.s), 90.0)]
    else:
        shapes = [laid(outline.cut, want.grain + quarter) for quarter in (90.0, 0.0)]
    width, height = extent(shapes[0])
    cut = (ruler.up(width), ruler.up(height))
    plain = want.pieces - (0 if want.laid is not None else want.reversed)
    turns = want.fabric.direction is not Direction.ONE_WAY
    lays = [Lay(plain, tuple(row_of(shape, turns) for shape in shapes))] if plain else []
    if want.pieces - plain:
        rows = tuple(row_of(mirrored(shape), turns) for shape in shapes)
        lays.append(Lay(want.pieces - plain, rows))
    text = by_template(width, height, ruler.units)
    return Rotary(method, cut, (width, height), 1, text, None, want.grain, tuple(lays))


def _as_cut(want: Want, way: float) -> Points:
    """The seam outline with `way` along the strip."""
    if want.laid is not None:
        return want.laid
    return laid(want.patch.outline.points, way)


def _lays(want: Want, shape: Points, symmetric: bool) -> tuple[Lay, ...]:
    """The rows of a shape, and of its mirror image for reversed pieces that are not like the others."""
    turns = want.fabric.direction is not Direction.ONE_WAY
    back = 0 if symmetric or want.laid is not None else want.reversed
    lays = [(want.pieces - back, shape), (back, mirrored(shape))]
    return tuple(Lay(count, (row_of(points, turns),)) for count, points in lays if count)
