"""Floor 5: which blocks lie edge to edge in a size's quilt, and how often.

In a straight set a block has a neighbour on its right and one below. On point the rows are half a block
apart, every second one a block shorter, and every block is turned an eighth clockwise: the neighbour at
its lower right lies along its right edge, the one at its lower left along its bottom edge.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from booklet.geometry.lattice import filling_cells, lattice_origin, lattice_steps
from booklet.geometry.tiling import Point, Tiling
from booklet.pattern import Quilt, Rim, SetKind, Setting, Size
from booklet.pressing.pressing import Layout
from booklet.pressing.touching import Lain

LEAST = 1e-9  # square inches: a lattice of less room has no places
SECOND = "\u2032"  # a prime: the mark of the second version of a block


@dataclass(frozen=True, slots=True)
class Turned:
    """A block as it is arranged: turned clockwise by `turn` degrees."""

    block: str
    turn: int


@dataclass(frozen=True, slots=True)
class Neighbours:
    """Two blocks edge to edge: `second` at the right edge of `first`, or else at its bottom edge."""

    first: Turned
    second: Turned
    at_right: bool


def neighbours_of(size: Size) -> Mapping[Neighbours, int]:
    """Every kind of neighbours in a size's quilt with how often they come; none with sashing between
    the blocks, without a quilt, or in a lattice (there `lattice_places` tells)."""
    quilt = size.quilt
    if quilt is None or quilt.sashing is not None or not _rows(quilt):
        return {}
    if quilt.set is SetKind.STRAIGHT:
        found = _straight(_rows(quilt), size.across, size.down)
    elif quilt.set is SetKind.ON_POINT:
        found = _on_point(_rows(quilt), size.across, size.down)
    else:
        return {}
    counts: dict[Neighbours, int] = {}
    for pair, times in found:
        if times > 0:
            counts[pair] = counts.get(pair, 0) + times
    return counts


def lattice_places(size: Size, tilings: Mapping[str, Tiling]) -> tuple[Lain, ...]:
    """Every block of a lattice set where it lies, row by row, and then those that fill its rim; none
    without steps to lay them by, or with a block that has no tiling."""
    quilt = size.quilt
    rows = _rows(quilt) if quilt is not None else []
    if quilt is None or not rows or quilt.sashing is not None:
        return ()
    across, down = lattice_steps(quilt, size)
    known = all(setting.block in tilings for row in rows for setting in row)
    if not known or abs(across[0] * down[1] - across[1] * down[0]) < LEAST:
        return ()

    def lain(column: int, row: int) -> Lain:
        line = rows[row % len(rows)]
        setting = line[column % len(line)]
        origin = lattice_origin(column, row, across, down)
        return Lain(setting.block, setting.turn % 360, origin)

    def outline(column: int, row: int) -> tuple[Point, ...]:
        block = lain(column, row)
        return tuple(map(block.place, tilings[block.block].outline.points))

    cells = [(column, row) for row in range(size.down) for column in range(size.across)]
    if quilt.rim is Rim.FILL:
        frame = _frame(point for cell in cells for point in outline(*cell))
        cells += filling_cells((size.across, size.down), outline, frame)
    return tuple(lain(*cell) for cell in cells)


def _frame(points: Iterable[Point]) -> tuple[Point, ...]:
    """The corners of the smallest upright rectangle about some points, clockwise."""
    xs, ys = zip(*points, strict=True)
    left, right, top, bottom = min(xs), max(xs), min(ys), max(ys)
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def block_counts(size: Size) -> Mapping[str, int]:
    """How many of each block the quilt of a size holds; empty where it has no quilt."""
    quilt = size.quilt
    rows = _rows(quilt) if quilt is not None else []
    counts: dict[str, int] = {}
    on_point = quilt is not None and quilt.set is SetKind.ON_POINT
    for line in range(_lines(size) if rows else 0):
        row = rows[line % len(rows)]
        length = size.across - line % 2 if on_point else size.across
        for j, setting in enumerate(row):
            times = _times(j, len(row), length)
            counts[setting.block] = counts.get(setting.block, 0) + times
    return counts


def places_of(size: Size, block: str) -> tuple[tuple[int, int], ...]:
    """The (column, row) of every place of a block in the quilt's set, from 0, row by row; on point the
    rows between count too."""
    quilt = size.quilt
    rows = _rows(quilt) if quilt is not None else []
    on_point = quilt is not None and quilt.set is SetKind.ON_POINT
    return tuple(
        (column, line)
        for line in range(_lines(size) if rows else 0)
        for row in (rows[line % len(rows)],)
        for column in range(size.across - line % 2 if on_point else size.across)
        if row[column % len(row)].block == block
    )


def _lines(size: Size) -> int:
    """How many rows of blocks a set has."""
    on_point = size.quilt is not None and size.quilt.set is SetKind.ON_POINT
    return 2 * size.down - 1 if on_point else size.down


def every_second(
    size: Size, *, turn: int = 0, mark: str = "", layout: Layout = Layout.CHEQUER
) -> Size | None:
    """The size with every second block of its set turned further or named apart by `mark`; None where
    it has no set, blocks of a lattice would be turned, which have any outline, or further blocks fill its
    rim, which are in no row or column of the set. On point neighbours
    always lie in rows next to each other, so the rows between are the second ones."""
    quilt = size.quilt
    if quilt is None or not _rows(quilt):
        return None
    if quilt.set is SetKind.LATTICE and (turn or quilt.rim is Rim.FILL):
        return None
    if quilt.set is SetKind.ON_POINT:
        if layout is not Layout.CHEQUER:
            return None
        layout = Layout.ROWS
    rows = _rows(quilt)
    tall = len(rows) if len(rows) % 2 == 0 else 2 * len(rows)
    arrange = []
    for i in range(tall):
        row = rows[i % len(rows)]
        wide = len(row) if len(row) % 2 == 0 else 2 * len(row)
        arrange.append(
            tuple(
                replace(s, block=s.block + mark, turn=(s.turn + turn) % 360)
                if _second(layout, i, j)
                else s
                for j, s in enumerate(row[j % len(row)] for j in range(wide))
            )
        )
    return replace(size, quilt=replace(quilt, arrange=tuple(arrange)))


def _second(layout: Layout, row: int, column: int) -> bool:
    """Whether the block in a row and column is one of the second ones."""
    if layout is Layout.CHEQUER:
        return (row + column) % 2 == 1
    return (row if layout is Layout.ROWS else column) % 2 == 1


def _rows(quilt: Quilt) -> list[tuple[Setting, ...]]:
    return [row for row in quilt.arrange if row]


def _turned(setting: Setting) -> Turned:
    return Turned(setting.block, setting.turn % 360)


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
