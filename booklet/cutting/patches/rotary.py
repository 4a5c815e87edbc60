"""Floor 7: how one want is cut. The method that its form and its grain allow; else a template."""

from __future__ import annotations

from booklet.cutting.cutting_plan import CutOutline, Method
from booklet.cutting.demand import Want, on_grain
from booklet.cutting.figures import Figure, Form, laid, mirrored, recognise
from booklet.cutting.marks import By
from booklet.cutting.patches.cut_outlines import grown
from booklet.cutting.patches.nesting import row_of
from booklet.cutting.patches.square_cuts import (
    half_rectangle_cut,
    octagon,
    rectangle,
    right_isosceles,
)
from booklet.cutting.patches.strip_cuts import from_strip, parallelogram
from booklet.cutting.ruler import Rotary, Ruler, singly
from booklet.cutting.sums import by_template
from booklet.kit.alike import same_angle
from booklet.kit.plane import extent
from booklet.pattern import Direction


def rotary(want: Want, outline: CutOutline, ruler: Ruler) -> Rotary:
    """The method for a want: from its form and its grain; a template where no method keeps the grain."""
    points = want.laid or want.patch.outline.points
    figure = recognise(points, not want.patch.outline.is_curved)
    ways = _ways(want, figure)
    if want.patch.motif:
        return template(want, outline, ruler, Method.FUSSY)
    if not ways and figure.form is not Form.RIGHT_ISOSCELES:
        return template(want, outline, ruler)
    match figure.form:
        case Form.SQUARE | Form.RECTANGLE:
            return rectangle(want, figure, ways[0], ruler)
        case Form.RIGHT_ISOSCELES:
            return right_isosceles(want, figure, ruler) or template(want, outline, ruler)
        case Form.RIGHT_TRIANGLE:
            return half_rectangle_cut(want, figure, ways[0], ruler)
        case Form.OCTAGON:
            return octagon(want, figure, ways[0], ruler)
        case Form.DIAMOND | Form.PARALLELOGRAM:
            return parallelogram(want, figure, ways[0], ruler)
        case Form.ISOSCELES | Form.TRAPEZOID | Form.HEXAGON | Form.KITE:
            return from_strip(want, figure, ways[0], ruler)
    return template(want, outline, ruler)


def _ways(want: Want, figure: Figure) -> list[float]:
    """The directions of the figure that may lie along a strip, the best first."""
    if want.laid is not None:
        full = 90 if figure.form in _SQUARE_CUT else 180
        return [d for d in figure.along if same_angle(d, 90, full)]
    if want.wished:
        return [d for d in figure.along if on_grain(d, want.grain)]
    return list(figure.along)


_SQUARE_CUT = (Form.SQUARE, Form.RECTANGLE, Form.RIGHT_TRIANGLE, Form.OCTAGON)


def template(
    want: Want, outline: CutOutline, ruler: Ruler, method: Method = Method.TEMPLATE
) -> Rotary:
    """Cut around a template laid with its grain arrow along the cloth or across it."""
    if want.laid is not None:
        shapes = [laid(grown(want.laid, ruler.s)[0], 90.0)]
    else:
        shapes = [laid(outline.cut, want.grain + quarter) for quarter in (90.0, 0.0)]
    width, height = extent(shapes[0])
    cut = (ruler.up(width), ruler.up(height))
    plain = want.pieces - (0 if want.laid is not None else want.reversed)
    turns = want.fabric.direction is not Direction.ONE_WAY
    back = want.laid is not None and want.reversed > 0
    rows = tuple(row_of(shape, turns) for shape in shapes)
    lays = [singly(plain, rows, back)] if plain else []
    if want.pieces - plain:
        rows = tuple(row_of(mirrored(shape), turns) for shape in shapes)
        lays.append(singly(want.pieces - plain, rows, True))
    text = by_template(width, height, ruler.units)
    return Rotary(
        method, cut, (width, height), 1, text, None, want.grain, tuple(lays), by=By.TEMPLATE
    )
