"""Floor 1, crafts: cuts that forms share which begin with a square or a rectangle."""

from __future__ import annotations

import math

from booklet.crafts.figure import FlatOutline
from booklet.crafts.method import ONCE, ONE_ONCE, Family, Method
from booklet.crafts.rotary.cuts import (
    Rotary,
    Wanted,
    box_rows,
    given_grain,
    on_grain,
    singly,
    wedge_lays,
)
from booklet.crafts.rotary.marks import Grown
from booklet.crafts.rotary.rotary_sums import half_square, quarter_square, straight_addition
from booklet.crafts.rotary.ruler import Ruler
from booklet.crafts.rotary.sums import added, say
from booklet.crafts.rotary.wedges import Wedge, wedge_of
from booklet.kit.measure import ZERO
from booklet.kit.outlines.alike import same_angle
from booklet.kit.outlines.plane import extent
from booklet.kit.words import Digits, listing, phrase

HALF_SQUARES = Method(
    word="half-square triangles",
    title=phrase("half-square triangles"),
    family=Family.AGAIN,
    how=ONCE,
    how_one=ONE_ONCE,
    by_ruler=True,
    piece=phrase("half-square triangle", context="patch"),
)
QUARTER_SQUARES = Method(
    word="quarter-square triangles",
    title=phrase("quarter-square triangles"),
    family=Family.AGAIN,
    how=phrase("Cut each twice from corner to corner: 4 triangles."),
    how_one=phrase("Cut it twice from corner to corner: 4 triangles."),
    by_ruler=True,
    piece=phrase("quarter-square triangle", context="patch"),
)


def box(want: Wanted, figure: FlatOutline, ruler: Ruler, method: Method) -> Rotary | None:
    """Squares and rectangles: each side with an allowance at both ends; a figure that they share is said once."""
    ways = want.ways(figure.ways[:1], square=True)
    if not ways:
        return None
    finished = figure.sides[:2] if want.laid is None else extent(want.laid)
    more = float(straight_addition(ruler.allowance))
    exact = (finished[0] + more, finished[1] + more)
    by, (width, height) = ruler.straight(*exact)
    sums = [added(finished[0], exact[0], width, ruler.units, by)]
    if not method.oblong:
        text = sums[0]
    else:
        sums.append(added(finished[1], exact[1], height, ruler.units, by))
        text = listing(sums, "semicolons")
    return Rotary(
        method=method,
        cut=(width, height),
        exact=exact,
        sum=text,
        grain=given_grain(want, ways[0]),
        lays=(singly(want.pieces, box_rows(float(width), float(height), want.laid is None)),),
        by=by,
    )


def right_isosceles(want: Wanted, figure: FlatOutline, ruler: Ruler) -> Rotary | None:
    """Half- or quarter-square triangles, whichever keeps the grain; None where neither does, and where quarters of a
    print with an up would leave more than half of their squares: by template each takes about half a square."""
    corner = max(range(3), key=lambda i: figure.angles[i])  # the right one
    leg, leg_way = figure.sides[corner - 1], figure.ways[corner - 1]
    long_way = (leg_way + 45) % 90
    quarter = _is_quarter(want, leg_way, long_way)
    if quarter is None or (quarter and want.uneven):
        return None
    finished = leg * math.sqrt(2) if quarter else leg
    margin = ruler.margin(want.letter)
    exact = (quarter_square if quarter else half_square)(finished, ruler.allowance, margin)

    def grows(more: tuple[float, ...]) -> Grown:
        each = (more[0] + float(margin)) / finished
        return tuple((side, side * each) for side in (leg, leg * math.sqrt(2)))

    by, (cut,), grown = ruler.halved(want.letter, (exact,), grows)
    text = added(finished, exact, cut, ruler.units, by)
    if margin > ZERO:
        text = phrase(
            "{sum}, {trim} of it to trim off the sewn unit",
            sum=text,
            trim=Digits(say(margin.inches, ruler.units)),
        )
    wedge = wedge_of(want.laid) if want.laid else Wedge.TOP if quarter else Wedge.TOP_LEFT
    wedges = {wedge: want.pieces}
    return Rotary(
        method=QUARTER_SQUARES if quarter else HALF_SQUARES,
        cut=(cut, cut),
        exact=(exact, exact),
        per_cut=4 if quarter else 2,
        sum=text,
        grain=given_grain(want, long_way if quarter else leg_way),
        lays=wedge_lays(wedges, want.turns, box_rows(float(cut), float(cut), False)),
        wedges=wedges,
        by=by,
        grown=grown,
    )


def _is_quarter(want: Wanted, leg_way: float, long_way: float) -> bool | None:
    """Whether the long side of a triangle lies on the grain, so that it is a quarter of a square; None where
    neither it nor a short side does. Half a square is easier to cut, where both would do."""
    if want.laid is not None:
        half, quarter = same_angle(leg_way, 0, 90), same_angle(long_way, 0, 90)
    else:
        quarter = on_grain(long_way, want.grain)
        half = on_grain(leg_way, want.grain) if want.wished else not quarter
    return quarter if half or quarter else None
