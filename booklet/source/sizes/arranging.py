"""Floor 2: `arrange`: rows of blocks, each perhaps turned."""

from __future__ import annotations

import re

from booklet.kit.bounds import MOST_ARRANGED, MOST_COMPARED
from booklet.kit.diagnostic import nearest
from booklet.pattern import Setting
from booklet.source.tree.node import List, Node, Text, shortened
from booklet.source.values.fields import Fields, Key
from booklet.source.values.kinds import Reading, raw, wrong_kind

_ROWS = {"type": "array", "items": {"type": ["array", "string"], "items": {"type": "string"}}}
ARRANGE = Key(
    "arrange",
    raw("rows of blocks, as in `[[a, b], [b, a turn 90]]`", _ROWS),
    "Rows of blocks, repeated over the quilt; `a turn 90` turns a block. On point every second row lies between two "
    "others and is one block shorter: `[[star], [plain]]` sets plain blocks between stars. The mirror image of a block is "
    "a block of its own, with its pieces from right to left.",
)
_MIRRORED = re.compile(r"(.*\S)\s+(?:flip|flipped|mirror|mirrored|reversed)(?:\s+turn\s.*)?")
_TURNED = re.compile(r"(.*\S)\s+[^\W\d]+\s+([+-]?[0-9]{1,6})(?:\s*°)?")
_SETTING = re.compile(r"(.*\S)\s+turn\s+([+-]?[0-9]{1,6})(?:\s*°)?")


def read_arrangement(fields: Fields, reading: Reading) -> tuple[tuple[Setting, ...], ...] | None:
    """The rows of blocks; one block needs no arrangement."""
    node = fields.node(ARRANGE)
    blocks = tuple(reading.names.get("block", ()))
    if node is None:
        if len(blocks) == 1:
            return ((Setting(blocks[0], 0, fields.where),),)
        fields.missing(ARRANGE, f"and there are {len(blocks)} blocks to choose from")
        return None
    if not isinstance(node, List) or not node.items:
        wrong_kind(node, "`arrange` of `quilt`", ARRANGE.kind.words, reading)
        return None
    rows = node.items
    if all(isinstance(item, Text) for item in rows):  # a single row
        rows = (node,)
    total = sum(len(row.items) for row in rows if isinstance(row, List))
    if total > MOST_ARRANGED:
        message = f"`arrange` has {total} blocks; at most {MOST_ARRANGED} can be worked with"
        reading.faults.add("too-large", message, node.span, "write the part that repeats, once")
        return None
    found = [_row(row, reading) for row in rows]
    return None if None in found else tuple(row for row in found if row)


def _row(node: Node, reading: Reading) -> tuple[Setting, ...] | None:
    if not isinstance(node, List) or not node.items:
        wrong_kind(node, "a row of `arrange`", "a list of blocks such as `[a, b turn 90]`", reading)
        return None
    settings = [_setting(item, reading) for item in node.items]
    return None if None in settings else tuple(s for s in settings if s)


def _setting(node: Node, reading: Reading) -> Setting | None:
    """One block in its place, perhaps turned."""
    if not isinstance(node, Text) or node.is_empty:
        wrong_kind(node, "an entry of `arrange`", "a block, perhaps with `turn 90`", reading)
        return None
    written = " ".join(node.value.split())
    match = _SETTING.fullmatch(written)
    name, turn = (match[1], int(match[2])) if match else (written, 0)
    blocks = reading.names.get("block", ())
    if written in blocks:
        name, turn = written, 0
    mirrored = _MIRRORED.fullmatch(written)
    if name not in blocks and mirrored and mirrored[1] in blocks:
        message = f"block `{mirrored[1]}` can be turned in its place, but not mirrored"
        hint = "write its mirror image as a block of its own, with its pieces from right to left"
        reading.faults.add("unknown-name", message, node.span, hint)
        return None
    if name not in blocks:
        lost, meant = _meant(name, tuple(blocks))
        reading.faults.unknown_name("block", shortened(lost), blocks, node.span, meant)
        return None
    if turn % 90:
        message = f"block `{name}` cannot be turned by `{turn}` degrees in its place"
        reading.faults.add("bad-number", message, node.span, "turn it by 90, 180 or 270")
        return None
    return Setting(name, turn % 360, node.span)


def _meant(written: str, blocks: tuple[str, ...]) -> tuple[str, str | None]:
    """What is no block in an entry that ends in a word for mirroring, or a word and quarter turns, and the hint that asks
    after what was meant by it; the whole entry and None where no block is near."""
    if mirrored := _MIRRORED.fullmatch(written[:MOST_COMPARED]):
        near = nearest(mirrored[1], blocks[:MOST_COMPARED])
        if near is not None:
            hint = f"did you mean `{near}`? It can be turned in its place, but not mirrored"
            return mirrored[1], hint
    match = _TURNED.fullmatch(written[:MOST_COMPARED])
    if match is None or int(match[2]) % 90:
        return written, None
    own, turn = match.groups()
    near = own if own in blocks else nearest(own, blocks[:MOST_COMPARED])
    if near is None:
        return written, None
    return written if near == own else own, f"did you mean `{near} turn {turn}`?"
