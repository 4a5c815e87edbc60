"""Floor 2: `parts` of `booklet`: the instalments in which the pattern comes."""

from __future__ import annotations

from booklet.kit.bounds import MOST_PARTS
from booklet.pattern import Instalment
from booklet.source.tree.node import Node, shortened
from booklet.source.values.fields import Fields, Key, Table, open_fields
from booklet.source.values.groups import groups, list_of
from booklet.source.values.kinds import Kind, Reading, name_of, yes_no
from booklet.source.values.wordings import wording

TITLE = Key("title", wording("a title", longest=80), "What the part is called.")
BLOCKS = Key(
    "blocks",
    list_of(name_of("block"), "a list of blocks"),
    "The blocks that are sewn in it, all of each; one that no part names is sewn in the last.",
)
QUILT = Key(
    "quilt",
    yes_no(),
    "Whether the quilt is joined and finished in it: only the last can be that, and is it by itself.",
)
PART = Table(
    "part", "An instalment of the pattern, with a booklet of its own.", (TITLE, BLOCKS, QUILT)
)


def part_list() -> Kind[tuple[Node, ...]]:
    """The parts of a booklet, each a group of keys."""
    words = "a list of parts such as `[{title: First month, blocks: [star]}]`"
    return groups("part", words, MOST_PARTS)


def read_parts(nodes: tuple[Node, ...] | None, reading: Reading) -> tuple[Instalment, ...]:
    """The parts in order, with what is wrong with them noted: a block in two, one without blocks, a quilt that is joined
    too soon. A part that cannot be read keeps its place, so that the numbers of the others stay."""
    nodes = nodes or ()
    found = [_part(n, node, reading, n == len(nodes)) for n, node in enumerate(nodes, 1)]
    parts = tuple(part for part in found if part is not None)
    first: dict[str, Instalment] = {}
    for part in parts:
        for block in part.blocks:
            other = first.setdefault(block, part)
            if other is not part or part.blocks.count(block) > 1:
                _twice(block, other, part, reading)
                break
    return parts


def _part(number: int, node: Node, reading: Reading, is_last: bool) -> Instalment | None:
    """One part; only the last may do without blocks, for it joins the quilt."""
    fields = open_fields(node, PART, f"part {number} of `booklet`", node.span, reading)
    if fields is None:
        return None
    title = fields.need(TITLE, "files and pages are told apart by it")
    blocks = fields.get(BLOCKS) or ()
    if not (blocks or is_last or fields.has(BLOCKS)):
        message = f"{fields.what} has no blocks, and it is not the last, which joins the quilt"
        _fault(message, node, "name its blocks: `blocks: [...]`", reading)
    _refuse_quilt(fields, is_last, node)
    return None if title is None else Instalment(title, blocks, node.span)


def _refuse_quilt(fields: Fields, is_last: bool, node: Node) -> None:
    """Note a quilt that is joined before all its blocks are sewn, or in no part."""
    quilt = fields.get(QUILT)
    if quilt and not is_last:
        message = f"{fields.what} joins the quilt, but other parts come after it"
        _fault(message, node, "let the part that joins the quilt be the last", fields.reading)
    if quilt is False and is_last:
        message = f"{fields.what} is the last, and the quilt is joined in no part"
        _fault(message, node, "take `quilt: no` out, or add a last part", fields.reading)


def _twice(block: str, other: Instalment, part: Instalment, reading: Reading) -> None:
    message = f"block `{shortened(block)}` is sewn in two parts, `{shortened(other.title)}` and `{shortened(part.title)}`"
    if other is part:
        message = f"block `{shortened(block)}` stands twice in part `{shortened(part.title)}`"
    hint = "name it once: all blocks of one name are sewn in one part"
    reading.faults.add("parts", message, part.span, hint)


def _fault(message: str, node: Node, hint: str, reading: Reading) -> None:
    reading.faults.add("parts", message, node.span, hint)
