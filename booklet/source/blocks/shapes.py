"""Floor 2: `patches`: the shapes of the format and the keys each takes."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

from booklet.diagnostic import Span
from booklet.measure import Extent, Number
from booklet.pattern import Shape, ShapeKind
from booklet.source.blocks.shape_keys import (
    ANCHOR,
    ANGLE,
    CORNERS,
    EXTENTS,
    FORMS,
    GRAIN,
    MOTIF,
    OUTLINE,
    SHAPE,
    SIDES,
    table_of,
)
from booklet.source.tree.node import Map, Node, Text
from booklet.source.values.fields import Fields
from booklet.source.values.kinds import Reading, wrong_kind
from booklet.source.values.names import named_entries


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
    fields = Fields(value, table_of(known[name]), f"{what} (a {name})", key.span, reading)
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
