"""Floor 2: `sizes`: each with the fabrics, sewing rules and quilt that hold for it."""

from __future__ import annotations

import re

from booklet.kit.bounds import MOST_BLOCKS
from booklet.kit.diagnostic import Span
from booklet.kit.measure import ZERO, Length
from booklet.kit.records import Record, replace
from booklet.kit.trade import BED_DROP
from booklet.pattern import Bed, Fabric, Size
from booklet.source.sizes.cutting_rules import read_cutting
from booklet.source.sizes.fabrics import read_fabrics
from booklet.source.sizes.quilts import read_quilt
from booklet.source.sizes.sewing_rules import read_sewing
from booklet.source.tree.node import Map, Node, Text, merged
from booklet.source.values.fields import Fields, Key, Table, open_fields
from booklet.source.values.groups import group, named
from booklet.source.values.kinds import Kind, Reading, text, wrong_kind
from booklet.source.values.names import named_entries
from booklet.source.values.quantities import count, is_two_by, length, two_by, within
from booklet.source.values.wordings import wording

_COUNT = count(1, MOST_BLOCKS, "a number of blocks")
_TWO = two_by(_COUNT, "blocks across x down, such as `5 x 6`")
_BLOCKS_WORDS = "blocks across x down, such as `5 x 6`, or a number of blocks"
Blocks = tuple[int, int] | int


def _blocks(node: Node, what: str, reading: Reading) -> Blocks | None:
    if isinstance(node, Text) and not is_two_by(node) and re.search("[^\\d.,+-]", node.value):
        wrong_kind(node, what, _BLOCKS_WORDS, reading)
        return None
    return _TWO.read(node, what, reading) if is_two_by(node) else _COUNT.read(node, what, reading)


TITLE = Key("title", wording(longest=80), "What the booklet calls the size.")
UNIT = Key("unit", length(), "The length of one design unit (1 u) in this size.", required=True)
BLOCKS: Key[Blocks] = Key(
    "blocks",
    Kind(_BLOCKS_WORDS, _blocks, {"type": ["string", "integer"]}),
    "Blocks across x down; a plain number where there is no quilt. On point the rows between come on top: 3 x 4 are four rows"
    " of 3 and three rows of 2.",
)
QUILT = Key("quilt", group("quilt"), "Keys of `quilt` that this size has of its own.")
SEWING = Key("sewing", group("sewing"), "Keys of `sewing` that this size has of its own.")
CUTTING = Key("cutting", group("cutting"), "Keys of `cutting` that this size has of its own.")
FABRICS = Key(
    "fabrics",
    named("fabric", "fabric", may_be_empty=True),
    "Keys of `fabrics` that this size has of its own.",
)
MATTRESS = Key(
    "mattress",
    text(longest=60),
    "The mattress: `queen`, `uk double`, or its size as in `60 x 80 in`.",
    required=True,
)
DROP = Key("drop", length("zero"), "How far the quilt hangs down; 12 in or 30 cm if left out.")
TUCK = Key("tuck", length("zero"), "What is tucked in under the pillows; nothing if left out.")
BED_TABLE = Table("bed", "The bed a size is made for.", (MATTRESS, DROP, TUCK))
BED = Key("bed", group("bed"), "The bed this size is made for: you are told if it is too small.")
SIZE = Table(
    "size",
    "A size the pattern is made in.",
    (TITLE, UNIT, BLOCKS, QUILT, SEWING, CUTTING, FABRICS, BED),
)


class Common(Record, kw_only=True):
    """What the pattern says for all sizes: the nodes a size's own keys are laid over."""

    fabrics: Map | None
    sewing: Map | None
    quilt: Map | None
    quilt_at: Span  # where the key stands
    sewing_at: Span
    cutting: Map | None
    cutting_at: Span


def read_sizes(node: Map | None, common: Common, reading: Reading) -> tuple[Size, ...]:
    """The sound sizes in the order written. Without one, the pattern's own parts are still read."""
    found: list[Size] = []
    for key, value in named_entries(node, "size", reading, SIZE.names()) if node else ():
        fields = open_fields(value, SIZE, f"size `{key.value}`", key.span, reading)
        size = _size(key, fields, common, reading) if fields else None
        if size is not None:
            found.append(size)
    if not found:
        _read_common(common, reading)
    return tuple(found)


