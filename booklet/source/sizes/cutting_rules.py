"""Floor 2: `cutting`: how units are made where there is a choice, and what is trimmed off them."""

from __future__ import annotations

from collections.abc import Mapping

from booklet.diagnostic import Span
from booklet.measure import ZERO, Length, UnitSystem
from booklet.pattern import HalfSquares, UnitCutting
from booklet.source.tree.node import Map
from booklet.source.values.fields import Fields, Key, Table
from booklet.source.values.kinds import Reading, one_of, word, yes_no
from booklet.source.values.quantities import length

MOST_TRIM = Length.of(1)

HALF_SQUARES = Key(
    "half squares",
    one_of(HalfSquares),
    "How units of two half-square triangles are made; from single triangles if left out.",
    default="singly",
)
FLYING_GEESE = Key(
    "flying geese",
    word(("singly", "four at a time")),
    "How flying geese are made: from single triangles, or four from one large and four small squares.",
    default="singly",
)
STRIP_SETS = Key(
    "strip sets",
    yes_no(),
    "Whether rows of squares and rectangles are cut across from strips sewn together, where that is "
    "worth it.",
    default="no",
)
SQUARE_IN_SQUARE = Key(
    "square in a square",
    yes_no(),
    "Whether a square with four triangles round it is cut as one unit: its centre, and squares cut once "
    "from corner to corner.",
    default="no",
)
TRIM = Key(
    "trim",
    length("zero"),
    "How much larger units with triangles are made, to be trimmed to size once sewn; nothing if left out.",
    default="0",
)
RULER = Key(
    "ruler",
    length("positive"),
    "How far the marks of the reader's ruler lie apart: 1/8 in, 1/16 in, 1/4 in, 1 mm or 5 mm; 1/8 in, or 1 mm "
    "in patterns in centimetres, if left out.",
)
CUTTING = Table(
    "cutting",
    "How units are made where there is a choice, and the ruler they are cut by.",
    (HALF_SQUARES, FLYING_GEESE, STRIP_SETS, SQUARE_IN_SQUARE, TRIM, RULER),
)
RULERS: Mapping[UnitSystem, tuple[str, ...]] = {
    "inch": ("1/8 in", "1/16 in", "1/4 in"),
    "cm": ("1 mm", "5 mm"),
}


def read_cutting(node: Map | None, where: Span, reading: Reading) -> UnitCutting:
    """The choices written; single triangles and patches where left out."""
    fields = Fields(node or Map((), where), CUTTING, "`cutting`", where, reading)
    trim = fields.get(TRIM) or ZERO
    if trim > MOST_TRIM:
        message = "`trim` of `cutting` is more than 1 in, which no unit is cut too large by"
        hint = "write what is to be trimmed off, such as `1/8 in`"
        reading.faults.add("bad-length", message, fields.span(TRIM), hint)
        trim = ZERO
    halves = fields.get(HALF_SQUARES) or HalfSquares.SINGLY
    by_four = fields.get(FLYING_GEESE) == "four at a time"
    strips, squares = fields.get(STRIP_SETS) or False, fields.get(SQUARE_IN_SQUARE) or False
    wishes = (
        (HALF_SQUARES.name, halves is not HalfSquares.SINGLY, fields.key_span(HALF_SQUARES)),
        (FLYING_GEESE.name, by_four, fields.key_span(FLYING_GEESE)),
        (STRIP_SETS.name, strips, fields.key_span(STRIP_SETS)),
        (SQUARE_IN_SQUARE.name, squares, fields.key_span(SQUARE_IN_SQUARE)),
    )
    asked = tuple((name, span) for name, is_asked, span in wishes if is_asked)
    return UnitCutting(halves, by_four, strips, squares, trim, asked, _ruler(fields, reading))


def _ruler(fields: Fields, reading: Reading) -> Length | None:
    """The ruler written, if it is one that the pattern's units have."""
    written, known = fields.get(RULER), RULERS[reading.units]
    if written is None or written in map(Length.of, known):
        return written
    unit = "inches" if reading.units == "inch" else "centimetres"
    message = f"`ruler` of `cutting` is none that a pattern in {unit} is cut by"
    hint = f"write `{'`, `'.join(known[:-1])}` or `{known[-1]}`, or leave it out"
    reading.faults.add("bad-length", message, fields.span(RULER), hint)
    return None
