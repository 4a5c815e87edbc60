"""Floor 1, crafts: pieces that are sewn on printed paper. They are cut as rectangles, larger all round than their place:
the paper gives the shape, and what is too much is trimmed off after each seam (common practice)."""

from __future__ import annotations

from booklet.crafts.method import Family, Method
from booklet.crafts.rotary.cuts import Rotary, Wanted, box_rows, singly
from booklet.crafts.rotary.ruler import Ruler
from booklet.crafts.rotary.sums import added
from booklet.kit.measure import Length
from booklet.kit.outlines.plane import Point, extent
from booklet.kit.outlines.polygon import laid
from booklet.kit.words import listing, phrase

ROUGH = Method(
    word="rough rectangle",
    title=phrase("rough, for printed paper"),
    family=Family.BOX,
    by_ruler=True,
    oblong=True,
    piece=phrase("rough piece", context="patch"),
)


def rough_area(want: Wanted, margin: Length, ruler: Ruler) -> float:
    """How many square inches of cloth such a rectangle takes."""
    _, (width, height) = _sides(want, margin, ruler)
    return width * height


def _sides(want: Wanted, margin: Length, ruler: Ruler) -> tuple[Point, Point]:
    """The sides of the box round a patch along its grain, and with what lies round it."""
    finished = extent(laid(want.outline, want.grain) if want.laid is None else want.laid)
    more = 2 * (float(ruler.allowance) + float(margin))
    return finished, (finished[0] + more, finished[1] + more)


def rough(want: Wanted, margin: Length, ruler: Ruler) -> Rotary:
    """The rectangle round a patch along its grain, with an allowance and a margin on every side; rounded up to a mark
    of the ruler, since a larger piece does no harm."""
    finished, exact = _sides(want, margin, ruler)
    width, height = map(ruler.up, exact)
    sums = (
        added(side, whole, cut, ruler.units)
        for side, whole, cut in zip(finished, exact, (width, height), strict=True)
    )
    return Rotary(
        method=ROUGH,
        cut=(width, height),
        exact=exact,
        sum=listing(tuple(sums), "semicolons"),
        grain=want.grain,
        lays=(singly(want.pieces, box_rows(float(width), float(height), want.laid is None)),),
    )