def _read_common(common: Common, reading: Reading) -> None:
    """Find the faults of the common parts where no sound size would."""
    plain = replace(reading, unit=Length.of(1))
    read_fabrics(common.fabrics, plain)
    if common.sewing:
        read_sewing(common.sewing, common.sewing_at, plain)
    if common.cutting:
        read_cutting(common.cutting, common.cutting_at, plain)
    if common.quilt:
        read_quilt(common.quilt, common.quilt_at, plain)


def _size(key: Text, fields: Fields, common: Common, reading: Reading) -> Size | None:
    """One size with everything that holds for it; None if its unit is missing or faulty."""
    unit = fields.get(UNIT)
    here = replace(reading, unit=unit or Length.of(1))
    sewing_at = common.sewing_at if common.sewing else key.span
    sewing_at = fields.key_span(SEWING) if fields.has(SEWING) else sewing_at
    sewing = read_sewing(merged(common.sewing, fields.get(SEWING), 0), sewing_at, here)
    cutting_at = fields.key_span(CUTTING) if fields.has(CUTTING) else common.cutting_at
    cutting = read_cutting(merged(common.cutting, fields.get(CUTTING), 0), cutting_at, here)
    quilt_node = merged(common.quilt, fields.get(QUILT), 0)
    where = fields.key_span(QUILT) if fields.has(QUILT) else common.quilt_at
    quilt = read_quilt(quilt_node, where, here) if quilt_node else None
    fabrics = _fabrics(fields, common, here)
    blocks = _blocks_of(fields, quilt_node is not None)
    if unit is None or blocks is None:
        return None
    across, down = blocks
    return Size(
        id=key.value,
        title=fields.get(TITLE) or key.value,
        unit=unit,
        across=across,
        down=down,
        count=across * down,
        fabrics=fabrics,
        sewing=sewing,
        quilt=quilt,
        span=key.span,
        blocks_span=fields.span(BLOCKS),
        cutting=cutting,
        bed=_bed(fields, here),
    )


def _bed(fields: Fields, reading: Reading) -> Bed | None:
    """The bed a size is made for; None without one, or without its mattress."""
    inner = fields.inner(BED, BED_TABLE)
    if inner is None:
        return None
    inner.reading = reading  # in which a design unit has its length
    mattress, drop = inner.get(MATTRESS), inner.usual(DROP, BED_DROP)
    tuck = inner.get(TUCK, ZERO)
    return None if mattress is None else Bed(mattress, drop, tuck, inner.span(MATTRESS))


def _fabrics(fields: Fields, common: Common, reading: Reading) -> dict[str, Fabric]:
    """The fabrics with this size's own keys; a size cannot bring a fabric the pattern has not."""
    own = fields.get(FABRICS)
    known = reading.names.get("fabric", ())
    for key, _ in own.entries if own else ():
        if key.value not in known:
            reading.faults.unknown_name("fabric", key.value, known, key.span)
    sound = tuple(entry for entry in own.entries if entry[0].value in known) if own else ()
    over = Map(sound, own.span) if own else None
    return read_fabrics(merged(common.fabrics, over, 1), reading)


def _blocks_of(fields: Fields, in_quilt: bool) -> tuple[int, int] | None:
    """Blocks across and down; a plain count is one row."""
    if not fields.has(BLOCKS):
        if in_quilt:
            fields.missing(BLOCKS, "so the quilt has no size")
        return None if in_quilt else (1, 1)
    blocks: Blocks | None = fields.get(BLOCKS)
    node = fields.node(BLOCKS)
    if blocks is None or node is None:
        return None
    if isinstance(blocks, tuple):
        what = f"`blocks` of {fields.what}"
        many = blocks[0] * blocks[1]
        return blocks if within(many, 1, MOST_BLOCKS, what, node, fields.reading) else None
    if in_quilt:
        message = f"`blocks` of {fields.what} is a plain number, but a quilt needs across x down"
        fields.reading.faults.add("wrong-kind", message, node.span, "write it like `5 x 6`")
        return None
    return blocks, 1
