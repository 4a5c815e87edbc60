"""Floor 5: which blocks lie edge to edge in a size's quilt, and how often.

In a straight set a block has a neighbour on its right and one below. On point the rows are half a block
apart, every second one a block shorter, and every block is turned an eighth clockwise: the neighbour at
its lower right lies along its right edge, the one at its lower left along its bottom edge.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cache

from booklet.geometry.lattice import filling_cells, lattice_origin, lattice_steps
from booklet.geometry.tiling import Point, Tiling
from booklet.geometry.vectors import shift_point
from booklet.pattern import Quilt, Rim, SetKind, Setting, Size
from booklet.pressing.pressing import Layout
from booklet.pressing.touching import Lain

LEAST = 1e-9  # square inches: a lattice of less room has no places
Place = tuple[int, int]  # column and row of a set, from 0
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
    if quilt is None or quilt.sashing is not None:
        return ()
    across, down = lattice_steps(quilt, size)
    places = _places(size, tilings)
    known = all(setting.block in tilings for _, setting in places)
    if not known or abs(across[0] * down[1] - across[1] * down[0]) < LEAST:
        return ()
    return tuple(
        Lain(setting.block, setting.turn % 360, lattice_origin(*place, across, down))
        for place, setting in places
    )


def _places(size: Size, tilings: Mapping[str, Tiling]) -> list[tuple[Place, Setting]]:
    """Every place of a set with what lies there, row by row, then those that fill a lattice's rim."""
    quilt = size.quilt
    rows = _rows(quilt) if quilt is not None else []
    if quilt is None or not rows:
        return []

    def found(place: Place) -> tuple[Place, Setting]:
        row = rows[place[1] % len(rows)]
        return place, row[place[0] % len(row)]

    on_point = quilt.set is SetKind.ON_POINT
    lines = 2 * size.down - 1 if on_point else size.down
    places = [
        found((column, line))
        for line in range(lines)
        for column in range(size.across - line % 2 if on_point else size.across)
    ]
    if quilt.set is SetKind.LATTICE and quilt.rim is Rim.FILL:
        outlines = tuple(tuple(_outline(setting, tilings) for setting in row) for row in rows)
        if all(outline for row in outlines for outline in row):
            steps = lattice_steps(quilt, size)
            places += map(found, _filling((size.across, size.down), steps, outlines))
    return places


def _outline(setting: Setting, tilings: Mapping[str, Tiling]) -> tuple[Point, ...]:
    """The outline of a block, of either version, as it is turned, about its (0, 0); nothing without a
    tiling."""
    tiling = tilings.get(setting.block.removesuffix(SECOND))
    lain = Lain(setting.block, setting.turn % 360, (0.0, 0.0))
    return tuple(map(lain.place, tiling.outline.points)) if tiling is not None else ()


@cache  # the same for every way of pressing that is tried
def _filling(
    count: Place,
    steps: tuple[Point, Point],
    outlines: tuple[tuple[tuple[Point, ...], ...], ...],
) -> tuple[Place, ...]:
    """The places beyond a lattice of `count` columns and rows that fill its frame; `outlines` repeat
    row by row."""
    if abs(steps[0][0] * steps[1][1] - steps[0][1] * steps[1][0]) < LEAST:
        return ()

    def outline(column: int, row: int) -> tuple[Point, ...]:
        line = outlines[row % len(outlines)]
        origin = lattice_origin(column, row, *steps)
        return tuple(shift_point(point, origin) for point in line[column % len(line)])

    cells = ((column, row) for row in range(count[1]) for column in range(count[0]))
    frame = _frame(point for cell in cells for point in outline(*cell))
    return filling_cells(count, outline, frame)


def _frame(points: Iterable[Point]) -> tuple[Point, ...]:
    """The corners of the smallest upright rectangle about some points, clockwise."""
    xs, ys = zip(*points, strict=True)
    left, right, top, bottom = min(xs), max(xs), min(ys), max(ys)
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def block_counts(size: Size, tilings: Mapping[str, Tiling]) -> Mapping[str, int]:
    """How many of each block the quilt of a size holds, those that fill its rim included; empty where
    it has no quilt."""
    return Counter(setting.block for _, setting in _places(size, tilings))


def places_of(size: Size, block: str, tilings: Mapping[str, Tiling]) -> tuple[Place, ...]:
    """The (column, row) of every place of a block in the quilt's set, from 0, row by row; on point the
    rows between count too. Blocks that fill the rim of a lattice lie beyond its columns and rows."""
    return tuple(place for place, setting in _places(size, tilings) if setting.block == block)


def every_second(
    size: Size, *, turn: int = 0, mark: str = "", layout: Layout = Layout.CHEQUER
) -> Size | None:
    """The size with every second block of its set turned further or named apart by `mark`; None where
    it has no set, or blocks of a lattice would be turned, whose outline and middle may be any. On point neighbours
    always lie in rows next to each other, so the rows between are the second ones."""
    quilt = size.quilt
    if quilt is None or not _rows(quilt):
        return None
    if quilt.set is SetKind.LATTICE and turn:
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
