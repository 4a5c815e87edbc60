"""Floor 3: a lattice: blocks one step apart across and one step apart down, going on in all directions."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from booklet.kit.outlines.near import NOISE
from booklet.kit.outlines.plane import Frame, Point, box_of, shifted
from booklet.kit.records import Record
from booklet.pattern import Quilt, Setting, Size

Cell = tuple[int, int]  # column and row, from 0 at the first block of the set; they go on below 0


def lattice_steps(quilt: Quilt, size: Size) -> tuple[Point, Point]:
    """The steps across and down in inches; (0, 0) twice without a lattice in the source."""
    if quilt.lattice is None:
        return (0.0, 0.0), (0.0, 0.0)
    across, down = ((x.inches(size.unit), y.inches(size.unit)) for x, y in quilt.lattice)
    return across, down


def lattice_origin(column: int, row: int, across: Point, down: Point) -> Point:
    """Where the (0, 0) of a block lies: column steps across and row steps down. So that the top stays upright, a row is
    moved back by whole steps across until it begins within one step of the first; where the step down is upright and
    the step across slopes, as in a half drop, a column is moved back by whole steps down instead. Neither step is (0, 0)."""
    back_across, back_down = _moved_back((column, row), across, down)
    columns, rows = column - back_across, row - back_down
    return (columns * across[0] + rows * down[0], columns * across[1] + rows * down[1])


def _moved_back(cell: Cell, across: Point, down: Point) -> tuple[int, int]:
    """By how many steps across, and down, a cell is moved back."""
    along = down[0] * across[0] + down[1] * across[1]
    if abs(down[0]) < NOISE < abs(across[1]):
        return 0, _whole(cell[0] * along, down)
    return _whole(cell[1] * along, across), 0


def _whole(drift: float, step: Point) -> int:
    """How many whole steps lie in a drift, which is measured along the step and times its length."""
    return math.floor(drift / (step[0] ** 2 + step[1] ** 2) + NOISE)


class Lattice(Record):
    """A lattice without end: its steps in inches, the arrangement that repeats, and the outline of every block
    about its (0, 0), by the block and how it is turned."""

    across: Point
    down: Point
    rows: tuple[tuple[Setting, ...], ...]
    outlines: Mapping[tuple[str, int], tuple[Point, ...]]

    @property
    def room(self) -> float:
        """The square inches of one cell."""
        return abs(self.across[0] * self.down[1] - self.across[1] * self.down[0])

    def setting(self, cell: Cell) -> Setting:
        """What lies in a cell."""
        row = self.rows[cell[1] % len(self.rows)]
        return row[cell[0] % len(row)]

    def origin(self, cell: Cell) -> Point:
        """Where the (0, 0) of the block in a cell lies."""
        return lattice_origin(*cell, self.across, self.down)

    def outline(self, cell: Cell) -> tuple[Point, ...]:
        """The outline of the block in a cell, where it lies."""
        setting = self.setting(cell)
        return shifted(self.outlines[setting.block, setting.turn % 360], self.origin(cell))

    def reaching(self, frame: Frame) -> tuple[Cell, ...]:
        """The cells whose blocks may reach into a frame, row by row: those whose boxes touch it."""
        return tuple(sorted(self._reaching(frame), key=lambda cell: (cell[1], cell[0])))

    def _reaching(self, frame: Frame) -> Iterator[Cell]:
        left, top, right, bottom = box_of(p for points in self.outlines.values() for p in points)
        x0, x1 = frame.left - right, frame.left + frame.width - left  # where origins may lie
        y0, y1 = frame.top - bottom, frame.top + frame.height - top
        (ax, ay), (bx, by) = self.across, self.down
        whole = ax * by - ay * bx
        corners = [(x, y) for x in (x0, x1) for y in (y0, y1)]
        rows = [(ax * y - ay * x) / whole for x, y in corners]
        columns = [(by * x - bx * y) / whole for x, y in corners]
        for row in range(math.floor(min(rows)), math.ceil(max(rows)) + 1):
            for column in range(math.floor(min(columns)), math.ceil(max(columns)) + 1):
                x, y = column * ax + row * bx, column * ay + row * by
                if x0 <= x <= x1 and y0 <= y <= y1:
                    back_across, back_down = _moved_back((column, row), self.across, self.down)
                    yield column + back_across, row + back_down
