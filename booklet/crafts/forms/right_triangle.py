"""The right triangle with two unlike short sides: half a rectangle, and not like its mirror image."""

from __future__ import annotations

import math

from booklet.crafts.figure import FlatOutline, Points, right_corner
from booklet.crafts.form import Form, Seen
from booklet.crafts.measures import HEIGHT, WIDTH, Measures
from booklet.crafts.method import ONCE, ONE_ONCE, Family, Method
from booklet.crafts.rotary.cuts import Rotary, Wanted, box_rows, given_grain, wedge_lays
from booklet.crafts.rotary.marks import Grown
from booklet.crafts.rotary.rotary_sums import half_rectangle
from booklet.crafts.rotary.ruler import Ruler
from booklet.crafts.rotary.sums import added
from booklet.crafts.rotary.wedges import Wedge, wedge_of
from booklet.kit.outlines.plane import extent
from booklet.kit.outlines.polygon import laid
from booklet.kit.words import listing, phrase

METHOD = Method(
    word="half-rectangle triangles",
    title=phrase("half-rectangle triangles"),
    family=Family.AGAIN,
    how=ONCE,
    how_one=ONE_ONCE,
    one_sided=True,
    oblong=True,
)


def corners(m: Measures) -> Points:
    """From the top left corner; side 1 is the long one, the right angle lies at the bottom left."""
    return ((0, 0), (m.length(WIDTH), m.length(HEIGHT)), (0, m.length(HEIGHT)))


def recognise(figure: FlatOutline, _: float | None) -> Seen | None:
    """A right angle; the grain runs along the longer of the sides beside it."""
    legs = right_corner(figure) if figure.count == 3 else None
    if legs is None:
        return None
    return Seen(phrase("right triangle", context="patch"), max(legs, key=lambda i: figure.sides[i]))


def cut(want: Wanted, figure: FlatOutline, ruler: Ruler) -> Rotary | None:
    """Rectangles cut once from corner to corner; mirrored ones need the other diagonal."""
    legs = right_corner(figure)
    ways = want.ways((figure.ways[i] for i in legs), square=True) if legs else []
    if legs is None or not ways:
        return None
    one, other = (figure.sides[i] for i in legs) if want.laid is None else extent(want.laid)
    exact = half_rectangle(one, other, ruler.s)

    def grows(more: tuple[float, ...]) -> Grown:
        return _grown((one, other), (exact[0] + more[0], exact[1] + more[1]), ruler.s)

    by, (width, height), grown = ruler.halved(want.letter, exact, grows)
    sums = (
        added(one, exact[0], width, ruler.units, by),
        added(other, exact[1], height, ruler.units, by),
    )
    rows = box_rows(float(width), float(height), want.laid is None)
    wedges, mirrored = _wedges(want, figure, figure.ways[legs[0]])
    return Rotary(
        method=METHOD,
        cut=(width, height),
        exact=exact,
        per_cut=2,
        sum=listing(sums, "semicolons"),
        grain=given_grain(want, ways[0]),
        # a quarter turn would change its sides
        lays=wedge_lays(wedges, min(want.turns, 2), rows, mirrored),
        wedges=wedges,
        mirrored=mirrored,
        by=by,
        grown=grown,
    )


def _wedges(
    want: Wanted, figure: FlatOutline, lying: float
) -> tuple[dict[Wedge, int], frozenset[Wedge]]:
    """How many are wanted of each half of the rectangle, its first side lying, and which are mirrored."""
    if want.laid is not None:
        wedge = wedge_of(want.laid)
        return {wedge: want.pieces}, frozenset((wedge,) if want.reversed else ())
    wedge = wedge_of(laid(figure.corners, lying))
    wanted = {wedge: want.pieces - want.reversed, wedge.reversed: want.reversed}
    return {w: n for w, n in wanted.items() if n}, frozenset((wedge.reversed,))


def _grown(finished: tuple[float, float], cut: tuple[float, float], s: float) -> Grown:
    """How much longer the sides of a right triangle are, whose legs are cut so long: sewn, each is shorter
    by the allowance's share of the radius of the circle in it, r = (a + b - c) / 2."""
    shrink = 1 - s / ((cut[0] + cut[1] - math.hypot(*cut)) / 2)
    sewn = [side * shrink for side in (*cut, math.hypot(*cut))]
    sides = (*finished, math.hypot(*finished))
    return tuple((side, now - side) for side, now in zip(sides, sewn, strict=True))


FORM = Form(
    word="right triangle",
    rank=50,
    must=(WIDTH, HEIGHT),
    sides=3,
    corners=corners,
    recognise=recognise,
    cut=cut,
    method=METHOD,
    sample={"width": 3, "height": 2},
)
