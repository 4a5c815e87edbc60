"""Floor 10: what is written on and beside the blocks of a top: their keys, the numbers of their rows."""

from __future__ import annotations

from booklet.drawing.quilts.patchwork import placed_points
from booklet.drawing.scene import Anchoring, Ink, Item, Label, Line
from booklet.drawing.viewport import View
from booklet.kit.outlines.plane import Point, box_of, turn_point
from booklet.kit.outlines.polygon import centroid, roomiest
from booklet.plan import SizePlan
from booklet.plan.top.slanted_words import slanted_of
from booklet.quilt.assembling.joining import JoinedIn
from booklet.quilt.assembling.slanted import SlantedSet
from booklet.quilt.sized import PlacedBlock


def block_keys(size: SizePlan) -> dict[str, str]:
    """A number for every kind of block, in the order of the pattern; none where all are of one kind."""
    if len({placed.block for placed in size.quilt.placed}) < 2:
        return {}
    return {block.tiling.block: str(i) for i, block in enumerate(size.blocks, 1)}


def block_label(placed: PlacedBlock, outline: tuple[Point, ...], key: str) -> list[Item]:
    """The key of a block and, where it is turned, an arrow to its top."""
    at, room = roomiest(outline)
    items: list[Item] = []
    if key and room > 3:
        items.append(Label(at=at, text=key, size=9.0, bold=True, plate=True))
    elif key and room > 0.75 + 0.45 * len(key):  # a part block
        items.append(Label(at=at, text=key, size=7.0, bold=True))
    if placed.turn and room > 5:
        up = turn_point((0.0, -1.0), placed.turn)
        start = (at[0] + up[0] * (2.6 if key else -2.0), at[1] + up[1] * (2.6 if key else -2.0))
        items.append(
            Line(
                points=(start, (at[0] + up[0] * (room - 1), at[1] + up[1] * (room - 1))),
                ink=Ink.ARROW,
                end_arrow=True,
                halo=True,
            )
        )
    return items


def row_numbers(size: SizePlan, view: View) -> list[Item]:
    """The numbers of the rows and the letters of the columns about the top; of a set on point the numbers
    of the slanted rows, where each ends at the lower left."""
    slanted = slanted_of(size)
    return _numbers(size, view) if slanted is None else _slanted(size, slanted, view)


def _slanted(size: SizePlan, found: SlantedSet, view: View) -> list[Item]:
    """The numbers of slanted rows outside the edge at which each ends."""
    _, high = (float(side) for side in size.quilt.finished or (0, 0))
    items: list[Item] = []
    for row in found.rows:
        if not row.has_blocks:
            continue
        x, y = min((centroid(item.outline) for item in row.items), key=lambda p: p[0] - p[1])
        along = min(x, high - y)
        at = view.at((x - along, y + along))
        beside = (at[0] - 1.8, at[1]) if x <= high - y else (at[0], at[1] + 2.8)
        anchor: Anchoring = "end" if x <= high - y else "middle"
        items.append(Label(at=beside, text=str(row.number), size=8.0, anchor=anchor, bold=True))
    return items


def _numbers(size: SizePlan, view: View) -> list[Item]:
    """Row numbers at the left and column letters on top; the numbers of columns alone where these are joined, for a row
    would go up and down."""
    in_columns = size.joined_in is JoinedIn.COLUMNS
    plans = {block.tiling.block: block.tiling for block in size.blocks}
    rows: dict[int, list[float]] = {}
    columns: dict[int, list[float]] = {}
    for placed in size.quilt.placed:
        box = box_of(placed_points(placed, plans[placed.block].outline.points))
        rows.setdefault(placed.row, []).append((box[1] + box[3]) / 2)
        columns.setdefault(placed.column, []).append((box[0] + box[2]) / 2)
    first_row, first_column = min(rows, default=0), min(columns, default=0)
    left, top = view.at((0.0, 0.0))
    wide, high = (float(side) for side in size.quilt.finished or (0, 0))
    items: list[Item] = []
    for row, ys in sorted(rows.items()) if not in_columns else ():
        y = view.at((0.0, _kept(sum(ys) / len(ys), high)))[1]
        items.append(
            Label(
                at=(left - 1.8, y), text=str(row - first_row + 1), size=8.0, anchor="end", bold=True
            )
        )
    for column, xs in sorted(columns.items()):
        x = view.at((_kept(sum(xs) / len(xs), wide), 0.0))[0]
        n = column - first_column
        name = str(n + 1) if in_columns else _column_letter(n)
        items.append(Label(at=(x, top - 2.6), text=name, size=8.0, bold=True))
    return items


def _kept(at: float, side: float) -> float:
    """A place on a side of the top; that of a block cut off there lies at its end."""
    return min(max(at, 0.0), side)


def _column_letter(n: int) -> str:
    """a, b, … z, aa, ab, … for 0, 1, …"""
    text = chr(97 + n % 26)
    return text if n < 26 else _column_letter(n // 26 - 1) + text
