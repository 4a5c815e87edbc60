"""Floor 3: the places of a lattice set: blocks one step apart across and one step apart down."""

from __future__ import annotations

import math

from booklet.geometry.tiling import Point
from booklet.pattern import Quilt, Size


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
    back = math.floor(drift / (across[0] ** 2 + across[1] ** 2) + 1e-9)
    columns = column - back
    return (columns * across[0] + row * down[0], columns * across[1] + row * down[1])
