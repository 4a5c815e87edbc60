"""Floor 6: borders. The strips that frame a top, measured through its middle, one after another."""

from __future__ import annotations

import math
from collections.abc import Sequence

from booklet.kit.measure import ZERO, Length, UnitSystem
from booklet.kit.outlines.plane import Frame, Point, rectangle
from booklet.kit.records import Record
from booklet.kit.trade import MITRE_SPARE
from booklet.kit.words import Digits, Phrase, Text, phrase
from booklet.pattern import Border, Corners
from booklet.quilt.sized import BorderPlan, Part
from booklet.quilt.sums import TIMES, cut_line, cuttable, round_up, say, sewable

Size = tuple[Length, Length]


class Bordered(Record):
    """Borders around a top: plans and parts, in the frame of the outermost finished top."""

    plans: tuple[BorderPlan, ...]
    parts: tuple[Part, ...]
    outside: Size


class _Strip(Record, kw_only=True):
    """Two opposite sides of a border: which, finished and cut size (length, width), their sums, places."""

    which: str
    finished: Size
    cut: Size
    width_sum: Text
    length_sum: Text
    places: _Places


def mitre_length(
    outside: Length, allowance: Length, units: UnitSystem, wide: Length, beside: Length
) -> Length:
    """The cut length of a mitred strip `wide` finished whose finished outer edge is `outside` long; the strips it meets
    are `beside` wide.

    Its mitre goes `beside` along while it goes `wide` out, so that the raw outer edge, an allowance farther out and cut an
    allowance beyond the mitre, is outside + 2 allowances × (beside + √(wide² + beside²)) / wide long: of equal widths
    2 allowances × (1 + √2), 1.21 in more at 1/4 in. MITRE_SPARE covers it for allowances up to 3/8 in (common practice),
    and more is given where it would not.
    """
    along, out = float(beside), float(wide)
    least = Length.of(2 * float(allowance) * (along + math.hypot(along, out)) / out)
    return outside + max(MITRE_SPARE.said_in(units), round_up(least, units))


def border_lengths(top: Size, border: Border, allowance: Length, units: UnitSystem) -> Size:
    """The cut lengths (top and bottom, sides) of a border around a finished top (width, height).

    Butted: the sides are as long as the top through its middle and are sewn on first, then top and
    bottom over their ends. Squares: all four as long as the top. Mitred: see `mitre_length`.
    """
    (width, height), both = top, 2 * allowance
    match border.corners:
        case Corners.BUTTED:
            return width + 2 * border.sides + both, height + both
        case Corners.SQUARES:
            return width + both, height + both
        case Corners.MITRED:
            outer = around(top, border)
            return (
                mitre_length(outer[0], allowance, units, border.ends, border.sides),
                mitre_length(outer[1], allowance, units, border.sides, border.ends),
            )


def around(top: Size, border: Border) -> Size:
    """The finished size of a top after a border."""
    return top[0] + 2 * border.sides, top[1] + 2 * border.ends


def add_borders(
    top: Size, borders: Sequence[Border], allowance: Length, units: UnitSystem
) -> Bordered:
    """All borders of a quilt around a finished top."""
    sizes = [top]
    for border in borders:
        sizes.append(around(sizes[-1], border))
    outside = sizes.pop()
    plans, parts = [], []
    for number, (border, inner) in enumerate(zip(borders, sizes, strict=True), start=1):
        corner = float((outside[0] - inner[0]) / 2), float((outside[1] - inner[1]) / 2)
        frame = Frame(*corner, float(inner[0]), float(inner[1]))
        strips = _strips(number, inner, border, allowance, frame, units)
        widths = dict.fromkeys(strip.width_sum for strip in reversed(strips))
        plans.append(
            BorderPlan(
                number=number,
                sides=border.sides,
                ends=border.ends,
                fabric=border.fabric,
                corners=border.corners,
                lengths=tuple(strip.cut[0] for strip in strips for _ in range(2)),
                outside=around(inner, border),
                sums=(*widths, *(strip.length_sum for strip in reversed(strips))),
            )
        )
        parts += [_part(number, border, strip) for strip in strips]
        if border.corners is Corners.SQUARES:
            parts.append(_squares(number, border, strips, frame))
    return Bordered(tuple(plans), tuple(parts), outside)


