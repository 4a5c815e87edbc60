"""Floor 8: whether the sizes take all of an arrangement, and whether its rows repeat together."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.cutting.cutting_plan import CutPattern
from booklet.kit.diagnostic import Diagnostic, warning
from booklet.pattern import Quilt, SetKind, Setting, Size
from booklet.quilt.top.on_point import on_point_cells
from booklet.quilt.top.straight import arranged

ARRANGEMENT = "arrangement"
Rows = tuple[tuple[Setting, ...], ...]


def every_place_is_taken(cut: CutPattern) -> Iterator[Diagnostic]:
    """Warnings for each arrangement: for what of it comes into no size, and for a row that begins again before the longest
    one ends."""
    sizes = [(size, size.quilt) for size in cut.pattern.sizes if size.quilt is not None]
    if not cut.pattern.complete:
        return  # a size that was left out for a fault may have taken it
    for rows in dict.fromkeys(quilt.arrange for _, quilt in sizes):
        yield from _cut_off(rows, [each for each in sizes if each[1].arrange == rows])
        yield from _uneven(rows, [each for each in sizes if each[1].arrange == rows])


def _cut_off(rows: Rows, sizes: list[tuple[Size, Quilt]]) -> Iterator[Diagnostic]:
    """A warning for the blocks that every size leaves out, at the first of them."""
    taken = {setting.span for size, quilt in sizes for setting in _settings(size, quilt)}
    left = [
        (number, place, setting)
        for number, row in enumerate(rows, 1)
        for place, setting in enumerate(row, 1)
        if setting.span not in taken
    ]
    if left:
        number, place, first = left[0]
        others = len(left) - 1
        more = f", and neither {'does' if others == 1 else 'do'} {others} more" if others else ""
        yield warning(
            ARRANGEMENT,
            f"block {place} of row {number} of `arrange`, `{first.block}`, comes into no size{more}",
            first.span,
            f"compare it with `blocks` of the sizes, which are across x down: `arrange` is "
            f"{max(map(len, rows))} x {len(rows)}",
        )


def _settings(size: Size, quilt: Quilt) -> Iterator[Setting]:
    cells = on_point_cells if quilt.set is SetKind.ON_POINT else arranged
    return (cell.setting for cell in cells(quilt, size.across, size.down))


def _uneven(rows: Rows, sizes: list[tuple[Size, Quilt]]) -> Iterator[Diagnostic]:
    """Warnings for the rows of a straight set that do not go so many times into the longest one, where a size is so wide
    that they begin again. On point, every second row is a block shorter."""
    across = [size.across for size, quilt in sizes if quilt.set is not SetKind.ON_POINT]
    longest = max(range(len(rows)), key=lambda n: (len(rows[n]), -n))
    for number, row in enumerate(rows, 1):
        if len(rows[longest]) % len(row) and max(across, default=0) > len(row):
            yield warning(
                ARRANGEMENT,
                f"row {number} of `arrange` has {len(row)} blocks, row {longest + 1} has {len(rows[longest])}: "
                f"block {len(row) + 1} of row {number} is its first again, `{row[0].block}`",
                row[0].span,
                "write as many blocks in every row, or rows that repeat together",
            )
