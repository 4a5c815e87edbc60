"""Floor 2: `patches`: the shapes of the format and the keys each takes."""

from __future__ import annotations

import re
from dataclasses import replace
from types import MappingProxyType
from typing import Any

from booklet.diagnostic import Span
from booklet.measure import Extent, Number
from booklet.pattern import Anchor, Grain, Shape, ShapeKind
from booklet.source.fields import Fields, Key, Table
from booklet.source.groups import list_of
from booklet.source.kinds import Kind, Reading, Schema, word, wrong_kind, yes_no
from booklet.source.names import named_entries
from booklet.source.node import Map, Node, Text
from booklet.source.outlines import outline_text
from booklet.source.quantities import count, extent, number, point

_SIDE_N = re.compile(r"side\s+([0-9]{1,3})")
_POINT_N = re.compile(r"(corner|side)\s+([0-9]{1,3})")


def _grain(node: Node, what: str, reading: Reading) -> Grain | None:
    written = node.value.strip() if isinstance(node, Text) else ""
    if match := _SIDE_N.fullmatch(written):
        return Grain(side=int(match[1]))
    if written.startswith("side"):
        wrong_kind(
            node, what, "`side` and a number, or degrees clockwise from straight up", reading
        )
        return None
    angle = number(-360, 360, "`side 1`, or degrees clockwise from straight up").read(
        node, what, reading
    )
    return None if angle is None else Grain(angle=float(angle))


def _anchor(node: Node, what: str, reading: Reading) -> Anchor | None:
    written = node.value.strip() if isinstance(node, Text) else ""
    if written in ("centre", "center"):
        return Anchor()
    if match := _POINT_N.fullmatch(written):
        return Anchor(match[1], int(match[2]))
    wrong_kind(node, what, "`centre`, `corner 1` or `side 1`", reading)
    return None


_TEXT: Schema = {"type": ["string", "number"]}
SHAPE = Key(
    "shape", word([kind.value for kind in ShapeKind], "the name of a shape"), "Which shape it is."
)
GRAIN = Key(
    "grain",
    Kind("`side 1` or degrees", _grain, _TEXT),
    "The straight grain: along a side, or an angle clockwise from straight up.",
)
MOTIF = Key("motif", yes_no(), "Whether a motif of the print is centred in the patch (fussy cut).")
ANCHOR = Key(
    "anchor",
    Kind("`centre`, `corner 1` or `side 1`", _anchor, _TEXT),
    "Which point of the shape is placed: centre, a corner, or the middle of a side.",
)
CORNERS = Key(
    "corners",
    list_of(point(), "a list of points", least=3),
    "The corners, clockwise, as points [across, down].",
)
OUTLINE = Key(
    "outline",
    outline_text(),
    "The outline as path data with M, L, H, V, A, Q, C and Z, for curved seams.",
)
ANGLE = Key("angle", number(1, 179, "an angle in degrees"), "The angle in degrees.")
SIDES = Key(
    "sides",
    count(3, 60, "how many sides the polygon has"),
    "How many sides the regular polygon has.",
)

EXTENTS = {
    name: Key(name, extent("any" if name == "shift" else "positive"), doc)
    for name, doc in {
        "side": "The finished length of a side.",
        "width": "The finished width.",
        "height": "The finished height.",
        "base": "The finished length of the bottom side.",
        "top": "The finished length of the top side.",
        "shift": "How far the top side is moved to the right of the bottom side.",
        "middle": "The two sides along the long axis of an elongated hexagon; as long as `side` if left out.",
        "length": "The finished length from the top point to the bottom point.",
        "cross": "How far the widest line of the kite lies below its top.",
    }.items()
}

# Each shape: the keys it must have, those it may have, and its number of sides (0: as given).
FORMS: dict[ShapeKind, tuple[tuple[str, ...], tuple[str, ...], int]] = {
    ShapeKind.SQUARE: (("side",), (), 4),
    ShapeKind.RECTANGLE: (("width", "height"), (), 4),
    ShapeKind.HALF_SQUARE: (("side",), (), 3),
    ShapeKind.QUARTER_SQUARE: (("base",), (), 3),
    ShapeKind.RIGHT_TRIANGLE: (("width", "height"), (), 3),
    ShapeKind.EQUILATERAL: (("side",), (), 3),
    ShapeKind.ISOSCELES: (("base", "height"), (), 3),
    ShapeKind.DIAMOND: (("side", "angle"), (), 4),
    ShapeKind.PARALLELOGRAM: (("base", "height", "shift"), (), 4),
    ShapeKind.TRAPEZOID: (("base", "top", "height"), (), 4),
    ShapeKind.HALF_HEXAGON: (("side",), (), 4),
    ShapeKind.HEXAGON: (("side",), (), 6),
    ShapeKind.ELONGATED_HEXAGON: (("side",), ("angle", "middle"), 6),
    ShapeKind.OCTAGON: (("side",), (), 8),
    ShapeKind.KITE: (("length", "width", "cross"), (), 4),
    ShapeKind.REGULAR_POLYGON: (("sides", "side"), (), 0),
    ShapeKind.POLYGON: (("corners",), (), 0),
    ShapeKind.PATH: (("outline",), (), 0),
}
_OWN: dict[str, Key[Any]] = {
    **EXTENTS,
    "angle": ANGLE,
    "sides": SIDES,
    "corners": CORNERS,
    "outline": OUTLINE,
}
ALL_KEYS: tuple[Key[Any], ...] = (SHAPE, *_OWN.values(), GRAIN, MOTIF, ANCHOR)
PATCH = Table("patch", "A patch by its finished outline: its shape and sizes.", ALL_KEYS)