def _strips(
    number: int, inner: Size, border: Border, allowance: Length, frame: Frame, units: UnitSystem
) -> tuple[_Strip, ...]:
    """Top and bottom, then the sides of one border: what it has of them."""
    exact = border_lengths(inner, border, allowance, units)
    length = cuttable if border.corners is Corners.MITRED else sewable
    cut = length(exact[0], units), length(exact[1], units)
    places = _border_places(border.corners, frame, float(border.sides), float(border.ends))
    over = (
        ZERO if border.corners is Corners.SQUARES else border.sides,
        border.ends if border.corners is Corners.MITRED else ZERO,
    )
    return tuple(
        _Strip(
            which=which,
            finished=(inner[k] + 2 * over[k], wide),
            cut=(cut[k], sewable(wide + 2 * allowance, units)),
            width_sum=_width_sum(number, border, which, wide, allowance, units),
            length_sum=cut_line(
                _side_title(number, which),
                _length_terms(inner[k], over[k], border, exact[k], units),
                exact[k],
                cut[k],
                units,
            ),
            places=places[k],
        )
        for k, (which, wide) in enumerate(
            (("top and bottom", border.ends), ("sides", border.sides))
        )
        if wide.inches
    )


def _width_sum(
    number: int, border: Border, which: str, wide: Length, allowance: Length, units: UnitSystem
) -> Text:
    """How wide the strips of two opposite sides are cut: said of the whole border where all are as wide."""
    of = phrase("border {number}, width", number=number)
    if border.sides != border.ends:
        of = phrase("{strips}, width", strips=_side_title(number, which))
    terms = f"{say(wide, units)} + 2 {TIMES} {say(allowance, units)}"
    exact = wide + 2 * allowance
    return cut_line(of, terms, exact, sewable(exact, units), units)


def _length_terms(
    through: Length, over: Length, border: Border, exact: Length, units: UnitSystem
) -> Text:
    """The terms of one cut length: what is measured through the middle, and what is added."""
    terms = [say(through, units)]
    if over.inches:
        terms.append(f"2 {TIMES} {say(over, units)}")
    spare = exact - through - 2 * over
    if border.corners is not Corners.MITRED:
        terms.append(f"2 {TIMES} {say(spare / 2, units)}")
        return " + ".join(terms)
    return phrase(
        "{terms} + {spare} for the miters",
        terms=Digits(" + ".join(terms)),
        spare=Digits(say(spare, units)),
    )


def _side_title(number: int, which: str) -> Phrase:
    """Two opposite sides of a border, for the reader."""
    if which == "sides":
        return phrase("border {number}, sides", number=number)
    return phrase("border {number}, top and bottom", number=number)


def _part(number: int, border: Border, strip: _Strip) -> Part:
    """The part of two opposite sides of a border."""
    return Part(
        name=f"border {number} {strip.which}",
        title=_side_title(number, strip.which),
        fabric=border.fabric,
        shape="mitred strip" if border.corners is Corners.MITRED else "rectangle",
        finished=strip.finished,
        cut=strip.cut,
        count=2,
        long=True,
        places=strip.places,
        sums=(strip.width_sum, strip.length_sum),
    )


def _squares(number: int, border: Border, strips: tuple[_Strip, ...], frame: Frame) -> Part:
    """The part of the four corner squares of a border, as wide as its sides and as high as its top and bottom."""
    level, upright = strips
    return Part(
        name=f"border {number} corner squares",
        title=phrase("border {number}, corner squares", number=number)
        if border.sides == border.ends
        else phrase("border {number}, corner rectangles", number=number),
        fabric=border.square_fabric or border.fabric,
        shape="rectangle",
        finished=(border.sides, border.ends),
        cut=(upright.cut[1], level.cut[1]),
        count=4,
        long=False,
        places=_corner_places(frame, float(border.sides), float(border.ends)),
        sums=tuple(dict.fromkeys((upright.width_sum, level.width_sum))),
    )


_Places = tuple[tuple[Point, ...], ...]


def _border_places(
    corners: Corners, frame: Frame, side: float, end: float
) -> tuple[_Places, _Places]:
    """The outlines of top and bottom, `end` wide, then of the left and right side, `side` wide, around `frame`."""
    x, y, w, h = frame.left, frame.top, frame.width, frame.height
    if corners is Corners.MITRED:
        outer = rectangle(x - side, y - end, w + 2 * side, h + 2 * end)
        inner = rectangle(x, y, w, h)
        ring = [(outer[k], outer[(k + 1) % 4], inner[(k + 1) % 4], inner[k]) for k in range(4)]
        return (ring[0], ring[2]), (ring[3], ring[1])
    out = side if corners is Corners.BUTTED else 0.0
    level = (
        rectangle(x - out, y - end, w + 2 * out, end),
        rectangle(x - out, y + h, w + 2 * out, end),
    )
    return level, (rectangle(x - side, y, side, h), rectangle(x + w, y, side, h))


def _corner_places(frame: Frame, side: float, end: float) -> _Places:
    """The outlines of what lies in the four corners, clockwise from the top left."""
    x, y, w, h = frame.left, frame.top, frame.width, frame.height
    corners = ((x - side, y - end), (x + w, y - end), (x + w, y + h), (x - side, y + h))
    return tuple(rectangle(a, c, side, end) for a, c in corners)
