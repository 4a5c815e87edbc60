"""Floor 6: the rows of a set on point as they are sewn. They run from the lower left to the upper right,
the first at the top left, with their setting triangles; the four corner triangles come after all rows.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from booklet.geometry.tiling import Tiling
from booklet.kit.records import Record
from booklet.pattern import SetKind
from booklet.pressing.meetings.touching_rims import BlockInPlace
from booklet.quilt.assembling.row_pressing import Outline, RowPart, RowPartKind, cloth_of, in_rows
from booklet.quilt.assembling.top_pressing import kind_of
from booklet.quilt.sized import PlacedBlock, SizedQuilt

CORNER = "corner triangle"


class InRow(Record, kw_only=True):
    """One thing in a row: a block, or a part by its name; its outline in the top."""

    kind: RowPartKind
    name: str  # of the block, or of the part
    fabric: str  # of the part
    outline: Outline
    placed: PlacedBlock | None = None


class SlantedRow(Record):
    """A row from its lower left end to its upper right one. `number` counts rows of blocks and rows of
    sashes apart, from 1. Where a row ends in a corner of the set, its corner triangle is `start` or `end`."""

    number: int
    items: tuple[InRow, ...]
    start: InRow | None
    end: InRow | None

    @property
    def has_blocks(self) -> bool:
        """Whether it is a row of blocks, not of sashes and cornerstones."""
        return any(item.kind is RowPartKind.BLOCK for item in self.items)


class SlantedSet(Record):
    """All rows of a set on point, and the corner triangles at the upper left and the lower right, which
    lie along the first row and the last."""

    rows: tuple[SlantedRow, ...]
    first: InRow
    last: InRow


def slanted_set(quilt: SizedQuilt, tilings: Mapping[str, Tiling]) -> SlantedSet | None:
    """The rows of a set on point; None of any other set. `tilings` by block id."""
    if quilt.finished is None or quilt.size.quilt is None:
        return None
    if quilt.size.quilt.set is not SetKind.ON_POINT:
        return None
    items = [*_blocks(quilt, tilings), *_parts(quilt)]
    cloths = [
        cloth_of(item.kind, item.outline, slanted=True, number=number)
        for number, item in enumerate(items)
    ]
    found = in_rows(cloths)
    corners = [
        InRow(kind=RowPartKind.TRIANGLE, name=part.name, fabric=part.fabric, outline=outline)
        for part in quilt.parts
        if part.name == CORNER
        for outline in part.places
    ]
    if found is None or len(corners) != 4:
        return None
    first, upper_right, last, lower_left = corners  # clockwise, as they are placed
    rows, counts = [], {True: 0, False: 0}
    for row in found:
        blocks = any(cloth.kind is RowPartKind.BLOCK for cloth in row)
        counts[blocks] += 1
        start, end = (
            corner if blocks and _beside(corner, row) else None
            for corner in (lower_left, upper_right)
        )
        rows.append(SlantedRow(counts[blocks], tuple(items[c.number] for c in row), start, end))
    return SlantedSet(tuple(rows), first, last)


def _blocks(quilt: SizedQuilt, tilings: Mapping[str, Tiling]) -> Iterator[InRow]:
    for placed in quilt.placed:
        put = BlockInPlace(placed.block, placed.turn, placed.origin).place
        outline = tuple(map(put, tilings[placed.block].outline.points))
        yield InRow(
            kind=RowPartKind.BLOCK, name=placed.block, fabric="", outline=outline, placed=placed
        )


def _parts(quilt: SizedQuilt) -> Iterator[InRow]:
    for part in quilt.parts:
        if kind := kind_of(part):
            yield from (
                InRow(kind=kind, name=part.name, fabric=part.fabric, outline=outline)
                for outline in part.places
            )


def _beside(corner: InRow, row: list[RowPart]) -> bool:
    """Whether the middle of a corner triangle lies at the height of a row."""
    about = cloth_of(corner.kind, corner.outline, slanted=True)
    return row[0].top < (about.top + about.bottom) / 2 < row[0].bottom
