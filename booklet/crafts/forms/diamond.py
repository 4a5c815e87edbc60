"""The diamond: cut across a strip at its angle, every so far, as wide as the strip."""

from __future__ import annotations

from booklet.crafts.figure import FlatOutline, Points
from booklet.crafts.form import Form, Seen, SizeFault
from booklet.crafts.measures import ANGLE, SIDE, Measures, Sizes
from booklet.crafts.method import Family, Method
from booklet.crafts.rotary.cuts import Rotary, Wanted
from booklet.crafts.rotary.ruler import Ruler
from booklet.crafts.rotary.strips import across_a_strip
from booklet.kit.measure import Extent
from booklet.kit.outlines.near import DRAWN
from booklet.kit.outlines.plane import cosine, sine
from booklet.kit.words import phrase

METHOD = Method(
    word="diamonds from a strip",
    title=phrase("diamonds from a strip"),
    family=Family.SLANTED,
    by_ruler=True,
)


def corners(m: Measures) -> Points:
    """From the top, where the angle is; it stands upright."""
    half = m.angle() / 2
    x, y = m.length(SIDE) * sine(half), m.length(SIDE) * cosine(half)
    return ((0, -y), (x, 0), (0, y), (-x, 0))


def amiss(sizes: Sizes) -> SizeFault | None:
    """The acute angle is meant, so that the same diamond is not written in two ways."""
    angle = sizes["angle"]
    if isinstance(angle, Extent) or angle <= 90:
        return None
    says = "is more than 90 degrees, but the acute one is meant"
    return SizeFault(ANGLE, "bad-number", says, f"write `{180 - float(angle):g}`")


def recognise(figure: FlatOutline, _: float | None) -> Seen | None:
    """Four equal sides without right angles."""
    if figure.count == 4 and max(figure.sides) - min(figure.sides) < DRAWN:
        return Seen(phrase("diamond", context="patch"), 0)
    return None


def cut(want: Wanted, figure: FlatOutline, ruler: Ruler) -> Rotary | None:
    """Strip and step are equal: the height and two allowances."""
    return across_a_strip(want, figure, ruler, METHOD, symmetric=True)


FORM = Form(
    word="diamond",
    rank=80,
    must=(SIDE, ANGLE),
    sides=4,
    corners=corners,
    amiss=amiss,
    recognise=recognise,
    cut=cut,
    method=METHOD,
    sample={"side": 2, "angle": 60},
)
