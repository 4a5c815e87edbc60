"""Floor 3: the places of a lattice set: blocks one step apart across and one step apart down."""

from __future__ import annotations

import math
from collections.abc import Callable

from booklet.geometry import plane
from booklet.kit.near import NOISE
from booklet.kit.plane import Point
from booklet.pattern import Quilt, Size

FARTHEST = 3  # steps beyond the set in which blocks are looked for to fill its rim
FITS = 1e-3  # square inches: less of a block is none
WHOLE = 1.0  # square inches by which what is covered may miss the frame


def lattice_steps(quilt: Quilt, size: Size) -> tuple[Point, Point]:
    """The steps across and down in inches; (0, 0) twice without a lattice in the source."""
    if quilt.lattice is None:
        return (0.0, 0.0), (0.0, 0.0)
    across, down = ((x.inches(size.unit), y.inches(size.unit)) for x, y in quilt.lattice)
    return across, down


def lattice_origin(column: int, row: int, across: Point, down: Point) -> Point:
    """Where the (0, 0) of a block lies: column steps across and row steps down, the row moved back by
    whole steps across so that it begins within one step of the first. `across` is not (0, 0)."""
    drift = row * (down[0] * across[0] + down[1] * across[1])
    back = math.floor(drift / (across[0] ** 2 + across[1] ** 2) + NOISE)
    columns = column - back
    return (columns * across[0] + row * down[0], columns * across[1] + row * down[1])


def filling_cells(
    count: tuple[int, int],
    outline_at: Callable[[int, int], tuple[Point, ...]],
    frame: tuple[Point, ...],
) -> tuple[tuple[int, int], ...]:
    """The (column, row) of the cells beyond a set of `count` columns and rows that fill its frame, row
    by row; nothing if they do not. `outline_at` gives the outline of a cell's block."""
    found: list[tuple[int, int]] = []
    covered = 0.0
    for row in range(-FARTHEST, count[1] + FARTHEST):
        for column in range(-FARTHEST, count[0] + FARTHEST):
            share = plane.overlap_area(outline_at(column, row), frame)
            covered += share
            inside = 0 <= row < count[1] and 0 <= column < count[0]
            if share > FITS and not inside:
                found.append((column, row))
    return tuple(found) if abs(covered - plane.area(frame)) < WHOLE else ()
