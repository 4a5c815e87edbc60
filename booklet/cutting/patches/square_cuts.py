"""Floor 7: cuts from squares and rectangles. Triangles from corner to corner, octagons with their corners off."""

from __future__ import annotations

import math

from booklet.cutting.cutting_plan import Method
from booklet.cutting.demand import Want, on_grain
from booklet.cutting.figures import Figure, Form, laid
from booklet.cutting.marks import Grown
from booklet.cutting.patches.rotary_sums import (
    half_rectangle,
    half_square,
    quarter_square,
    straight_addition,
)
from booklet.cutting.patches.wedges import TURNS, Wedge, wedge_of
from booklet.cutting.ruler import Rotary, Ruler, box_rows, given_grain, singly, wedge_lays
from booklet.cutting.sums import added, say
from booklet.kit.alike import same_angle
from booklet.kit.plane import extent
from booklet.measure import ZERO
from booklet.words import Digits, listing, phrase


def rectangle(want: Want, figure: Figure, way: float, ruler: Ruler) -> Rotary:
    """Squares and rectangles."""
    finished = figure.sizes
    if want.laid is not None:
        finished = extent(want.laid)
    more = float(straight_addition(ruler.allowance))
    exact = (finished[0] + more, finished[1] + more)
    by, cut = ruler.straight(*exact)
    square = figure.form is Form.SQUARE
    text = added(finished[0], exact[0], cut[0], ruler.units, by)
    if not square:
        text = listing((text, added(finished[1], exact[1], cut[1], ruler.units, by)), "semicolons")
    rows = box_rows(float(cut[0]), float(cut[1]), want.laid is None)
    method = Method.SQUARE if square else Method.RECTANGLE
    lays = (singly(want.pieces, rows),)
    both = (cut[0], cut[1])
    return Rotary(method, both, exact, 1, text, None, given_grain(want, way), lays, by=by)


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
    letter, margin = want.patch.letter, ruler.margin(want.patch.letter)
    exact = square(finished, ruler.allowance, margin)

    def grows(more: tuple[float, ...]) -> Grown:
        each = (more[0] + float(margin)) / finished
        return tuple((side, side * each) for side in (leg, leg * math.sqrt(2)))

    by, (cut,), grown = ruler.halved(letter, (exact,), grows)
    text = added(finished, exact, cut, ruler.units, by)
    if margin > ZERO:
        text = phrase(
            "{sum}, {trim} of it to trim off the sewn unit",
            sum=text,
            trim=Digits(say(margin.inches, ruler.units)),
        )
    wedge = wedge_of(want.laid) if want.laid else Wedge.TOP if quarter else Wedge.TOP_LEFT
    wedges = {wedge: want.pieces}
    rows = box_rows(float(cut), float(cut), False)
    lays = wedge_lays(wedges, TURNS[want.fabric.direction], rows)
    method = Method.QUARTER_SQUARE if quarter else Method.HALF_SQUARE
    given = given_grain(want, long_way if quarter else leg_way)
    return Rotary(
        method,
        (cut, cut),
        (exact, exact),
        per_cut,
        text,
        None,
        given,
        lays,
        wedges,
        by=by,
        grown=grown,
    )


def half_rectangle_cut(want: Want, figure: Figure, way: float, ruler: Ruler) -> Rotary:
    """Rectangles cut once from corner to corner; mirrored ones need the other diagonal."""
    finished = figure.sizes
    if want.laid is not None:
        finished = extent(want.laid)
    exact = half_rectangle(finished[0], finished[1], ruler.s)

    def grows(more: tuple[float, ...]) -> Grown:
        return _grown_legs(
            (finished[0], finished[1]), (exact[0] + more[0], exact[1] + more[1]), ruler.s
        )

    by, both, grown = ruler.halved(want.patch.letter, exact, grows)
    cut = (both[0], both[1])
    sums = (added(f, e, c, ruler.units, by) for f, e, c in zip(finished, exact, cut, strict=True))
    rows = box_rows(float(cut[0]), float(cut[1]), want.laid is None)
    text = listing(sums, "semicolons")
    given = given_grain(want, way)
    wedges, mirrored = _rectangle_wedges(want, figure)
    turns = min(TURNS[want.fabric.direction], 2)  # a quarter turn would change its sides
    lays = wedge_lays(wedges, turns, rows, mirrored)
    method = Method.HALF_RECTANGLE
    return Rotary(method, cut, exact, 2, text, None, given, lays, wedges, mirrored, by, grown)


def _rectangle_wedges(want: Want, figure: Figure) -> tuple[dict[Wedge, int], frozenset[Wedge]]:
    """How many are wanted of each half of the rectangle, its first side lying, and which are mirrored."""
    if want.laid is not None:
        wedge = wedge_of(want.laid)
        return {wedge: want.pieces}, frozenset((wedge,) if want.reversed else ())
    wedge = wedge_of(laid(figure.corners, figure.along[0]))
    wanted = {wedge: want.pieces - want.reversed, wedge.reversed: want.reversed}
    return {w: n for w, n in wanted.items() if n}, frozenset((wedge.reversed,))


def _grown_legs(finished: tuple[float, float], cut: tuple[float, float], s: float) -> Grown:
    """How much longer the sides of a right triangle are, whose legs are cut so long: sewn, each is shorter
    by the allowance's share of the radius of the circle in it, r = (a + b - c) / 2."""
    shrink = 1 - s / ((cut[0] + cut[1] - math.hypot(*cut)) / 2)
    sewn = [side * shrink for side in (*cut, math.hypot(*cut))]
    sides = (*finished, math.hypot(*finished))
    return tuple((side, now - side) for side, now in zip(sides, sewn, strict=True))


def octagon(want: Want, figure: Figure, way: float, ruler: Ruler) -> Rotary:
    """Octagons from squares: the corners are cut off afterwards."""
    across = figure.sizes[0] * (1 + math.sqrt(2))
    exact = across + 2 * ruler.s
    by, (cut,) = ruler.straight(exact)
    text = added(across, exact, cut, ruler.units, by)
    lays = (singly(want.pieces, box_rows(float(cut), float(cut), False)),)
    return Rotary(
        Method.OCTAGON,
        (cut, cut),
        (exact, exact),
        1,
        text,
        45.0,
        given_grain(want, way),
        lays,
        by=by,
    )
