"""Floor 7: cuts from squares and rectangles. Triangles from corner to corner, octagons with their corners off."""

from __future__ import annotations

import math

from booklet.cutting.cutting_plan import Method
from booklet.cutting.demand import Want, on_grain
from booklet.cutting.figures import (
    Figure,
    Form,
    extent,
    same_angle,
)
from booklet.cutting.methods import (
    half_rectangle,
    half_square,
    quarter_square,
    straight_addition,
)
from booklet.cutting.ruler import Lay, Rotary, Ruler, box_rows, given_grain
from booklet.cutting.sums import added, say
from booklet.measure import ZERO
from booklet.pattern import Direction
from booklet.words import Digits, listing, phrase


def rectangle(want: Want, figure: Figure, way: float, ruler: Ruler) -> Rotary:
    """Squares and rectangles."""
    finished = figure.sizes
    if want.laid is not None:
        finished = extent(want.laid)
    more = float(straight_addition(ruler.allowance))
    exact = (finished[0] + more, finished[1] + more)
    cut = (ruler.up(exact[0]), ruler.up(exact[1]))
    square = figure.form is Form.SQUARE
    text = added(finished[0], exact[0], cut[0], ruler.units)
    if not square:
        text = listing((text, added(finished[1], exact[1], cut[1], ruler.units)), "semicolons")
    rows = box_rows(float(cut[0]), float(cut[1]), want.laid is None)
    method = Method.SQUARE if square else Method.RECTANGLE
    lays = (Lay(want.pieces, rows),)
    return Rotary(method, cut, exact, 1, text, None, given_grain(want, way), lays)


def right_isosceles(want: Want, figure: Figure, ruler: Ruler) -> Rotary | None:
    """Half- or quarter-square triangles, whichever keeps the grain; None where neither does."""
    leg = figure.sizes[0]
    leg_way = figure.along[0]
    long_way = (leg_way + 45) % 90
    if want.laid is not None:
        half, quarter = same_angle(leg_way, 0, 90), same_angle(long_way, 0, 90)
    elif want.wished:
        half, quarter = on_grain(leg_way, want.grain), on_grain(long_way, want.grain)
    else:
        quarter = on_grain(long_way, want.grain)
        half = not quarter
    if not (half or quarter):
        return None
    per_cut = 4 if quarter else 2
    finished = leg * math.sqrt(2) if quarter else leg
    square = quarter_square if quarter else half_square
    exact = square(finished, ruler.allowance, ruler.trim)
    cut = ruler.up(exact)
    text = added(finished, exact, cut, ruler.units)
    if ruler.trim > ZERO:
        text = phrase(
            "{sum}, {trim} of it to trim off the sewn unit",
            sum=text,
            trim=Digits(say(ruler.trim.inches, ruler.units)),
        )
    cuts = -(-want.pieces // _alike(want, per_cut))
    lays = (Lay(cuts, box_rows(float(cut), float(cut), False)),)
    method = Method.QUARTER_SQUARE if quarter else Method.HALF_SQUARE
    given = given_grain(want, long_way if quarter else leg_way)
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


def half_rectangle_cut(want: Want, figure: Figure, way: float, ruler: Ruler) -> Rotary:
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
    text = listing(sums, "semicolons")
    given = given_grain(want, way)
    shares = None if want.laid is None else f"{_diagonal(figure)} {cut[0]} {cut[1]}"
    lays = (Lay(cuts, rows),)
    return Rotary(Method.HALF_RECTANGLE, cut, exact, 2, text, None, given, lays, shares)


def octagon(want: Want, figure: Figure, way: float, ruler: Ruler) -> Rotary:
    """Octagons from squares: the corners are cut off afterwards."""
    across = figure.sizes[0] * (1 + math.sqrt(2))
    exact = across + 2 * ruler.s
    cut = ruler.up(exact)
    text = added(across, exact, cut, ruler.units)
    lays = (Lay(want.pieces, box_rows(float(cut), float(cut), False)),)
    return Rotary(
        Method.OCTAGON, (cut, cut), (exact, exact), 1, text, 45.0, given_grain(want, way), lays
    )