def table_of(kind: ShapeKind) -> Table:
    """The keys that one shape takes."""
    must, may, _ = FORMS[kind]
    own = [replace(_OWN[name], required=name in must) for name in (*must, *may)]
    return Table(
        kind.value, f"Keys of the shape `{kind.value}`.", (SHAPE, *own, GRAIN, MOTIF, ANCHOR)
    )


def read_shapes(node: Map | None, reading: Reading) -> dict[str, Shape]:
    """The sound shapes by name."""
    found: dict[str, Shape] = {}
    for key, value in named_entries(node, "patch", reading) if node else ():
        shape = _read_shape(key, value, reading)
        if shape is not None:
            found[key.value] = shape
    return found


def _read_shape(key: Text, value: Node, reading: Reading) -> Shape | None:
    """One entry of `patches`. Where no `shape` is given, the name may itself be that of a shape."""
    what = f"patch `{key.value}`"
    if not isinstance(value, Map):
        wrong_kind(value, what, "its keys, as in `{shape: square, side: 1}`", reading)
        return None
    entry = value.find("shape")
    known = {kind.value: kind for kind in ShapeKind}
    if entry is None and key.value not in known:
        hint = "add `shape:` with the name of a shape, such as `square`"
        reading.faults.add("missing-key", f"{what} has no `shape`", key.span, hint)
        return None
    name = SHAPE.kind.read(entry[1], f"`shape` of {what}", reading) if entry else key.value
    if name is None:
        return None
    fields = Fields(value, table_of(known[name]), f"{what}, a {name},", key.span, reading)
    return make_shape(key.value, known[name], fields)


def make_shape(id: str, kind: ShapeKind, fields: Fields) -> Shape | None:
    """The shape of opened fields, or None if a key it needs is missing or faulty."""
    must, may, sides = FORMS[kind]
    extents: dict[str, Extent] = {}
    numbers: dict[str, Number] = {}
    for name in (*must, *may):
        if name in EXTENTS and (size := fields.get(EXTENTS[name])) is not None:
            extents[name] = size
    if "angle" in (*must, *may) and (angle := fields.get(ANGLE)) is not None:
        numbers["angle"] = angle
    if "sides" in must and (many := fields.get(SIDES)) is not None:
        numbers["sides"], sides = many, many
    corners = fields.get(CORNERS) if kind is ShapeKind.POLYGON else None
    outline = fields.get(OUTLINE) if kind is ShapeKind.PATH else None
    given = {
        *extents,
        *numbers,
        *(["corners"] if corners else []),
        *(["outline"] if outline else []),
    }
    if not set(must) <= given or not _possible(kind, extents, numbers, fields):
        return None
    if kind is ShapeKind.ELONGATED_HEXAGON:
        extents.setdefault("middle", extents["side"])
        numbers.setdefault("angle", 90)
    plain = Shape(
        id, kind, fields.where,
        MappingProxyType(extents), MappingProxyType(numbers), corners or (), outline,
    )  # fmt: skip
    return with_wishes(plain, fields, len(corners) if corners else sides)


def _possible(
    kind: ShapeKind, extents: dict[str, Extent], numbers: dict[str, Number], fields: Fields
) -> bool:
    """Whether the sizes of a shape can go together; notes a fault if not."""
    if kind is ShapeKind.DIAMOND and numbers["angle"] > 90:
        message = f"`angle` of {fields.what} is more than 90 degrees, but the acute one is meant"
        hint = f"write `{180 - float(numbers['angle']):g}`"
        fields.reading.faults.add("bad-number", message, fields.span(ANGLE), hint)
        return False
    if kind is ShapeKind.KITE:
        cross, length = extents["cross"], extents["length"]
        if cross.in_units == length.in_units and cross.value >= length.value:
            message = f"`cross` of {fields.what} is not less than its `length`"
            hint = "measure from the top point down to the widest line"
            fields.reading.faults.add("bad-length", message, fields.span(EXTENTS["cross"]), hint)
            return False
    return True


def with_wishes(shape: Shape, fields: Fields, sides: int = 0) -> Shape:
    """The shape with `grain`, `motif` and `anchor` as written; `sides` 0 means not known here."""
    grain, anchor = fields.get(GRAIN), fields.get(ANCHOR)
    if grain and grain.side and not _has_side(grain.side, sides, fields, fields.span(GRAIN)):
        grain = None
    if (
        anchor
        and anchor.number
        and not _has_side(anchor.number, sides, fields, fields.span(ANCHOR))
    ):
        anchor = None
    motif = fields.get(MOTIF)
    return replace(
        shape,
        grain=grain or shape.grain,
        anchor=anchor or shape.anchor,
        motif=shape.motif if motif is None else motif,
    )


def _has_side(number: int, sides: int, fields: Fields, span: Span) -> bool:
    """Whether the shape has a side or corner of that number; notes a fault if not."""
    if 1 <= number <= (sides or 10_000):
        return True
    message = f"{fields.what} has no side or corner `{number}`"
    hint = f"count from 1 to {sides}, clockwise" if sides else "count from 1, clockwise"
    fields.reading.faults.add("bad-number", message, span, hint)
    return False
