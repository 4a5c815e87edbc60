"""Floor 2: `patches`: the shapes of the format and the keys each takes."""

from __future__ import annotations

from fractions import Fraction
from types import MappingProxyType

from booklet.crafts.form import Form
from booklet.crafts.forms import FORMS
from booklet.crafts.measures import Sizes
from booklet.kit.diagnostic import Span
from booklet.kit.measure import Extent
from booklet.kit.records import replace
from booklet.pattern import Shape
from booklet.source.blocks.shape_keys import (
    ANCHOR,
    CORNERS,
    GRAIN,
    KEYS,
    MOTIF,
    OUTLINE,
    PATCH,
    SHAPE,
    table_of,
)
from booklet.source.tree.node import Map, Node, Text
from booklet.source.values.fields import Fields
from booklet.source.values.kinds import Reading, wrong_kind
from booklet.source.values.names import named_entries


def read_shapes(node: Map | None, reading: Reading) -> dict[str, Shape]:
    """The sound shapes by name."""
    found: dict[str, Shape] = {}
    for key, value in named_entries(node, "patch", reading, PATCH.names()) if node else ():
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
    if entry is None and key.value not in FORMS:
        hint = "add `shape:` with the name of a shape, such as `square`"
        reading.faults.add("missing-key", f"{what} has no `shape`", key.span, hint)
        return None
    name = SHAPE.kind.read(entry[1], f"`shape` of {what}", reading) if entry else key.value
    if name is None:
        return None
    fields = Fields(value, table_of(FORMS[name]), f"{what} (a {name})", key.span, reading)
    return make_shape(key.value, FORMS[name], fields)


def make_shape(id: str, form: Form, fields: Fields) -> Shape | None:
    """The shape of opened fields, or None if a key it needs is missing or faulty."""
    found = {one.name: fields.get(KEYS[one]) for one in form.measures}
    given = {name: value for name, value in found.items() if value is not None}
    if any(one.name not in given for one in form.must) or not _possible(form, given, fields):
        return None
    sizes, corners = form.complete(given), given.get(CORNERS.name, ())
    plain = Shape(
        id=id,
        form=form,
        span=fields.where,
        extents=MappingProxyType({n: v for n, v in sizes.items() if isinstance(v, Extent)}),
        numbers=MappingProxyType(
            {n: v for n, v in sizes.items() if isinstance(v, Fraction | float | int)}
        ),
        corners=corners,
        outline=given.get(OUTLINE.name),
    )
    return with_wishes(plain, fields)


def sides_of(shape: Shape) -> int:
    """How many sides a shape has; 0 where only its drawing tells."""
    return len(shape.corners) or int(shape.numbers.get("sides", shape.form.sides))


def _possible(form: Form, given: Sizes, fields: Fields) -> bool:
    """Whether the sizes of a shape can go together; notes a fault if not."""
    amiss = form.amiss(given) if form.amiss else None
    if amiss is not None:
        key = KEYS[amiss.measure]
        message = f"`{key.name}` of {fields.what} {amiss.says}"
        fields.reading.faults.add(amiss.code, message, fields.span(key), amiss.hint)
    return amiss is None


def with_wishes(shape: Shape, fields: Fields) -> Shape:
    """The shape with `grain`, `motif` and `anchor` as written."""
    sides = sides_of(shape)
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
