"""Floor 2: `applied` of a block: shapes that are laid on its sewn pieces and sewn down, the first lowest."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from booklet.crafts.forms import path
from booklet.kit import trade
from booklet.kit.bounds import MOST_APPLIED
from booklet.kit.diagnostic import Span
from booklet.kit.records import Record, field, replace
from booklet.pattern import Anchor, Applied, At, By, ExtentPoint, Piece, Shape
from booklet.source.blocks.pieces import (
    FABRIC,
    FLIP,
    IN_RING,
    OUTLINE,
    PATCH,
    TURN,
    Known,
    fabrics_fit,
    member_names,
    read_ring,
)
from booklet.source.drawings.drawing_outlines import Outlined, read_outlines
from booklet.source.faults import near
from booklet.source.files.folder import Folder
from booklet.source.tree.node import Node, shortened
from booklet.source.values.fields import Fields, Key, Table, open_fields
from booklet.source.values.groups import none_or
from booklet.source.values.kinds import Kind, Reading, one_of, text, written, wrong_kind
from booklet.source.values.names import is_name
from booklet.source.values.path_values import path as path_data
from booklet.source.values.quantities import extent, length, point
from booklet.source.values.wordings import wording

_FILE_SHAPE = re.compile(r"\s*([^#]*[^#\s])\s*#\s*(\S.*?)\s*")
_WORDS = "an SVG file and the id of a shape in it, such as `outlines.svg#leaf`"


def _file_and_shape() -> Kind[tuple[str, str]]:
    """The name of an SVG file and the id of one of its shapes, with a `#` between."""

    def read(node: Node, what: str, reading: Reading) -> tuple[str, str] | None:
        value = written(node, what, _WORDS, reading)
        match = _FILE_SHAPE.fullmatch(value) if value is not None and len(value) <= 200 else None
        if value is not None and match is None:
            wrong_kind(node, what, _WORDS, reading)
        return (match[1], match[2]) if match else None

    return Kind(_WORDS, read, {"type": "string"})


ID = Key("id", text(longest=80), "The name of the shape in this block; left out, it is numbered.")
SHAPE = Key("shape", _file_and_shape(), "Its outline: a closed shape of an SVG file in the folder.")
TITLE = Key("title", wording(longest=60), "What the booklet calls the shape, such as `leaf`.")
AT = Key(
    "at",
    point(),
    "Where it lies, across, then down: the middle of a shape of a drawing, the origin of a patch or of path data; left out, "
    "it lies where it is drawn.",
)
STEM = Key(
    "stem", path_data(goes_round=False), "The line of a bias stem in the block, as path data."
)
WIDTH = Key(
    "width",
    extent("positive"),
    "How wide a stem is when it is folded; how wide a shape of a drawing is, as drawn (left out, a unit of the drawing is a "
    "design unit).",
)
ALLOWANCE = Key(
    "allowance",
    none_or(length("positive")),
    "What is turned under along its edge; `none` leaves the edge raw, and the shape is fused.",
)
BY = Key(
    "by",
    one_of(By),
    "How it is sewn down; left out, by hand where its edge is turned under, else by machine.",
)
APPLIED = Table(
    "applied",
    "A shape laid on the sewn pieces of a block and sewn down.",
    (ID, TITLE, SHAPE, PATCH, OUTLINE, STEM, WIDTH, FABRIC, AT, TURN, FLIP, IN_RING, ALLOWANCE, BY),
)


class Drawings(Record):
    """What drawings need: the folder they lie in, and the colours of the fabrics by name. A drawing is read once."""

    files: Folder
    colours: Mapping[str, str]
    outlines: dict[str, list[Outlined] | None] = field(default_factory=dict)

    def of(self, file: str, named: Span, reading: Reading) -> list[Outlined] | None:
        """The shapes of a drawing; None with a fault, told where it is named first, if it cannot be read."""
        if file not in self.outlines:
            data, apart = self.files.text(file, named), self.files.apart
            self.outlines[file] = (
                read_outlines(data, file, named, reading.faults, apart)
                if data is not None
                else None
            )
        return self.outlines[file]


def read_applied(
    nodes: tuple[Node, ...],
    shapes: Mapping[str, Shape],
    drawings: Drawings,
    reading: Reading,
    known: Known,
) -> tuple[Applied, ...]:
    """The sound shapes in the order written, which is that in which they are laid."""
    found: list[Applied] = []
    for number, node in enumerate(nodes, 1):
        fields = open_fields(node, APPLIED, "an applied shape", node.span, reading)
        made = _applied(fields, number, shapes, drawings, known) if fields else None
        if made is None:
            known.faulty = True
        else:
            found.append(made)
        laid = sum(len(each.piece.members()) for each in found)
        if laid > MOST_APPLIED:
            message = f"more than {MOST_APPLIED} shapes are laid on the block"
            reading.faults.add("too-large", message, node.span, "make it several blocks")
            known.faulty = True
            break
    return tuple(found)


def _applied(
    fields: Fields, number: int, shapes: Mapping[str, Shape], drawings: Drawings, known: Known
) -> Applied | None:
    """One shape, or None if something it cannot do without is missing or faulty."""
    reading = fields.reading
    id = fields.get(ID) if fields.has(ID) else f"applied {number}{'-' * fields.has(IN_RING)}"
    id_span = fields.span(ID) if fields.has(ID) else fields.where
    if id is None or not is_name(id, id_span, "shape", reading):
        return None
    fields.what = f"applied shape `{id}`"
    shape, ring, at = _shape(fields, shapes, drawings), read_ring(fields), fields.get(AT)
    fabrics, turn, flip = fields.get(FABRIC), fields.get(TURN), fields.get(FLIP)
    new = [known.add(name, id_span, reading) for name in member_names(id, ring)]
    lost = any(fields.has(key) and got is None for key, got in ((AT, at), (IN_RING, ring)))
    if fields.has(PATCH) and not fields.has(AT):
        fields.missing(AT, "so nothing says where it lies")
        lost = True
    if shape is None or not fabrics or lost or not all(new):
        return None
    piece = Piece(
        id=id,
        fabrics=fabrics if fabrics_fit(fabrics, ring, fields) else fabrics[:1],
        shape=shape,
        placed=_at(at, fields),
        span=fields.where,
        id_span=id_span,
        turn=float(turn or 0),
        flip=bool(flip),
        ring=ring,
    )
    allowance = fields.get(ALLOWANCE) or trade.APPLIED_ALLOWANCE.said_in(reading.units)
    raw = allowance == "none"
    return Applied(
        piece=piece,
        allowance=None if allowance == "none" else allowance,
        by=fields.get(BY) or (By.MACHINE if raw else By.HAND),
        title=fields.get(TITLE) or "",
    )


def _at(at: ExtentPoint | None, fields: Fields) -> At | None:
    return At(at, fields.span(AT)) if at is not None else None


def _shape(fields: Fields, shapes: Mapping[str, Shape], drawings: Drawings) -> Shape | None:
    """Its outline: of a drawing, a patch of the pattern, or its own."""
    ways = [key for key in (SHAPE, PATCH, OUTLINE, STEM) if fields.has(key)]
    if not ways:
        fields.missing(SHAPE, "and no `patch`, `outline` or `stem`")
        return None
    for other in ways[1:]:
        _conflict(fields, f"both `{ways[0].name}` and `{other.name}`", other)
    if ways[0] not in (SHAPE, STEM) and fields.has(WIDTH):
        _conflict(
            fields, f"`width`, but no `{SHAPE.name}` of a drawing and no `{STEM.name}`", WIDTH
        )
    if ways[0] is STEM:
        return _stem(fields)
    if ways[0] is SHAPE:
        return _drawn(fields, drawings)
    if ways[0] is PATCH:
        return shapes.get(fields.get(PATCH) or "")
    outline = fields.get(OUTLINE)
    if outline is None:
        return None
    return Shape(id="", form=path.FORM, span=fields.span(OUTLINE), outline=outline)


def _stem(fields: Fields) -> Shape | None:
    """The line of a stem and how wide it is."""
    if fields.has(ALLOWANCE):
        _conflict(
            fields, "both `stem` and `allowance`: its edges are folded to the middle", ALLOWANCE
        )
    line, width = fields.get(STEM), fields.need(WIDTH, "so nothing says how wide the stem is")
    if line is None or width is None:
        return None
    return Shape(id="", form=path.FORM, span=fields.span(STEM), outline=line, stem=width)


def _conflict(fields: Fields, both: str, key: Key[Any]) -> None:
    message, hint = f"{fields.what} has {both}", f"take `{key.name}` away"
    fields.reading.faults.add("conflicting-keys", message, fields.key_span(key), hint)


def _drawn(fields: Fields, drawings: Drawings) -> Shape | None:
    """A shape of a drawing, about its middle where it is placed by `at`, else where it is drawn."""
    named = fields.get(SHAPE)
    if named is None:
        return None
    file, id = named
    span, faults = fields.span(SHAPE), fields.reading.faults
    there = drawings.of(file, span, fields.reading)
    if there is None:
        return None
    loop = next((shape.loop for shape in there if shape.name == id), None)
    if loop is None:
        if not any(shape.name == id for shape in there):
            names = [shape.name for shape in there if shape.name]
            message = f"there is no shape `{shortened(id)}` in `{shortened(file)}`"
            hint = near(id, names) or "give the shape that `id` in your drawing program"
            faults.add("unknown-name", message, span, hint)
        return None  # else its own fault has been told
    outline = (("M", loop.start), *loop.commands, ("Z", ()))
    drawn = Shape(id="", form=path.FORM, span=span, outline=outline, width=fields.get(WIDTH))
    return replace(drawn, anchor=Anchor()) if fields.has(AT) else drawn
