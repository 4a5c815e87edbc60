"""Floor 1, crafts: cuts from a strip that forms share: across it at an angle, and side by side along it."""

from __future__ import annotations

import math
from collections.abc import Sequence

from booklet.crafts.figure import FlatOutline, Points
from booklet.crafts.method import Method
from booklet.crafts.rotary.cuts import Rotary, Wanted, given_grain, in_strips
from booklet.crafts.rotary.marks import CutBy, on_mark
from booklet.crafts.rotary.ruler import Ruler
from booklet.crafts.rotary.sums import added
from booklet.kit.outlines.near import ONE_POINT, SAME_LENGTH
from booklet.kit.outlines.plane import Point, extent
from booklet.kit.outlines.polygon import laid, mitred
from booklet.kit.records import replace
from booklet.kit.words import listing


def gable(base: float, height: float) -> Points:
    """A triangle from its top, the middle of the base below it."""
    return ((base / 2, 0), (base, height), (0, height))


def across_a_strip(
    want: Wanted, figure: FlatOutline, ruler: Ruler, method: Method, symmetric: bool
) -> Rotary | None:
    """Strips as wide as the height and an allowance on each side, cut across at the figure's angle, of two
    pairs of parallel sides; `symmetric` pieces are like their mirror images."""
    long = 0 if figure.sides[0] >= figure.sides[1] - SAME_LENGTH else 1
    along = (figure.ways[long], figure.ways[1 - long])
    ways = want.ways(along)
    if not ways:
        return None
    slant = figure.slant(0, 1)
    angle = math.radians(slant)
    heights = [figure.sides[1 - long] * math.sin(angle), figure.sides[long] * math.sin(angle)]
    across, apart = heights if ways[0] == along[0] else heights[::-1]
    exact = (across + 2 * ruler.s, apart + 2 * ruler.s)
    by, (wide, step) = ruler.slanted(*exact)
    texts = (
        added(across, exact[0], wide, ruler.units, by),
        added(apart, exact[1], step, ruler.units, by),
    )
    size = exact if by is CutBy.TEMPLATE else (float(wide), float(step))
    shape = leaning(size[0], size[1], angle, _leans_right(want.as_cut(ways[0])))
    return Rotary(
        method=method,
        cut=(wide, step),
        exact=exact,
        sum=listing(dict.fromkeys(texts), "semicolons"),
        angle=slant,
        grain=given_grain(want, ways[0]),
        lays=in_strips(want, shape, symmetric),
        by=by,
    )


def leaning(height: float, apart: float, angle: float, right: bool) -> Points:
    """The parallelogram that two cuts so far apart make across a strip so high."""
    base, lean = apart / math.sin(angle), height / math.tan(angle)
    if right:
        return ((lean, 0.0), (lean + base, 0.0), (base, height), (0.0, height))
    return ((0.0, 0.0), (base, 0.0), (base + lean, height), (lean, height))


def _leans_right(points: Sequence[Point]) -> bool:
    """Whether the upper side of a parallelogram lies farther right than its lower side."""
    top = min(y for _, y in points)
    middle = sum(x for x, _ in points) / len(points)
    upper = [x for x, y in points if y < top + ONE_POINT]
    return sum(upper) / len(upper) > middle


def along_a_strip(
    want: Wanted,
    along: Sequence[float],
    ruler: Ruler,
    method: Method,
    angle: float | None,
    symmetric: bool = True,
    by_turns: bool = False,
) -> Rotary | None:
    """Strips as wide as the piece with its allowance is high; the second figure is its longest line.

    `along` are the directions that may lie along the strip. All are cut with a template, which is exact: across a
    strip as high as they are, where the ruler shows that, else drawn round on a strip that is a little higher.
    Pieces that lie `by_turns` head to foot are given the room that the rounding of their figure adds.
    """
    ways = want.ways(along)
    if not ways:
        return None
    seen = want.as_cut(ways[0])
    finished, full = extent(seen), mitred(seen, ruler.s)
    exact = (extent(full)[1], extent(full)[0])
    height = on_mark(exact[0], ruler.step) or ruler.up(exact[0])
    scale = 1.0 if angle is None else float(height) / exact[0]  # drawn round, none is larger
    width = ruler.up(exact[1] * scale)
    texts = (
        added(finished[1], exact[0], height, ruler.units),
        added(finished[0], exact[1], width, ruler.units),
    )
    lays = in_strips(want, laid(full, 90.0), symmetric)
    if by_turns:
        more = float(width) - exact[1] * scale
        lays = tuple(
            replace(lay, rows=tuple(row.widened(more) for row in lay.rows)) for lay in lays
        )
    return Rotary(
        method=method,
        cut=(height, width),
        exact=exact,
        sum=listing(texts, "semicolons"),
        angle=angle,
        grain=given_grain(want, ways[0]),
        lays=lays,
        by=CutBy.TEMPLATE,
    )
