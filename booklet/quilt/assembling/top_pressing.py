"""Floor 6: how a whole top is pressed where its parts are joined: its rows, then its borders.

In a lattice the blocks may have any outline. Where they lie in no rows, three or more seams between blocks
end at a point, and all such points can be fanned if and only if every block has an even number of them
round it: the seams between blocks are a plane graph, and it has no odd cycle if no face of it is odd.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from enum import Enum

from booklet.geometry.tiling import Tiling
from booklet.kit.outlines.near import SAME_ANGLE
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record
from booklet.pattern import Corners, SetKind
from booklet.pressing.meetings.meeting import FINE, cell_of
from booklet.pressing.meetings.touching_rims import BlockInPlace
from booklet.quilt.assembling.row_pressing import (
    Outline,
    PressedRow,
    RowPart,
    RowPartKind,
    cloth_of,
    press_rows,
)
from booklet.quilt.sized import BorderPlan, Part, SizedQuilt

FULL = 359.9  # degrees: the blocks at a point close round it
KINDS = {
    "sash": RowPartKind.SASH,
    "long sash": RowPartKind.SASH,
    "cornerstone": RowPartKind.STONE,
    "half cornerstone": RowPartKind.STONE,
    "side triangle": RowPartKind.TRIANGLE,
}


class Points(Enum):
    """Whether the points between the blocks of a lattice can all be fanned, or there are none."""

    FAN = "fan"
    ODD = "odd"
    NONE = "none"


class PressedTop(Record, kw_only=True):
    """A top as it is pressed. `rows` is empty for blocks in no rows, and then `points` is given; with
    `slanted` rows the first lies at the top left. `borders` holds the rows of each border about the
    top within it, from the innermost; of a mitred one nothing."""

    rows: tuple[PressedRow, ...]
    slanted: bool
    points: Points | None
    corner_triangles: bool
    borders: tuple[tuple[PressedRow, ...], ...]

    @property
    def rows_opposed(self) -> bool:
        """Whether rows of blocks are pressed to the left and to the right."""
        plain = (row for row in self.rows if row.right and RowPartKind.SASH not in row.kinds)
        return len({row.right[0] for row in plain}) > 1


def press_top(quilt: SizedQuilt, tilings: Mapping[str, Tiling]) -> PressedTop | None:
    """How the parts of a quilt are pressed where they are joined; None without a quilt. `tilings` by
    block id."""
    if quilt.finished is None or quilt.size.quilt is None:
        return None
    slanted = quilt.size.quilt.set is SetKind.ON_POINT
    outlines = [
        tuple(map(BlockInPlace(p.block, p.turn, p.origin).place, tilings[p.block].outline.points))
        for p in quilt.placed
    ]
    cloths = [cloth_of(RowPartKind.BLOCK, outline, slanted=slanted) for outline in outlines]
    cloths += _parts(quilt, slanted=slanted)
    filled = all(_upright(outline) for outline in outlines) or slanted
    rows = press_rows(cloths) if filled else None
    return PressedTop(
        rows=rows or (),
        slanted=slanted,
        points=None if rows else _points(outlines),
        corner_triangles=any(part.name == "corner triangle" for part in quilt.parts),
        borders=tuple(_border(quilt, border) for border in quilt.borders),
    )


def _parts(quilt: SizedQuilt, *, slanted: bool) -> Iterator[RowPart]:
    """The sashes, cornerstones and side triangles of a set. Corner triangles come after all rows."""
    for part in quilt.parts:
        if kind := kind_of(part):
            yield from (cloth_of(kind, outline, slanted=slanted) for outline in part.places)


def kind_of(part: Part) -> RowPartKind | None:
    """What a part is in a row of a set; None of what lies in none."""
    return KINDS.get(part.name.rstrip(" 0123456789"))


BORDER_PARTS = {
    "sides": RowPartKind.BORDER,
    "top and bottom": RowPartKind.BORDER,
    "corner squares": RowPartKind.SQUARE,
}
"""What the parts of a border are in its rows."""


def _border(quilt: SizedQuilt, border: BorderPlan) -> tuple[PressedRow, ...]:
    """The rows of a border and of the top within it, as one cloth."""
    if border.corners is Corners.MITRED or quilt.finished is None:
        return ()
    parts = {part.name: part.places for part in quilt.parts}
    cloths = [
        cloth_of(kind, outline)
        for name, kind in BORDER_PARTS.items()
        for outline in parts.get(f"border {border.number} {name}", ())
    ]
    wide, high = (float(side) for side in border.inside)
    left, top = (float(quilt.finished[0]) - wide) / 2, (float(quilt.finished[1]) - high) / 2
    inside = RowPart(kind=RowPartKind.TOP, left=left, top=top, right=left + wide, bottom=top + high)
    return press_rows([*cloths, inside]) or ()


def _upright(outline: Outline) -> bool:
    """Whether an outline is an upright rectangle."""
    about, corners = cloth_of(RowPartKind.BLOCK, outline), _corners(outline)
    return len(corners) == 4 and all(
        min(abs(x - about.left), abs(x - about.right)) <= FINE
        and min(abs(y - about.top), abs(y - about.bottom)) <= FINE
        for (x, y), _ in corners
    )


def _points(outlines: Sequence[Outline]) -> Points:
    """Whether the points where three or more blocks have a corner can all be fanned."""
    around: dict[tuple[int, int], list[float]] = {}
    for outline in outlines:
        for corner, angle in _corners(outline):
            around.setdefault(cell_of(corner), []).append(angle)
    closed = {cell for cell, angles in around.items() if len(angles) > 2 and sum(angles) > FULL}
    if not closed:
        return Points.NONE
    faces = [[cell_of(corner) for corner, _ in _corners(outline)] for outline in outlines]
    inner = [face for face in faces if all(cell in closed for cell in face)]
    return Points.ODD if any(len(face) % 2 for face in inner) else Points.FAN


def _corners(outline: Outline) -> list[tuple[Point, float]]:
    """The corners of an outline with the angle inside, in degrees; points on a straight side are none."""
    found = []
    for k, at in enumerate(outline):
        before, after = outline[k - 1], outline[(k + 1) % len(outline)]
        back = math.atan2(before[1] - at[1], before[0] - at[0])
        on = math.atan2(after[1] - at[1], after[0] - at[0])
        angle = math.degrees(back - on) % 360
        if abs(angle - 180) > SAME_ANGLE:
            found.append((at, angle))
    return found
