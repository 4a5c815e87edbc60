"""Floor 6: the set on point. Square blocks stand on a corner; triangles fill the sides and corners.

The straight grain lies on the outside edge: side triangles are quarters of a square (grain on their long
side), corner triangles halves of one (grain on their short sides).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from booklet.geometry.tiling import Tiling
from booklet.kit.diagnostic import Diagnostic
from booklet.kit.measure import Length, UnitSystem
from booklet.kit.outlines.near import SAME_LENGTH
from booklet.kit.outlines.plane import shifted
from booklet.kit.words import phrase
from booklet.pattern import Quilt, Size
from booklet.quilt.sized import Part, PartShape, PlacedBlock
from booklet.quilt.sums import TIMES, result, say, sum_line
from booklet.quilt.top.setting_squares import corner_square, rule_for, side_square
from booklet.quilt.top.straight import Cell, is_rectangle, origin_for

HALF: PartShape = "half-square triangle"
QUARTER: PartShape = "quarter-square triangle"


def on_point_cells(quilt: Quilt, across: int, down: int) -> Iterator[Cell]:
    """The cells row by row: `across` in even rows, one less in the rows between; the arrangement is
    repeated over all rows, so its second row fills the rows between."""
    for row in range(2 * down - 1):
        line = quilt.arrange[row % len(quilt.arrange)]
        for column in range(across - row % 2):
            yield Cell(column, row, line[column % len(line)])


def fit_on_point(
    quilt: Quilt, size: Size, tilings: Mapping[str, Tiling], units: UnitSystem
) -> tuple[Length | None, tuple[Diagnostic, ...]]:
    """The side of the blocks of a set on point, or None with the faults: all must be equal squares."""
    faults: dict[object, Diagnostic] = {}
    side: Length | None = None
    passed_over = False
    for cell in on_point_cells(quilt, size.across, size.down):
        block = cell.setting.block
        if block not in tilings:
            passed_over = True
            continue
        tiling = tilings[block]
        side = side or Length.of(tiling.width)
        equal = all(abs(x - float(side)) <= SAME_LENGTH for x in (tiling.width, tiling.height))
        if not is_rectangle(tiling) or not equal:
            faults.setdefault(block, _not_square(cell, tiling, side, size, units))
    return (None if faults or passed_over else side), tuple(faults.values())


def _not_square(
    cell: Cell, tiling: Tiling, side: Length, size: Size, units: UnitSystem
) -> Diagnostic:
    own = f"{say(Length.of(tiling.width), units)} x {result(Length.of(tiling.height), units)}"
    return Diagnostic(
        code="set-not-filled",
        message=f"block `{cell.setting.block}` is {own} in size `{size.id}`, but a set on point takes"
        f" squares of one size, here {say(side, units)} x {result(side, units)}",
        span=cell.setting.span,
        hint=f"make block `{cell.setting.block}` such a square, or use `set: straight`",
    )


def place_on_point(
    quilt: Quilt,
    size: Size,
    tilings: Mapping[str, Tiling],
    diagonal: float,
    corner: tuple[float, float],
    gap: float,
) -> tuple[PlacedBlock, ...]:
    """Every block in its place; `corner` is the top left of the set in the finished top, `diagonal` how far
    apart blocks of a row lie, `gap` the width of the sashing. A block's own top side looks up and to
    the right before it is turned by the arrangement."""
    placed = []
    for cell in on_point_cells(quilt, size.across, size.down):
        inset = (diagonal / 2 if cell.row % 2 else 0.0) + gap / math.sqrt(2)
        at = (
            corner[0] + cell.column * diagonal + inset,
            corner[1] + cell.row * diagonal / 2 + gap / math.sqrt(2),
        )
        turn = (45 + cell.setting.turn) % 360
        origin = origin_for(tilings[cell.setting.block].outline.corners, turn, at)
        placed.append(cell.placed(turn, origin))
    return tuple(placed)


def triangle_parts(
    size: Size,
    fabric: str,
    side: Length,
    allowance: Length,
    corner: tuple[float, float],
    units: UnitSystem,
    gap: Length,
) -> tuple[Part, ...]:
    """The side triangles (if any) and the four corner triangles of a set on point.

    Sashing round every block, `gap` wide, moves them apart and leaves them as large as they are.
    """
    rule, d = rule_for(allowance, units, size.cutting.ruler), float(side + gap) * math.sqrt(2)
    diagonal = Length.of(float(side) * math.sqrt(2))
    across, down, h = size.across, size.down, float(diagonal) / 2
    w, t = across * d, down * d
    level = [((k + 1) * d - h, (k + 1) * d + h, (k + 1) * d) for k in range(across - 1)]
    upright = [((k + 1) * d - h, (k + 1) * d + h, (k + 1) * d) for k in range(down - 1)]
    sides = (
        *(((a, 0.0), (b, 0.0), (m, h)) for a, b, m in level),
        *(((w, a), (w, b), (w - h, m)) for a, b, m in upright),
        *(((b, t), (a, t), (m, t - h)) for a, b, m in reversed(level)),
        *(((0.0, b), (0.0, a), (h, m)) for a, b, m in reversed(upright)),
    )
    corners = (
        ((0.0, 0.0), (h, 0.0), (0.0, h)),
        ((w, 0.0), (w, h), (w - h, 0.0)),
        ((w, t), (w - h, t), (w, t - h)),
        ((0.0, t), (0.0, t - h), (h, t)),
    )
    big, small = side_square(side, rule), corner_square(side, rule)
    root = say(side, units)
    made = (
        ("side triangle", phrase("setting triangle, sides"), phrase("side triangle, square"), QUARTER, (diagonal, diagonal / 2), big, sides,
         f"{root} {TIMES} √2 + {say(rule.side_add, units)}"),
        ("corner triangle", phrase("setting triangle, corners"), phrase("corner triangle, square"), HALF, (diagonal / 2, diagonal / 2), small, corners,
         f"{root} ÷ √2 + {say(rule.corner_add, units)}"),
    )  # fmt: skip
    return tuple(
        Part(
            name=name,
            title=title,
            fabric=fabric,
            shape=shape,
            finished=finished,
            cut=(square, square),
            count=len(places),
            long=False,
            places=tuple(shifted(place, corner) for place in places),
            sums=(sum_line(square_of, sum, result(square, units), True),),
        )
        for name, title, square_of, shape, finished, square, places, sum in made
        if places
    )
