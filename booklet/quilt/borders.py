"""Floor 6: borders. The strips that frame a top, measured through its middle, one after another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from booklet.geometry.tiling import Point
from booklet.measure import Length, UnitSystem
from booklet.pattern import Border, Corners
from booklet.quilt.places import Frame, rectangle
from booklet.quilt.sized import BorderPlan, Part
from booklet.quilt.strips import DEFAULT_LOSS, strips_for_pieces
from booklet.quilt.sums import TIMES, result, round_up, say

MITRE_SPARE = Length.of(2)  # common practice: 2 in longer than the outside of the top


@dataclass(frozen=True, slots=True)
class Bordered:
    """Borders around a top: plans and parts, in the frame of the outermost finished top."""

    plans: tuple[BorderPlan, ...]
    parts: tuple[Part, ...]
    outside: tuple[Length, Length]


def mitre_length(outside: Length, allowance: Length, spare: Length = MITRE_SPARE) -> Length:
    """The cut length of a mitred strip whose finished outer edge is `outside` long.

    Cut at 45 degrees with the allowance beyond the mitre, the raw outer edge is
    outside + 2 allowances × (1 + √2) long, 1.21 in more at 1/4 in; `spare` covers it for allowances up
    to 3/8 in (common practice), and grows where it would not.
    """
    least = Length.of(2 * (1 + 2**0.5) * float(allowance))
    return outside + max(spare, round_up(least, "inch"))


def border_lengths(
    top: tuple[Length, Length], border: Border, allowance: Length
) -> tuple[Length, Length]:
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
            return (
                mitre_length(width + 2 * border.width, allowance),
                mitre_length(height + 2 * border.width, allowance),
            )


def around(top: tuple[Length, Length], width: Length) -> tuple[Length, Length]:
    """The finished size of a top after a border `width` wide on every side."""
    return top[0] + 2 * width, top[1] + 2 * width


def add_borders(
    top: tuple[Length, Length],
    borders: Sequence[Border],
    allowance: Length,
    widths: Sequence[Length],
    units: UnitSystem,
) -> Bordered:
    """All borders of a quilt around a finished top; `widths` are the usable widths of their cloths."""
    sizes = [top]
    for border in borders:
        sizes.append(around(sizes[-1], border.width))
    plans, parts = [], []
    for number, (border, inner, cloth) in enumerate(
        zip(borders, sizes, widths, strict=False), start=1
    ):
        left = (sizes[-1][0] - inner[0]) / 2
        upper = (sizes[-1][1] - inner[1]) / 2
        frame = Frame(float(left), float(upper), float(inner[0]), float(inner[1]))
        plans.append(_plan(number, inner, border, allowance, cloth, units))
        parts += _parts(number, inner, border, allowance, frame, units)
    return Bordered(tuple(plans), tuple(parts), sizes[-1])


def _plan(
    number: int,
    inner: tuple[Length, Length],
    border: Border,
    allowance: Length,
    cloth: Length,
    units: UnitSystem,
) -> BorderPlan:
    long, tall = border_lengths(inner, border, allowance)
    cut = border.width + 2 * allowance
    lengths = (long, long, tall, tall)
    return BorderPlan(
        number,
        border.width,
        border.fabric,
        border.corners,
        lengths,
        around(inner, border.width),
        strips_for_pieces(lengths, cloth, DEFAULT_LOSS),
        (
            f"border {number}, width: {say(border.width, units)} + 2 {TIMES} "
            f"{say(allowance, units)} = {result(cut, units)}",
            f"border {number}, sides: {_length_sum(inner[1], border, allowance, True, tall, units)}",
            f"border {number}, top and bottom: "
            f"{_length_sum(inner[0], border, allowance, False, long, units)}",
        ),
    )


def _length_sum(
    through: Length, border: Border, allowance: Length, side: bool, cut: Length, units: UnitSystem
) -> str:
    """The sum of one cut length: what is measured through the middle, and what is added."""
    terms = [say(through, units)]
    if border.corners is Corners.MITRED or (border.corners is Corners.BUTTED and not side):
        terms.append(f"2 {TIMES} {say(border.width, units)}")
    if border.corners is Corners.MITRED:
        spare = cut - through - 2 * border.width
        terms.append(f"{say(spare, units)} for the mitres")
    else:
        terms.append(f"2 {TIMES} {say(allowance, units)}")
    return f"{' + '.join(terms)} = {result(cut, units)}"


def _parts(
    number: int,
    inner: tuple[Length, Length],
    border: Border,
    allowance: Length,
    frame: Frame,
    units: UnitSystem,
) -> list[Part]:
    """The cloth parts of one border: top and bottom, sides, and corner squares if it has them."""
    long, tall = border_lengths(inner, border, allowance)
    wide, both = border.width, 2 * allowance
    grow = 2 * wide if border.corners is not Corners.SQUARES else wide - wide
    side_grow = 2 * wide if border.corners is Corners.MITRED else wide - wide
    shape = "mitred strip" if border.corners is Corners.MITRED else "rectangle"
    level, upright = _places(border.corners, frame, float(wide))
    sums = tuple(s for s in _plan(number, inner, border, allowance, long, units).sums)
    parts = [
        Part(
            f"border {number} top and bottom",
            f"border {number}, top and bottom",
            border.fabric,
            shape,
            (inner[0] + grow, wide),
            (long, wide + both),
            2,
            True,
            level,
            (sums[0], sums[2]),
        ),
        Part(
            f"border {number} sides",
            f"border {number}, sides",
            border.fabric,
            shape,
            (inner[1] + side_grow, wide),
            (tall, wide + both),
            2,
            True,
            upright,
            (sums[0], sums[1]),
        ),
    ]
    if border.corners is Corners.SQUARES:
        parts.append(
            Part(
                f"border {number} corner squares",
                f"border {number}, corner squares",
                border.square_fabric or border.fabric,
                "rectangle",
                (wide, wide),
                (wide + both, wide + both),
                4,
                False,
                _corner_places(frame, float(wide)),
                (sums[0],),
            )
        )
    return parts


Places = tuple[tuple[Point, ...], ...]


def _places(corners: Corners, frame: Frame, b: float) -> tuple[Places, Places]:
    """The outlines of top and bottom, then of the left and right side, around `frame`."""
    x, y, w, h = frame.x, frame.y, frame.width, frame.height
    if corners is Corners.MITRED:
        outer = ((x - b, y - b), (x + w + b, y - b), (x + w + b, y + h + b), (x - b, y + h + b))
        inner = ((x, y), (x + w, y), (x + w, y + h), (x, y + h))
        ring = [(outer[k], outer[(k + 1) % 4], inner[(k + 1) % 4], inner[k]) for k in range(4)]
        return (ring[0], ring[2]), (ring[3], ring[1])
    out = b if corners is Corners.BUTTED else 0.0
    level = (
        rectangle(x - out, y - b, w + 2 * out, b),
        rectangle(x - out, y + h, w + 2 * out, b),
    )
    return level, (rectangle(x - b, y, b, h), rectangle(x + w, y, b, h))


def _corner_places(frame: Frame, b: float) -> Places:
    """The outlines of the four corner squares, clockwise from the top left."""
    x, y, w, h = frame.x, frame.y, frame.width, frame.height
    corners = ((x - b, y - b), (x + w, y - b), (x + w, y + h), (x - b, y + h))
    return tuple(rectangle(a, c, b, b) for a, c in corners)
