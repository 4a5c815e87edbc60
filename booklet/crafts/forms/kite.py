"""The kite, and the dart, its hollow sister: drawn round a template along a strip."""

from __future__ import annotations

from booklet.crafts.figure import FlatOutline, Points, kite_axis
from booklet.crafts.form import Form, Seen, SizeFault
from booklet.crafts.measures import CROSS, LENGTH, WIDTH, Measures, Sizes
from booklet.crafts.method import ROUND, Family, Method
from booklet.crafts.rotary.cuts import Rotary, Wanted
from booklet.crafts.rotary.ruler import Ruler
from booklet.crafts.rotary.strips import along_a_strip
from booklet.kit.measure import Extent
from booklet.kit.outlines.plane import angle_up
from booklet.kit.words import phrase

METHOD = Method(
    word="kites from a strip",
    title=phrase("kites from a strip"),
    family=Family.FREE,
    how=ROUND,
)


def corners(m: Measures) -> Points:
    """From the top; it stands upright, its widest line `cross` below the top."""
    length, half, cross = m.length(LENGTH), m.length(WIDTH) / 2, m.length(CROSS)
    return ((0, 0), (half, cross), (0, length), (-half, cross))


def amiss(sizes: Sizes) -> SizeFault | None:
    """The widest line lies between top and bottom."""
    cross, length = sizes["cross"], sizes["length"]
    if not isinstance(cross, Extent) or not isinstance(length, Extent):
        return None
    if cross.in_units != length.in_units or cross.value < length.value:
        return None
    hint = "measure from the top point down to the widest line"
    return SizeFault(CROSS, "bad-length", "is not less than its `length`", hint)


def recognise(figure: FlatOutline, _: float | None) -> Seen | None:
    """Two pairs of equal sides that lie beside each other."""
    if figure.count != 4 or kite_axis(figure) is None:
        return None
    hollow = figure.is_hollow
    return Seen(phrase("dart", context="patch") if hollow else phrase("kite", context="patch"))


def cut(want: Wanted, figure: FlatOutline, ruler: Ruler) -> Rotary | None:
    """Its axis across the strip, or along it."""
    i = kite_axis(figure)
    if i is None:
        return None
    axis = angle_up(figure.corners[i], figure.corners[i + 2])
    return along_a_strip(want, (axis + 90, axis), ruler, METHOD, None)


FORM = Form(
    word="kite",
    rank=140,
    must=(LENGTH, WIDTH, CROSS),
    sides=4,
    corners=corners,
    amiss=amiss,
    recognise=recognise,
    cut=cut,
    method=METHOD,
    sample={"length": 4, "width": 2, "cross": 1},
)
