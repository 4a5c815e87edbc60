"""Floor 2: puts other fabrics of pieces into the text of a pattern and leaves all else as it is."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from booklet.source.blocks.step_words import scalar
from booklet.source.lines import Lines, block_of, tree_of
from booklet.source.tree.node import List, Map, Node, Text, plain_value

_HALVES = re.compile(r"([^/\\]*)([/\\])([^/\\]*)")
Change = tuple[
    int, int, str
]  # from one place of the text to another, and what stands there instead


def write_cloths(text: str, block: str, cloths: Mapping[str, str]) -> str | None:
    """The text in which pieces of a block, by name, are of these fabrics. A piece that is one of a ring gets a list with one
    for each copy, as short as the ring allows. None where there is no such piece or the place cannot be found safely, as in
    a block that is drawn."""
    tree = tree_of(text)
    there = block_of(tree, block)
    if tree is None or there is None:
        return None
    lines, asked = Lines(text), dict(cloths)
    found = list(_changes(lines, there, asked))
    if asked or any(change is None for change in found):
        return None
    made = text
    for start, end, new in sorted((change for change in found if change), reverse=True):
        made = made[:start] + new + made[end:]
    after = tree_of(made)
    if after is None or _without_cloths(after, block) != _without_cloths(tree, block):
        return None
    return made if Lines(made).said(0, len(made)) == lines.said(0, len(text)) else None


def _changes(text: Lines, block: Map, asked: dict[str, str]) -> Iterator[Change | None]:
    """What has to be put where; what was found is taken out of what is `asked`. None for a place that is not plain."""
    pieces, grid = block.find("pieces"), block.find("grid")
    if pieces and isinstance(pieces[1], List):
        for item in pieces[1].items:
            if isinstance(item, Map):
                yield from _of_piece(text, item, asked)
    elif grid and isinstance(grid[1], List):
        for r, row in enumerate(grid[1].items, 1):
            for c, cell in enumerate(row.items if isinstance(row, List) else (), 1):
                if isinstance(cell, Text):
                    yield from _of_cell(text, cell, f"r{r}c{c}", asked)


def _of_piece(text: Lines, item: Map, asked: dict[str, str]) -> Iterator[Change | None]:
    """The change of the fabric of a piece, or of a ring of them."""
    id, fabric = item.find("id"), item.find("fabric")
    if id is None or fabric is None or not isinstance(id[1], Text):
        return
    names = list(_members(id[1].value, item))
    if not asked.keys() & set(names):
        return
    node = fabric[1]
    written = [
        n.value for n in (node.items if isinstance(node, List) else [node]) if isinstance(n, Text)
    ]
    now = [written[k % len(written)] for k in range(len(names))] if written else []
    new = [asked.pop(name, old) for name, old in zip(names, now, strict=True)] if now else []
    if new != now or not now:
        yield from _put(text, node, new)


def _members(id: str, item: Map) -> Iterator[str]:
    """The names of the pieces that an entry stands for."""
    ring = item.find("ring")
    times = ring[1].find("times") if ring and isinstance(ring[1], Map) else None
    if times is None or not isinstance(times[1], Text) or not times[1].value.strip().isdigit():
        yield id
        return
    yield from (f"{id}{k}" for k in range(1, int(times[1].value) + 1))


def _put(text: Lines, node: Node, new: Sequence[str]) -> Iterator[Change | None]:
    """The change of a fabric, or of a list of them, to these."""
    short = _period(new)
    if isinstance(node, List) and not text.is_flow(node):
        items = [item for item in node.items if isinstance(item, Text)]
        if len(new) % len(items) or list(new) != [*new[: len(items)]] * (len(new) // len(items)):
            yield None
        for item, name in zip(items, new, strict=False):
            yield _replaced(text, item, scalar(name))
        return
    made = scalar(short[0]) if len(short) == 1 else f"[{', '.join(map(scalar, short))}]"
    if isinstance(node, List):
        yield text.at(node), text.flow_end(text.at(node)), made
    else:
        yield _replaced(text, node, made)


def _replaced(text: Lines, node: Node, made: str) -> Change | None:
    """The change of a value in one line."""
    if not isinstance(node, Text) or node.is_empty:
        return None
    start = text.at(node)
    return start, start + node.span.end - node.span.column, made


def _period(names: Sequence[str]) -> list[str]:
    """The shortest beginning of a row that gives it when repeated; the row itself where none does."""
    for length in range(1, len(names)):
        if len(names) % length == 0 and [*names[:length]] * (len(names) // length) == list(names):
            return list(names[:length])
    return list(names)


def _of_cell(text: Lines, cell: Text, id: str, asked: dict[str, str]) -> Iterator[Change | None]:
    """The change of a cell of a grid, or of one half of it."""
    halves = _HALVES.fullmatch(cell.value)
    if halves is None:
        if id in asked:
            yield _replaced(text, cell, _cell(text, cell, asked.pop(id)))
        return
    one, sign, other = halves.groups()
    new = [asked.pop(id + half, old.strip()) for half, old in (("a", one), ("b", other))]
    if new != [one.strip(), other.strip()]:
        yield _replaced(text, cell, _cell(text, cell, sign.join(new)))


def _cell(text: Lines, cell: Text, value: str) -> str:
    """A cell as YAML, in the quotes it stood in."""
    mark = text.text[text.at(cell)] if cell.quoted else ""
    if mark == '"':
        value = value.replace("\\", "\\\\")
    plain = all(scalar(name) == name for name in re.split(r"[/\\]", value))
    return f"{mark}{value}{mark}" if mark or plain else f"'{value}'"


def _without_cloths(tree: Map, block: str) -> object:
    """What a tree says but for the fabrics of a block's pieces, of which only the places count."""
    plain: object = plain_value(tree)
    there: dict[str, object] = plain["blocks"][block]  # type: ignore[index]
    pieces, grid = there.get("pieces"), there.get("grid")
    for piece in pieces if isinstance(pieces, list) else ():
        if isinstance(piece, dict):
            piece.pop("fabric", None)
    if isinstance(grid, list):
        there["grid"] = [
            [re.sub(r"[^/\\]+", "x", c) if isinstance(c, str) else c for c in row]
            for row in grid
            if isinstance(row, list)
        ]
    return plain
