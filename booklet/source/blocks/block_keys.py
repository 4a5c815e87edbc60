"""Floor 2: `blocks`: their pieces, their outline, and the order of sewing if one is written."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from booklet.kit.bounds import MOST_APPLIED, MOST_PIECES
from booklet.kit.measure import Extent
from booklet.pattern import Block, BlockTechnique, ExtentPoint, Piece, Shape
from booklet.source.blocks.applied import Drawings, read_applied
from booklet.source.blocks.drawing_pieces import read_drawn_pieces
from booklet.source.blocks.grids import WIDTHS, read_grid
from booklet.source.blocks.pieces import Known, read_pieces
from booklet.source.blocks.steps import read_steps
from booklet.source.tree.node import Map, Node, Text
from booklet.source.values.fields import Fields, Key, Table, open_fields
from booklet.source.values.groups import groups, list_of
from booklet.source.values.kinds import Reading, one_of, raw, text
from booklet.source.values.names import named_entries
from booklet.source.values.quantities import extent, point, two_by
from booklet.source.values.wordings import wording

_CELLS = {
    "type": "array",
    "items": {"type": "array", "items": {"type": ["string", "boolean", "number"]}},
}
_STEPS = {"anyOf": [{"const": "auto"}, {"type": "array", "items": {"$ref": "#/$defs/step"}}]}
TITLE = Key("title", wording(longest=120), "What the booklet calls the block.")
SIZE = Key(
    "size",
    two_by(extent(), "a size such as `6 x 6`, across then down"),
    "The finished size, across x down.",
)
OUTLINE = Key(
    "outline",
    list_of(point(), "a list of points", least=3),
    "The finished outline, instead of a size: points [across, down], clockwise.",
)
PIECES = Key("pieces", groups("piece", "a list of pieces", MOST_PIECES), "The pieces.")
GRID = Key(
    "grid",
    raw("a list of rows, each a list of fabrics", _CELLS),
    "Rows of cells: a fabric, or two with / or \\ between.",
)
COLUMNS = Key("columns", WIDTHS, "The widths of the columns of a grid.")
ROWS = Key("rows", WIDTHS, "The heights of the rows of a grid.")
DRAWING = Key(
    "drawing",
    text("the name of an SVG file", longest=200),
    "An SVG drawing whose closed shapes are the pieces.",
)
SEW = Key(
    "sew",
    raw("a list of steps, or `auto`", _STEPS),
    "The steps of sewing in order; `auto` or left out, the tool finds them.",
)
BY = Key(
    "by",
    one_of(BlockTechnique),
    "How the patches of this block are sewn, where it is not as `sewing` says: `foundation` on printed paper, piece "
    "by piece along its lines.",
)
APPLIED = Key(
    "applied",
    groups("applied", "a list of shapes", MOST_APPLIED),
    "Shapes laid on the sewn pieces and sewn down, in the order they are laid: the first lies lowest.",
)
BLOCK = Table(
    "block",
    "A block of the quilt.",
    (TITLE, SIZE, OUTLINE, PIECES, GRID, COLUMNS, ROWS, DRAWING, BY, SEW, APPLIED),
)
_ZERO = Extent(Fraction(0), in_units=True)


def read_blocks(
    node: Map | None, shapes: Mapping[str, Shape], drawings: Drawings, reading: Reading
) -> tuple[Block, ...]:
    """The sound blocks in the order written; one with a faulty piece is left out."""
    found: list[Block] = []
    for key, value in named_entries(node, "block", reading, BLOCK.names()) if node else ():
        fields = open_fields(value, BLOCK, f"block `{key.value}`", key.span, reading)
        block = _block(key, fields, shapes, drawings, reading) if fields else None
        if block is not None:
            found.append(block)
    return tuple(found)


def _block(
    key: Text,
    fields: Fields,
    shapes: Mapping[str, Shape],
    drawings: Drawings,
    reading: Reading,
) -> Block | None:
    """One block, or None if its pieces cannot be laid out."""
    ways = [way for way in (PIECES, GRID, DRAWING) if fields.has(way)]
    if not ways:
        fields.missing(PIECES, "and neither `grid` nor `drawing`")
        return None
    for other in ways[1:]:
        fields.both(ways[0], other)
    known = Known()
    outline, sound = _outline(fields)
    if ways[0] is DRAWING:
        pieces, whole = _drawn(fields, drawings, reading, known)
        outline = outline or (_box(*whole) if whole else None)
    elif ways[0] is GRID:
        size = fields.get(SIZE)
        cells: Node | None = fields.node(GRID)
        assert cells is not None
        pieces, whole = read_grid(
            cells,
            fields.get(COLUMNS),
            fields.get(ROWS),
            size,
            (fields.key_span(COLUMNS), fields.key_span(ROWS)),
            reading,
            known,
        )
        outline = outline or (_box(*whole) if whole else None)
    else:
        pieces = read_pieces(fields.get(PIECES) or (), shapes, reading, known)
        for only_grid in (COLUMNS, ROWS):
            if fields.has(only_grid):
                message = f"{fields.what} has `{only_grid.name}`, but no `grid`"
                hint = f"take `{only_grid.name}` away"
                reading.faults.add("conflicting-keys", message, fields.key_span(only_grid), hint)
    sew = fields.node(SEW)
    drawn = ways[0] is not DRAWING or known.names  # of a drawing not read, no name is known
    steps = read_steps(sew, key.value, known.names, reading) if sew and drawn else None
    applied = read_applied(fields.get(APPLIED) or (), shapes, drawings, reading, known)
    if known.faulty or not pieces or not sound:
        if not known.faulty and not pieces:
            message = f"{fields.what} has no pieces"
            reading.faults.add("missing-key", message, fields.where, "write at least one piece")
        return None
    title = fields.get(TITLE) or key.value
    outline_span = fields.span(SIZE) if fields.has(SIZE) else fields.span(OUTLINE)
    return Block(
        id=key.value,
        title=title,
        pieces=pieces,
        outline=outline,
        steps=steps,
        span=key.span,
        outline_span=outline_span,
        sew_span=fields.key_span(SEW),
        foundation=fields.get(BY) is BlockTechnique.FOUNDATION,
        applied=applied,
    )


def _outline(fields: Fields) -> tuple[tuple[ExtentPoint, ...] | None, bool]:
    """The outline of a block, None where the patches give it; and whether it is free of faults."""
    if fields.has(SIZE) and fields.has(OUTLINE):
        fields.both(SIZE, OUTLINE)
    if fields.has(SIZE):
        size = fields.get(SIZE)
        return (None, False) if size is None else (_box(*size), True)
    if fields.has(OUTLINE):
        outline = fields.get(OUTLINE)
        return outline, outline is not None
    return None, True


def _box(width: Extent, height: Extent) -> tuple[ExtentPoint, ...]:
    """The corners of a rectangle from the origin."""
    return ((_ZERO, _ZERO), (width, _ZERO), (width, height), (_ZERO, height))


def _drawn(
    fields: Fields, drawings: Drawings, reading: Reading, known: Known
) -> tuple[tuple[Piece, ...], tuple[Extent, Extent] | None]:
    """The pieces of a drawing in the folder, and the size of the block."""
    file = fields.get(DRAWING)
    shapes = drawings.of(file, fields.span(DRAWING), reading) if file is not None else None
    if file is None or shapes is None:
        known.faulty = True
        return (), None
    size, at = fields.get(SIZE), fields.span(SIZE)
    return read_drawn_pieces(shapes, file, size, at, drawings.colours, reading, known)
