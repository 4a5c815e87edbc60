"""Floor 2, the tree of the source: what was written, and where. Nothing is interpreted yet.

A scalar stays the text that was written: whether `yes` is a word or a wish, and whether `1/4 in`
is a length, is decided by the reader of the key it stands at.
"""

from __future__ import annotations

from booklet.kit.diagnostic import Span
from booklet.kit.records import Record


class Text(Record):
    """One value as written; `quoted` where quotation marks or a text block stand round it."""

    value: str
    span: Span
    quoted: bool = False

    @property
    def is_empty(self) -> bool:
        """Whether nothing was written (an empty place, `~` or `null`)."""
        return not self.quoted and self.value in ("", "~", "null", "Null", "NULL")


class List(Record):
    """A list; its span is its beginning."""

    items: tuple[Node, ...]
    span: Span


class Map(Record):
    """Keys with their values, each key once, in the order written; of one merged from several groups also where the group
    begins that each key is of."""

    entries: tuple[tuple[Text, Node], ...]
    span: Span
    origins: tuple[tuple[str, Span], ...] = ()

    def origin(self, key: str) -> Span:
        """Where the group begins in which a key was written."""
        return dict(self.origins).get(key, self.span)

    def find(self, key: str) -> tuple[Text, Node] | None:
        """The entry of that key, or None."""
        return next((entry for entry in self.entries if entry[0].value == key), None)


Node = Text | List | Map


def described(node: Node) -> str:
    """What a node is, in words, for messages: "a list", "`red`", "nothing"."""
    match node:
        case Text() if node.is_empty:
            return "nothing"
        case Text(value=value):
            return f"`{shortened(value)}`"
        case List():
            return "a list"
        case Map():
            return "a group of keys"


def shortened(text: str) -> str:
    """The text on one line, cut after 40 characters."""
    plain = " ".join(text.replace("`", "'").split())
    return plain if len(plain) <= 40 else plain[:39] + "…"


def plain_value(node: Node) -> object:
    """The node as lists, dicts and text, without positions (None for an empty place)."""
    match node:
        case Text():
            return None if node.is_empty else node.value
        case List(items=items):
            return [plain_value(item) for item in items]
        case Map(entries=entries):
            return {key.value: plain_value(value) for key, value in entries}


def merged(base: Map | None, over: Map | None, depth: int) -> Map | None:
    """`base` with the entries of `over` in place of its own; groups are merged `depth` levels deep."""
    if base is None or over is None:
        return over if base is None else base
    entries = {key.value: (key, value) for key, value in base.entries}
    for key, value in over.entries:
        earlier = entries.get(key.value)
        if depth > 0 and earlier and isinstance(earlier[1], Map) and isinstance(value, Map):
            entries[key.value] = (key, merged(earlier[1], value, depth - 1) or value)
        else:
            entries[key.value] = (key, value)
    own = {key.value for key, _ in over.entries}
    origins = tuple((key, over.origin(key) if key in own else base.origin(key)) for key in entries)
    return Map(tuple(entries.values()), over.span, origins)
