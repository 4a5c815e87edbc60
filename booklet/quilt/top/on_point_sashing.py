"""Floor 6: sashing on point. Every block has a sash on each side, and a cornerstone at each of its corners.

Sashes lie along the sides of the blocks' cells, which are one block and one sash wide. The edge of the
set goes through the outermost cornerstones, so that halves of them lie there; side and corner triangles
are as large as without sashing.
"""

from __future__ import annotations

import math

from booklet.kit.measure import Length, UnitSystem
from booklet.kit.outlines.near import ONE_POINT
from booklet.kit.outlines.plane import Point, shifted
from booklet.kit.words import phrase
from booklet.pattern import Sashing, Size
from booklet.quilt.sized import Part
from booklet.quilt.sums import TIMES, result, say, sum_line
from booklet.quilt.top.sashing import sash_part
from booklet.quilt.top.setting_squares import SquareRule, rule_for, side_square

Outline = tuple[Point, ...]


def on_point_sashing(
    size: Size,
    sashing: Sashing,
    stones: str,
    side: Length,
    allowance: Length,
    corner: Point,
    units: UnitSystem,
) -> tuple[Part, ...]:
    """The sashes, cornerstones and half cornerstones of a set on point whose blocks are `side` wide."""
    across, down, w = size.across, size.down, sashing.width
    pitch = float(side + w) * math.sqrt(2)
    centres = [((c + 0.5) * pitch, (r + 0.5) * pitch) for r in range(down) for c in range(across)]
    sashes = [
        sash
        for x, y in centres
        for sash in (
            _sash((x, y), sx, sy, float(side), float(w)) for sx in (-1, 1) for sy in (-1, 1)
        )
    ]
    upright = [(c * pitch, (r + 0.5) * pitch) for r in range(down) for c in range(across + 1)]
    level = [((c + 0.5) * pitch, r * pitch) for r in range(down + 1) for c in range(across)]
    wide, high = across * pitch, down * pitch
    squares, halves = list[Outline](), list[Outline]()
    for x, y in (*upright, *level):
        inward = _inward(x, y, wide, high)
        reach = float(w) / math.sqrt(2)
        if inward is None:
            squares.append(((x, y - reach), (x + reach, y), (x, y + reach), (x - reach, y)))
        else:
            dx, dy = inward
            left = (x + dy * reach, y - dx * reach)
            right = (x - dy * reach, y + dx * reach)
            halves.append((left, right, (x + dx * reach, y + dy * reach)))
    made = [
        sash_part("sash", sashing.fabric, (w, side), _at(sashes, corner), allowance, units),
        sash_part("cornerstone", stones, (w, w), _at(squares, corner), allowance, units),
        _halves(
            stones, w, _at(halves, corner), rule_for(allowance, units, size.cutting.ruler), units
        ),
    ]
    return tuple(part for part in made if part.places)


def _sash(centre: Point, sx: int, sy: int, side: float, width: float) -> Outline:
    """The sash on the side of a block that looks (sx, sy) from its centre."""
    out = ((side + width) / 2) / math.sqrt(2)
    x, y = centre[0] + sx * out, centre[1] + sy * out
    along = (-sy * side / 2 / math.sqrt(2), sx * side / 2 / math.sqrt(2))
    over = (sx * width / 2 / math.sqrt(2), sy * width / 2 / math.sqrt(2))
    return (
        (x - along[0] + over[0], y - along[1] + over[1]),
        (x + along[0] + over[0], y + along[1] + over[1]),
        (x + along[0] - over[0], y + along[1] - over[1]),
        (x - along[0] - over[0], y - along[1] - over[1]),
    )


def _inward(x: float, y: float, wide: float, high: float) -> tuple[int, int] | None:
    """The way into the set from a point on its edge; None for a point inside."""
    if x < ONE_POINT or x > wide - ONE_POINT:
        return (1 if x < ONE_POINT else -1), 0
    if y < ONE_POINT or y > high - ONE_POINT:
        return 0, (1 if y < ONE_POINT else -1)
    return None


def _at(outlines: list[Outline], corner: Point) -> tuple[Outline, ...]:
    """The outlines moved into the top, each clockwise on the page."""
    return tuple(shifted(_clockwise(outline), corner) for outline in outlines)


def _clockwise(outline: Outline) -> Outline:
    ends = (*outline[1:], outline[0])
    area = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(outline, ends, strict=True))
    return outline if area > 0 else outline[::-1]


def _halves(
    fabric: str, width: Length, places: tuple[Outline, ...], rule: SquareRule, units: UnitSystem
) -> Part:
    """The half cornerstones on the edge: quarters of a square, their straight grain on the edge."""
    square = side_square(width, rule)
    long = Length.of(float(width) * math.sqrt(2))
    text = sum_line(
        phrase("half cornerstone, square"),
        f"{say(width, units)} {TIMES} √2 + {say(rule.side_add, units)}",
        result(square, units),
        True,
    )
    return Part(
        name="half cornerstone",
        title=phrase("half cornerstone"),
        fabric=fabric,
        shape="quarter-square triangle",
        finished=(long, long / 2),
        cut=(square, square),
        count=len(places),
        long=False,
        places=places,
        sums=(text,),
    )
