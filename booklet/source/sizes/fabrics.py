"""Floor 2: `fabrics`, read for one size: its cloths, with the size's own keys in place."""

from __future__ import annotations

import re
from fractions import Fraction

from booklet.kit import trade
from booklet.kit.diagnostic import Span
from booklet.kit.measure import ZERO, Length
from booklet.kit.records import replace
from booklet.kit.words import exactly
from booklet.pattern import Direction, Fabric, Sold, SoldAs
from booklet.source.tree.node import Map, Node, Text, described
from booklet.source.values.colour_names import PLAIN, STAND_IN
from booklet.source.values.fields import Fields, Key, Table, open_fields
from booklet.source.values.groups import group, list_of, none_or
from booklet.source.values.kinds import Kind, Reading, colour, name_of, one_of, raw, text
from booklet.source.values.names import named_entries
from booklet.source.values.quantities import length, percent
from booklet.source.values.wordings import wording

ACROSS = Key("across", length(), "How far apart the motif repeats across the cloth.", required=True)
ALONG = Key("along", length(), "How far apart the motif repeats along the selvedge.", required=True)
DROP = Key(
    "drop",
    raw("`half`, or a length", {"type": ["string", "number"]}),
    "How much lower each column of motifs lies than the one on its left: half the repeat (`half`) or a length.",
)
REPEAT = Table("repeat", "The repeat of a print, for fussy cutting.", (ACROSS, ALONG, DROP))

NAME = Key("name", wording(longest=80), "What the booklet calls the fabric.")
COLOUR = Key("colour", colour(), "The colour it is drawn in, in quotes if it begins with #.")
PICTURE = Key(
    "picture", text(longest=200), "A photograph of the cloth (PNG or JPEG) in the folder."
)
WIDTH = Key(
    "width",
    length(),
    "Usable width after the selvedges are cut off, of cloth that shrinks after the wash; 40 in or 102 cm if left out.",
)
DIRECTION = Key(
    "direction",
    one_of(Direction),
    "Whether the print has an up (one-way) or runs in stripes.",
    default="any",
)
REPEATS = Key(
    "repeat",
    none_or(group("repeat")),
    "The print's repeat across and along, for fussy cutting; `none` in a size or a colourway whose cloth has none.",
)
SHRINKS = Key(
    "shrinks", percent(0, 50), "How many percent the cloth shrinks in the wash.", default="0"
)
EXTRA = Key(
    "extra",
    raw("a percentage such as `10 %`, or a length", {"type": ["string", "number"]}),
    "Cloth to add before rounding up: a percentage or a length.",
)
SOLD_BY = Key(
    "sold by",
    length(),
    "The step in which the shop cuts, such as `1/4 yd` or `5 cm`; 1/8 yd or 10 cm if left out.",
)
KIND = Key(
    "kind",
    one_of(SoldAs),
    "How the cloth is bought; yardage if left out. One piece of a `panel` is one `repeat`.",
    default="yardage",
)
MIX = Key(
    "mix",
    list_of(name_of("fabric"), "a list of fabrics", least=2, most=200),
    "Scraps: the fabrics that this one stands for, dealt out over the pieces of a block in turn.",
)
FABRIC = Table(
    "fabric",
    "A cloth: its look, its usable width and how it is bought.",
    (NAME, COLOUR, PICTURE, WIDTH, DIRECTION, REPEATS, SHRINKS, EXTRA, SOLD_BY, KIND, MIX),
)

_PERCENT: Kind[Fraction] = percent(0, 200)
_LENGTH: Kind[Length] = length("zero")


def read_fabrics(node: Map | None, reading: Reading) -> dict[str, Fabric]:
    """The fabrics by name. A fabric with faulty keys is kept with the defaults for those."""
    found: dict[str, Fabric] = {}
    if node is None:
        return found
    for key, value in named_entries(node, "fabric", reading):
        if isinstance(value, Text) and value.is_empty:
            value = Map((), value.span)
        fields = open_fields(value, FABRIC, f"fabric `{key.value}`", key.span, reading)
        found[key.value] = (
            stand_in(key.value, key.span, reading)
            if fields is None
            else _fabric(key.value, fields, len(found), reading)
        )
    return found


def stand_in(name: str, span: Span, reading: Reading) -> Fabric:
    """A plain grey cloth for a fabric that is faulty or missing, so that reading can go on."""
    metric = reading.units == "cm"
    sold = Sold(trade.SOLD_STEP.said_in(reading.units), metric)
    return Fabric(
        id=name,
        name=name,
        colour=STAND_IN,
        width=trade.CLOTH_WIDTH.said_in(reading.units),
        sold=sold,
        span=span,
    )


