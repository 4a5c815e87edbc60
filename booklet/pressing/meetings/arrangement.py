"""Floor 5: which blocks lie edge to edge in a size's quilt, and how often.

In a straight set a block has a neighbour on its right and one below. On point the rows are half a block
apart, every second one a block shorter, and every block is turned an eighth clockwise: the neighbour at
its lower right lies along its right edge, the one at its lower left along its bottom edge.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from booklet.kit.records import Record, replace
from booklet.pattern import SetKind, Setting, Size
from booklet.pressing.meetings.places import rows_of
from booklet.pressing.pressing import Layout


class TurnedBlock(Record):
    """A block as it is arranged: turned clockwise by `turn` degrees."""

    block: str
    turn: int


class Neighbours(Record):
    """Two blocks edge to edge: `second` at the right edge of `first`, or else at its bottom edge."""

    first: TurnedBlock
    second: TurnedBlock
    at_right: bool


def neighbours_of(size: Size) -> Mapping[Neighbours, int]:
    """Every kind of neighbours in a size's quilt with how often they come; none with sashing between
    the blocks, without a quilt, or in a lattice (there `lattice_places` tells)."""
    quilt = size.quilt
    if quilt is None or quilt.sashing is not None or not rows_of(quilt):
        return {}
    if quilt.set is SetKind.STRAIGHT:
        found = _straight(rows_of(quilt), size.across, size.down)
    elif quilt.set is SetKind.ON_POINT:
        found = _on_point(rows_of(quilt), size.across, size.down)
    else:
        return {}
    counts: dict[Neighbours, int] = {}
    for pair, times in found:
        if times > 0:
            counts[pair] = counts.get(pair, 0) + times
    return counts


def every_second(size: Size, mark: str, layout: Layout = Layout.CHEQUER) -> Size | None:
    """The size with every second block of its set named apart by `mark`; None where it has no set. On point neighbours
    always lie in rows next to each other, so the rows between are the second ones."""
    quilt = size.quilt
    if quilt is None or not rows_of(quilt):
        return None
    if quilt.set is SetKind.ON_POINT:
        if layout is not Layout.CHEQUER:
            return None
        layout = Layout.ROWS
    if quilt.filled is not None:
        laid = tuple(
            replace(at, setting=replace(at.setting, block=at.setting.block + mark))
            if _second(layout, at.row, at.column)
            else at
            for at in quilt.filled.laid
        )
        return replace(size, quilt=replace(quilt, filled=replace(quilt.filled, laid=laid)))
    rows = rows_of(quilt)
    tall = len(rows) if len(rows) % 2 == 0 else 2 * len(rows)
    arrange = []
    for i in range(tall):
        row = rows[i % len(rows)]
        wide = len(row) if len(row) % 2 == 0 else 2 * len(row)
        arrange.append(
            tuple(
                replace(s, block=s.block + mark) if _second(layout, i, j) else s
                for j, s in enumerate(row[j % len(row)] for j in range(wide))
            )
        )
    return replace(size, quilt=replace(quilt, arrange=tuple(arrange)))


def _second(layout: Layout, row: int, column: int) -> bool:
    """Whether the block in a row and column is one of the second ones."""
    if layout is Layout.CHEQUER:
        return (row + column) % 2 == 1
    return (row if layout is Layout.ROWS else column) % 2 == 1


def _turned(setting: Setting) -> TurnedBlock:
    return TurnedBlock(setting.block, setting.turn % 360)


def _straight(
    rows: list[tuple[Setting, ...]], across: int, down: int
) -> Iterator[tuple[Neighbours, int]]:
    """The neighbours of a straight set: the arrangement repeats, so each place of it is counted."""
    for i, row in enumerate(rows):
        below = rows[(i + 1) % len(rows)]
        for j, here in enumerate(row):
            beside = row[(j + 1) % len(row)]
            times = _times(i, len(rows), down) * _times(j, len(row), across - 1)
            yield Neighbours(_turned(here), _turned(beside), True), times
            for k, there in enumerate(below):
                times = _times(i, len(rows), down - 1)
                times *= _both(j, len(row), k, len(below), across)
                yield Neighbours(_turned(here), _turned(there), False), times


def _on_point(
    rows: list[tuple[Setting, ...]], across: int, down: int
) -> Iterator[tuple[Neighbours, int]]:
    """The neighbours of a set on point, place by place."""
    for i in range(2 * down - 2):
        row, below = rows[i % len(rows)], rows[(i + 1) % len(rows)]
        odd = i % 2
        for j in range(across - odd):
            here = _turned(row[j % len(row)])
            for column, at_right in ((j + odd, True), (j + odd - 1, False)):
                if 0 <= column < across - 1 + odd:
                    yield Neighbours(here, _turned(below[column % len(below)]), at_right), 1


def _times(place: int, period: int, length: int) -> int:
    """How often `place` of a pattern of `period` places comes in the first `length`."""
    return max(0, (length - place + period - 1) // period)


def _both(a: int, m: int, b: int, n: int, length: int) -> int:
    """How many columns below `length` are a modulo m and b modulo n."""
    if m == n:
        return _times(a, m, length) if a == b else 0
    return sum(1 for column in range(a, length, m) if column % n == b)
