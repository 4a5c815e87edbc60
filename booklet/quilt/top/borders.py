"""Floor 6: borders. The strips that frame a top, measured through its middle, one after another."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.kit.measure import ZERO, Length, UnitSystem
from booklet.kit.outlines.plane import Frame
from booklet.kit.records import Record
from booklet.kit.trade import MITRE_SPARE
from booklet.kit.words import Digits, Text, phrase
from booklet.pattern import Border, Corners
from booklet.quilt.sized import BorderPlan, Part
from booklet.quilt.sums import TIMES, cuttable, result, round_up, say, sewable, sum_line
from booklet.quilt.top.border_places import Places, border_places, corner_places

Size = tuple[Length, Length]


class Bordered(Record):
    """Borders around a top: plans and parts, in the frame of the outermost finished top."""

    plans: tuple[BorderPlan, ...]
    parts: tuple[Part, ...]
    outside: Size


class _Strip(Record, kw_only=True):
    """Two opposite sides of a border: which, finished length, cut length, its sum, places."""

    which: str
    finished: Length
    cut: Length
    sum: tuple[Text, Text, bool, bool]
    places: Places


def mitre_length(outside: Length, allowance: Length, units: UnitSystem) -> Length:
    """The cut length of a mitred strip whose finished outer edge is `outside` long.

    Cut at 45 degrees with the allowance beyond the mitre, the raw outer edge is
    outside + 2 allowances × (1 + √2) long, 1.21 in more at 1/4 in. MITRE_SPARE covers it for
    allowances up to 3/8 in (common practice), and more is given where it would not.
    """
    least = Length.of(2 * (1 + 2**0.5) * float(allowance))
    return outside + max(MITRE_SPARE.said_in(units), round_up(least, units))


def border_lengths(top: Size, border: Border, allowance: Length, units: UnitSystem) -> Size:
    """The cut lengths (top and bottom, sides) of a border around a finished top (width, height).

    Butted: the sides are as long as the top through its middle and are sewn on first, then top and
    bottom over their ends. Squares: all four as long as the top. Mitred: see `mitre_length`.
    """
    (width, height), both = top, 2 * allowance
    match border.corners:
        case Corners.BUTTED:
            return width + 2 * border.width + both, height + both
        case Corners.SQUARES:
            return width + both, height + both
        case Corners.MITRED:
            outer = around(top, border.width)
            return (
                mitre_length(outer[0], allowance, units),
                mitre_length(outer[1], allowance, units),
            )


def around(top: Size, width: Length) -> Size:
    """The finished size of a top after a border `width` wide on every side."""
    return top[0] + 2 * width, top[1] + 2 * width


def add_borders(
    top: Size, borders: Sequence[Border], allowance: Length, units: UnitSystem
) -> Bordered:
    """All borders of a quilt around a finished top."""
    sizes = [top]
    for border in borders:
        sizes.append(around(sizes[-1], border.width))
    outside = sizes.pop()
    plans, parts = [], []
    for number, (border, inner) in enumerate(zip(borders, sizes, strict=True), start=1):
        corner = float((outside[0] - inner[0]) / 2), float((outside[1] - inner[1]) / 2)
        frame = Frame(*corner, float(inner[0]), float(inner[1]))
        level, upright = _strips(inner, border, allowance, frame, units)
        cut = sewable(border.width + 2 * allowance, units)
        first = sum_line(
            phrase("border {number}, width", number=number),
            f"{say(border.width, units)} + 2 {TIMES} {say(allowance, units)}",
            result(cut, units),
        )
        lengths = (level.cut, level.cut, upright.cut, upright.cut)
        sums = (first, *(_side_sum(number, s) for s in (upright, level)))
        plans.append(
            BorderPlan(
                number=number,
                width=border.width,
                fabric=border.fabric,
                corners=border.corners,
                lengths=lengths,
                outside=around(inner, border.width),
                sums=sums,
            )
        )
        parts += [_part(number, border, strip, cut, first) for strip in (level, upright)]
        if border.corners is Corners.SQUARES:
            parts.append(_squares(number, border, cut, frame, first))
    return Bordered(tuple(plans), tuple(parts), outside)


def _strips(
    inner: Size, border: Border, allowance: Length, frame: Frame, units: UnitSystem
) -> tuple[_Strip, _Strip]:
    """Top and bottom, then the sides of one border."""
    exact = border_lengths(inner, border, allowance, units)
    length = cuttable if border.corners is Corners.MITRED else sewable
    cut = length(exact[0], units), length(exact[1], units)
    places = border_places(border.corners, frame, float(border.width))
    over = (
        ZERO if border.corners is Corners.SQUARES else 2 * border.width,
        2 * border.width if border.corners is Corners.MITRED else ZERO,
    )
    level, upright = (
        _Strip(
            which=which,
            finished=inner[k] + over[k],
            cut=cut[k],
            sum=_length_sum(inner[k], over[k], border, exact[k], cut[k], units),
            places=places[k],
        )
        for k, which in enumerate(("top and bottom", "sides"))
    )
    return level, upright


def _length_sum(
    through: Length, over: Length, border: Border, exact: Length, cut: Length, units: UnitSystem
) -> tuple[Text, Text, bool, bool]:
    """The terms of one cut length, what comes of them, and whether it was rounded up or to the nearest
    mark: what is measured through the middle, and what is added."""
    terms = [say(through, units)]
    if over.inches:
        terms.append(f"2 {TIMES} {say(border.width, units)}")
    spare = exact - through - over
    up, down = cut > exact, cut < exact
    if border.corners is not Corners.MITRED:
        terms.append(f"2 {TIMES} {say(spare / 2, units)}")
        return " + ".join(terms), result(cut, units), up, down
    mitred = phrase(
        "{terms} + {spare} for the miters",
        terms=Digits(" + ".join(terms)),
        spare=Digits(say(spare, units)),
    )
    return mitred, result(cut, units), up, down


def _side_sum(number: int, strip: _Strip) -> Text:
    """How the length of two opposite sides came about."""
    return sum_line(_side_title(number, strip.which), *strip.sum)


def _side_title(number: int, which: str) -> Text:
    """Two opposite sides of a border, for the reader."""
    if which == "sides":
        return phrase("border {number}, sides", number=number)
    return phrase("border {number}, top and bottom", number=number)


def _part(number: int, border: Border, strip: _Strip, cut: Length, width_sum: Text) -> Part:
    """The part of two opposite sides of a border."""
    return Part(
        name=f"border {number} {strip.which}",
        title=_side_title(number, strip.which),
        fabric=border.fabric,
        shape="mitred strip" if border.corners is Corners.MITRED else "rectangle",
        finished=(strip.finished, border.width),
        cut=(strip.cut, cut),
        count=2,
        long=True,
        places=strip.places,
        sums=(width_sum, _side_sum(number, strip)),
    )


def _squares(number: int, border: Border, cut: Length, frame: Frame, width_sum: Text) -> Part:
    """The part of the four corner squares of a border."""
    return Part(
        name=f"border {number} corner squares",
        title=phrase("border {number}, corner squares", number=number),
        fabric=border.square_fabric or border.fabric,
        shape="rectangle",
        finished=(border.width, border.width),
        cut=(cut, cut),
        count=4,
        long=False,
        places=corner_places(frame, float(border.width)),
        sums=(width_sum,),
    )
