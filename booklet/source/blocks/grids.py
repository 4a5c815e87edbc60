"""Floor 2: grid blocks: rows of cells become pieces named r1c1, r2c2a, r2c2b."""

from __future__ import annotations

from fractions import Fraction

from booklet.crafts.forms import polygon
from booklet.kit.bounds import MOST_JOINED, MOST_PIECES
from booklet.kit.diagnostic import Span
from booklet.kit.measure import Extent, Length, UnitSystem
from booklet.kit.outlines.near import WHOLE
from booklet.kit.words import exactly
from booklet.pattern import ExtentPoint, Piece, Shape
from booklet.source.blocks.pieces import Known
from booklet.source.tree.node import List, Node, Text
from booklet.source.values.groups import list_of
from booklet.source.values.kinds import Reading, name_of, wrong_kind
from booklet.source.values.quantities import extent

WIDTHS = list_of(extent(), "a list of lengths such as `[1, 2, 1]`", most=MOST_JOINED)
_FABRIC = name_of("fabric")
_ONE = Extent(Fraction(1), in_units=True)
_CELL = "a fabric, or two with a slash between, as in `red/white`"


def read_grid(
    grid: Node,
    columns: tuple[Extent, ...] | None,
    rows: tuple[Extent, ...] | None,
    size: tuple[Extent, Extent] | None,
    places: tuple[Span, Span],
    reading: Reading,
    known: Known,
) -> tuple[tuple[Piece, ...], tuple[Extent, Extent] | None]:
    """The pieces of a grid and the size of the block.

    A cell is 1 u unless `columns` and `rows` say otherwise; where only the block's `size` is given,
    the cells share it evenly. A fault marks `known` faulty.
    """
    cells = _cells(grid, reading)
    if cells is None:
        known.faulty = True
        return (), None
    across = _lines(
        len(cells[0]), columns, size[0] if size else None, "columns", places[0], reading
    )
    down = _lines(len(cells), rows, size[1] if size else None, "rows", places[1], reading)
    if across is None or down is None:
        known.faulty = True
        return (), None
    pieces: list[Piece] = []
    for r, row in enumerate(cells):
        for c, cell in enumerate(row):
            corners = _box(across[c], across[c + 1], down[r], down[r + 1])
            made = _cell_pieces(cell, f"r{r + 1}c{c + 1}", corners, reading)
            known.faulty = known.faulty or not made
            pieces.extend(made)
    for piece in pieces:
        known.names[piece.id] = piece.id_span
    return tuple(pieces), (across[-1], down[-1])


def _cells(grid: Node, reading: Reading) -> list[tuple[Node, ...]] | None:
    """The rows of cells, all of one length; None with a fault if they are not."""
    if not isinstance(grid, List) or not grid.items:
        wrong_kind(grid, "`grid`", "a list of rows, each a list of fabrics", reading)
        return None
    rows: list[tuple[Node, ...]] = []
    for number, row in enumerate(grid.items, start=1):
        if not isinstance(row, List) or not row.items:
            wrong_kind(row, f"row {number} of `grid`", "a list of fabrics in brackets", reading)
            return None
        if rows and len(row.items) != len(rows[0]):
            cells = "1 cell" if len(row.items) == 1 else f"{len(row.items)} cells"
            message = f"row {number} of `grid` has {cells}, row 1 has {len(rows[0])}"
            reading.faults.add("wrong-kind", message, row.span, "give every row as many cells")
            return None
        rows.append(row.items)
    if len(rows) * len(rows[0]) * 2 > 2 * MOST_PIECES:
        message = (
            f"`grid` has {len(rows) * len(rows[0])} cells; at most {MOST_PIECES} fit in a block"
        )
        reading.faults.add("too-large", message, grid.span, "make it several blocks")
        return None
    return rows


def _lines(
    cells: int,
    widths: tuple[Extent, ...] | None,
    total: Extent | None,
    name: str,
    where: Span,
    reading: Reading,
) -> list[Extent] | None:
    """Where the lines between the cells lie, from 0 to the block's edge."""
    if widths is None:
        each = Extent(total.value / cells, total.in_units) if total else _ONE
        widths = (each,) * cells
    add = reading.faults.add
    if len(widths) != cells:
        message = f"`{name}` has {len(widths)} lengths, but `grid` has {cells} {name}"
        add("wrong-kind", message, where, f"write one length for each of the {cells}")
        return None
    if len({width.in_units for width in widths}) > 1:
        message = f"`{name}` mixes design units and lengths, which cannot be added up"
        add("bad-length", message, where, "write all of them in `u`, or none")
        return None
    lines = [Extent(Fraction(0), widths[0].in_units)]
    for width in widths:
        lines.append(Extent(lines[-1].value + width.value, width.in_units))
    end, units = lines[-1], reading.units
    if total and (total.in_units != end.in_units or abs(float(total.value - end.value)) > WHOLE):
        message = f"`{name}` add up to `{_shown(end, units)}`, but the block's size there is `{_shown(total, units)}`"
        add("bad-length", message, where, f"change one of the {name}, or the size")
        return None
    return lines


def _shown(extent: Extent, units: UnitSystem) -> str:
    """An extent as its author would write it: `5 u`, or a length in the units of the pattern."""
    if extent.in_units:
        return f"{float(extent.value):g} u"
    return str(exactly(Length.of(float(extent.value)), units))


def _box(left: Extent, right: Extent, top: Extent, bottom: Extent) -> tuple[ExtentPoint, ...]:
    """Top left, top right, bottom right, bottom left."""
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def _cell_pieces(
    cell: Node, id: str, box: tuple[ExtentPoint, ...], reading: Reading
) -> list[Piece]:
    """The one or two pieces of a cell; none with a fault."""
    what = f"cell `{id}` of `grid`"
    if not isinstance(cell, Text) or cell.is_empty:
        wrong_kind(cell, what, _CELL, reading)
        return []
    written = cell.value.strip()
    top_left, top_right, bottom_right, bottom_left = box
    halves: tuple[tuple[ExtentPoint, ...], ...]
    if "/" in written:
        names = written.split("/")
        halves = ((top_left, top_right, bottom_left), (top_right, bottom_right, bottom_left))
    elif "\\" in written:
        names = written.split("\\")
        halves = ((top_left, bottom_right, bottom_left), (top_left, top_right, bottom_right))
    else:
        names, halves = [written], (box,)
    if len(names) != len(halves) or not all(name.strip() for name in names):
        wrong_kind(cell, what, _CELL, reading)
        return []
    made: list[Piece] = []
    for name, corners, half in zip(names, halves, "ab", strict=False):
        fabric = _FABRIC.read(Text(name.strip(), cell.span, quoted=True), what, reading)
        if fabric is None:
            return []
        own = id if len(names) == 1 else id + half
        shape = Shape(id="", form=polygon.FORM, span=cell.span, corners=corners)
        made.append(
            Piece(
                id=own,
                fabrics=(fabric,),
                shape=shape,
                placed=None,
                span=cell.span,
                id_span=cell.span,
            )
        )
    return made