def _fabric(name: str, fields: Fields, place: int, reading: Reading) -> Fabric:
    """One fabric; `place` counts the fabrics before it and chooses a colour where none is given."""
    plain = stand_in(name, fields.where, reading)
    picture = fields.get(PICTURE)
    if picture is not None:
        reading.pictures.setdefault(picture, fields.span(PICTURE))
    width = fields.get(WIDTH) or plain.width
    if width > trade.WIDEST_CLOTH.said_in(reading.units):
        message = f"`width` of {fields.what} is {exactly(width, reading.units)}: no cloth is woven so wide"
        hint = "write how wide it is sold, with its unit, such as `110 cm` or `44 in`"
        reading.doubt("without-unit", message, fields.span(WIDTH), hint)
    share, added = _extra(fields, reading)
    repeat, kind = _repeat(fields), fields.get(KIND) or SoldAs.YARDAGE
    if kind is SoldAs.PANEL and repeat[0] is None:
        message = f"{fields.what} is sold as a panel, but how large one is it does not say"
        hint = "add `repeat: {across: …, along: …}`, from one picture to the next"
        reading.faults.add("missing-key", message, fields.span(KIND), hint)
        kind = SoldAs.YARDAGE
    return replace(
        plain,
        name=fields.get(NAME) or name,
        colour=fields.get(COLOUR) or PLAIN[place % len(PLAIN)],
        width=width,
        sold=_sold(fields) or plain.sold,
        direction=fields.get(DIRECTION) or Direction.ANY,
        picture=picture,
        repeat=repeat[0],
        drop=repeat[1],
        shrinks=fields.get(SHRINKS) or Fraction(0),
        extra_share=share,
        extra=added,
        kind=kind,
    )


def _sold(fields: Fields) -> Sold | None:
    """The step of sale; metric where it is written in metric, or bare in a metric pattern."""
    step, node = fields.get(SOLD_BY), fields.node(SOLD_BY)
    if step is None or not isinstance(node, Text):
        return None
    metric = re.search(r"(mm|cm|m)\s*$", node.value) is not None
    imperial = re.search(r"(in|inch|inches|yd|yards?|[\"″”])\s*$", node.value) is not None
    metric = metric or (not imperial and fields.reading.units == "cm")
    if step < trade.LEAST_SOLD_STEP.said_in("cm" if metric else "inch"):
        least, meant = ("1 cm", "5 cm") if metric else ("1 in", "1/8 yd")
        fields.reading.faults.add(
            "bad-length",
            f"`sold by` of {fields.what} is `{node.value}`, less than {least}: no shop cuts cloth in such steps",
            node.span,
            f"write the step with its unit, as `{meant}`",
        )
        return None
    usual = trade.SHOP_STEP.said_in(fields.reading.units)
    if _is_bare(node) and (step.inches / usual.inches).denominator > 1:
        message = f"`sold by` of {fields.what} is {exactly(step, fields.reading.units)}: no shop cuts cloth in such steps"
        hint = "write it with its unit, such as `25 cm` or `1/4 yd`"
        fields.reading.doubt("without-unit", message, node.span, hint)
    return Sold(step, metric)


def _repeat(fields: Fields) -> tuple[tuple[Length, Length] | None, Length]:
    """The print's repeat, across and along, and how much each column of motifs drops."""
    inner = fields.inner(REPEATS, REPEAT)
    if inner is None:
        return None, ZERO
    across, along = inner.get(ACROSS), inner.get(ALONG)
    if across is None or along is None:
        return None, ZERO
    return (across, along), _drop(inner, along)


def _drop(inner: Fields, along: Length) -> Length:
    """How much lower each column of motifs lies than the one on its left."""
    node: Node | None = inner.node(DROP)
    if node is None:
        return ZERO
    if isinstance(node, Text) and node.value.strip() == "half":
        return along / 2
    if isinstance(node, Text) and not re.search(r"\d", node.value):
        message = f"`drop` of {inner.what} is {described(node)}, but it needs `half` or a length"
        inner.reading.faults.add("wrong-kind", message, node.span, "write `drop: half`")
        return ZERO
    return _LENGTH.read(node, f"`drop` of {inner.what}", inner.reading) or ZERO


def _extra(fields: Fields, reading: Reading) -> tuple[Fraction, Length]:
    """The extra as a share and as a length; one of them is zero."""
    node: Node | None = fields.node(EXTRA)
    if node is None:
        return Fraction(0), ZERO
    what = f"`extra` of {fields.what}"
    if isinstance(node, Text) and re.search(r"(%|percent)\s*$", node.value):
        return _PERCENT.read(node, what, reading) or Fraction(0), ZERO
    length = _LENGTH.read(node, what, reading) or ZERO
    if length.inches and isinstance(node, Text) and _is_bare(node):
        bare, read_as = node.value.strip(), exactly(length, reading.units)
        message = f"{what} is {read_as}, no percentage"
        hint = f"write `{bare} %`, or `{read_as}`"
        reading.doubt("without-unit", message, node.span, hint)
    return Fraction(0), length


def _is_bare(node: Text) -> bool:
    """Whether a number stands without a unit."""
    return re.search(r"[^\d\s./+*()-]", node.value) is None
