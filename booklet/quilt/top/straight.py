"""Floor 6: the straight set. Blocks in columns and rows, turned as arranged, each filling its place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from booklet.geometry.tiling import Tiling
from booklet.geometry.words import area_words
from booklet.kit.diagnostic import Diagnostic
from booklet.kit.measure import ZERO, Length, UnitSystem
from booklet.kit.outlines.near import SAME_LENGTH
from booklet.kit.outlines.plane import Point, box_of, turn_point
from booklet.kit.records import Record
from booklet.pattern import Quilt, Setting, Size
from booklet.quilt.sized import PlacedBlock
from booklet.quilt.sums import result


class Cell(Record):
    """A block in its place of the set; columns and rows count from 0."""

    column: int
    row: int
    setting: Setting

    def placed(self, turn: int, origin: Point) -> PlacedBlock:
        """The block where it comes to lie in the top."""
        block, column, row = self.setting.block, self.column, self.row
        return PlacedBlock(block=block, column=column, row=row, turn=turn, origin=origin)


class Grid(Record):
    """A straight set that fits: its cells, the finished widths of columns and heights of rows."""

    cells: tuple[Cell, ...]
    columns: tuple[Length, ...]
    rows: tuple[Length, ...]


def arranged(quilt: Quilt, across: int, down: int) -> Iterator[Cell]:
    """The cells of an `across` x `down` set, row by row: the arrangement repeated over it."""
    for row in range(down):
        line = quilt.arrange[row % len(quilt.arrange)]
        for column in range(across):
            yield Cell(column, row, line[column % len(line)])


def turned_size(tiling: Tiling, turn: int) -> tuple[float, float]:
    """The width and height of a block turned by a quarter turn or none."""
    size = tiling.width, tiling.height
    return (size[1], size[0]) if turn % 180 else size


def is_rectangle(tiling: Tiling) -> bool:
    """Whether the block is as large as its bounding box: only an upright rectangle is."""
    return abs(tiling.area - tiling.width * tiling.height) <= SAME_LENGTH * max(1.0, tiling.width)


def fit_grid(
    quilt: Quilt, size: Size, tilings: Mapping[str, Tiling], units: UnitSystem
) -> tuple[Grid | None, tuple[Diagnostic, ...]]:
    """The straight set of a size, or None with the faults of the blocks that do not fill it.

    `tilings` maps block id to the sound blocks; others are passed over (their fault is told
    elsewhere), and then there is no grid.
    """
    cells = tuple(arranged(quilt, size.across, size.down))
    known = [cell for cell in cells if cell.setting.block in tilings]
    widths: dict[int, float] = {}
    heights: dict[int, float] = {}
    faults: dict[tuple[object, ...], Diagnostic] = {}
    for cell in known:
        tiling = tilings[cell.setting.block]
        if not is_rectangle(tiling):
            faults.setdefault((cell.setting.block,), _not_rectangle(cell, tiling, units))
            continue
        width, height = turned_size(tiling, cell.setting.turn)
        place = (widths.setdefault(cell.column, width), heights.setdefault(cell.row, height))
        if abs(width - place[0]) > SAME_LENGTH or abs(height - place[1]) > SAME_LENGTH:
            key = (cell.setting.span, cell.setting.block)
            faults.setdefault(key, _does_not_fill(cell, (width, height), place, size, units))
    if faults or len(known) < len(cells):
        return None, tuple(faults.values())
    return Grid(cells, _lengths(widths), _lengths(heights)), ()


def _lengths(found: Mapping[int, float]) -> tuple[Length, ...]:
    return tuple(Length.of(found[index]) for index in sorted(found))


def _not_rectangle(cell: Cell, tiling: Tiling, units: UnitSystem) -> Diagnostic:
    block, box = cell.setting.block, tiling.width * tiling.height
    return Diagnostic(
        code="set-not-filled",
        message=f"block `{block}` is no rectangle, so it cannot fill its place in a straight set:"
        f" it covers {area_words(tiling.area, units)} of {_say(tiling.width, units)} x {_say(tiling.height, units)} ="
        f" {area_words(box, units)}",
        span=cell.setting.span,
        hint="fill the corners of the block with patches, or take a block with straight sides",
    )


def _does_not_fill(
    cell: Cell,
    found: tuple[float, float],
    place: tuple[float, float],
    size: Size,
    units: UnitSystem,
) -> Diagnostic:
    turn = f" turned {cell.setting.turn}" if cell.setting.turn else ""
    too_wide = abs(found[0] - place[0]) > SAME_LENGTH
    line = f"column {cell.column + 1}" if too_wide else f"row {cell.row + 1}"
    own, other = (found[0], place[0]) if too_wide else (found[1], place[1])
    axis, more = "wide" if too_wide else "high", "over" if own > other else "short"
    return Diagnostic(
        code="set-not-filled",
        message=f"block `{cell.setting.block}`{turn} is {_say(own, units)} {axis} in size `{size.id}`, but"
        f" {line} of the set is {_say(other, units)} {axis}: it is"
        f" {_say(abs(own - other), units)} {more}",
        span=cell.setting.span,
        hint=f"all blocks of a column are equally wide and all blocks of a row equally high: change"
        f" block `{cell.setting.block}`, its turn, or its place in `arrange`",
    )


def _say(inches: float, units: UnitSystem) -> str:
    """A length with its unit; one too small for a ruler in decimals."""
    if units == "inch" and inches < 0.0625:
        return f"{inches:.3f} in"
    return result(Length.of(inches), units)


def starts(lengths: tuple[Length, ...], gap: Length, edge: Length) -> tuple[Length, ...]:
    """Where each of some lengths begins, `gap` apart, the first after `edge`."""
    found, at = [], edge
    for length in lengths:
        found.append(at)
        at = at + length + gap
    return tuple(found)


def span_of(lengths: tuple[Length, ...], gap: Length, edge: Length) -> Length:
    """The whole of some lengths `gap` apart with `edge` before and after."""
    return sum(lengths, ZERO) + (len(lengths) - 1) * gap + 2 * edge


def place_blocks(
    grid: Grid,
    tilings: Mapping[str, Tiling],
    gap: Length,
    edge: Length,
    corner: Point,
) -> tuple[PlacedBlock, ...]:
    """Every block in its place, in the frame of the finished top; `corner` is the top left of the
    set (sashing outside included), `gap` the sashing between, `edge` the sashing outside."""
    xs = [corner[0] + float(x) for x in starts(grid.columns, gap, edge)]
    ys = [corner[1] + float(y) for y in starts(grid.rows, gap, edge)]
    offsets: dict[tuple[str, int], Point] = {}
    placed = []
    for cell in grid.cells:
        block, turn = cell.setting.block, cell.setting.turn % 360
        if (block, turn) not in offsets:
            offsets[block, turn] = origin_for(tilings[block].outline.corners, turn, (0.0, 0.0))
        x, y = xs[cell.column], ys[cell.row]
        dx, dy = offsets[block, turn]
        placed.append(cell.placed(turn, (x + dx, y + dy)))
    return tuple(placed)


def origin_for(outline: tuple[Point, ...], turn: float, corner: Point) -> Point:
    """Where a block's (0, 0) lies when, turned, its bounding box has `corner` as its top left."""
    left, top, _, _ = box_of(turn_point(p, turn) for p in outline)
    return corner[0] - left, corner[1] - top
