"""Floor 5: the places of a size's set, with the block that lies in each, those that fill a rim included."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from functools import cache

from booklet.geometry.lattice import filling_cells, lattice_origin, lattice_steps
from booklet.geometry.tiling import Tiling
from booklet.kit.plane import Point, box_of, corners, plus
from booklet.pattern import Quilt, Rim, SetKind, Setting, Size
from booklet.pressing.meetings.touching import Lain

LEAST = 1e-9  # square inches: a lattice of less room has no places
Place = tuple[int, int]  # column and row of a set, from 0
SECOND = "\u2032"  # a prime: the mark of the second version of a block


def rows_of(quilt: Quilt) -> list[tuple[Setting, ...]]:
    """The rows of the arrangement that hold blocks."""
    return [row for row in quilt.arrange if row]


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
    rows = rows_of(quilt) if quilt is not None else []
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
        return tuple(plus(point, origin) for point in line[column % len(line)])

    cells = ((column, row) for row in range(count[1]) for column in range(count[0]))
    frame = corners(box_of(point for cell in cells for point in outline(*cell)))
    return filling_cells(count, outline, frame)


def block_counts(size: Size, tilings: Mapping[str, Tiling]) -> Mapping[str, int]:
    """How many of each block the quilt of a size holds, those that fill its rim included; empty where
    it has no quilt."""
    return Counter(setting.block for _, setting in _places(size, tilings))


def places_of(size: Size, block: str, tilings: Mapping[str, Tiling]) -> tuple[Place, ...]:
    """The (column, row) of every place of a block in the quilt's set, from 0, row by row; on point the
    rows between count too. Blocks that fill the rim of a lattice lie beyond its columns and rows."""
    return tuple(place for place, setting in _places(size, tilings) if setting.block == block)
