"""Floor 2: the kinds of values that hold others: lists, groups of keys, named groups."""

from __future__ import annotations

from typing import Literal, TypeVar

from booklet.kit.bounds import MOST_LIST
from booklet.source.examples import EXAMPLES
from booklet.source.tree.node import List, Map, Node, Text
from booklet.source.values.kinds import Kind, Reading, Schema, wrong_kind

T = TypeVar("T")


def list_of(
    item: Kind[T], words: str, least: int = 1, most: int = MOST_LIST
) -> Kind[tuple[T, ...]]:
    """A list of one kind; None if any entry is faulty, so that no entry is lost unseen."""

    def read(node: Node, what: str, reading: Reading) -> tuple[T, ...] | None:
        if not isinstance(node, List):
            wrong_kind(node, what, words, reading)
            return None
        if len(node.items) < least:
            count = len(node.items)
            entries = "entry" if count == 1 else "entries"
            message = f"{what} has {count} {entries}; it needs at least {least}"
            reading.faults.add("wrong-kind", message, node.span, f"write {words}")
            return None
        if len(node.items) > most:
            message = f"{what} has {len(node.items)} entries; at most {most} can be worked with"
            reading.faults.add("too-large", message, node.span, "shorten the list")
            return None
        read_items = [item.read(entry, what, reading) for entry in node.items]
        found = tuple(value for value in read_items if value is not None)
        return found if len(found) == len(read_items) else None

    schema: Schema = {"type": "array", "items": item.schema, "minItems": least}
    return Kind(words, read, schema)


def one_or_list(item: Kind[T], words: str) -> Kind[tuple[T, ...]]:
    """One value, or a list of such."""
    several = list_of(item, words)

    def read(node: Node, what: str, reading: Reading) -> tuple[T, ...] | None:
        if isinstance(node, List):
            return several.read(node, what, reading)
        value = item.read(node, what, reading)
        return None if value is None else (value,)

    return Kind(words, read, {"anyOf": [item.schema, several.schema]})


def group(table: str) -> Kind[Map]:
    """A group of keys; its own table is opened by the reader of that part."""
    example = EXAMPLES.get(table, "").strip()
    words = (
        f"a group of keys, as in `{example}`"
        if example.startswith("{")
        else f"a group of keys, as `booklet help {table}` shows"
    )

    def read(node: Node, what: str, reading: Reading) -> Map | None:
        if isinstance(node, Map):
            return node
        wrong_kind(node, what, words, reading)
        return None

    return Kind(words, read, {"$ref": f"#/$defs/{table}"})


def groups(table: str, words: str, most: int = MOST_LIST) -> Kind[tuple[Node, ...]]:
    """A list of groups; each entry is opened, and its kind checked, by the reader of that part."""

    def read(node: Node, what: str, reading: Reading) -> tuple[Node, ...] | None:
        if not isinstance(node, List):
            one = "write `[` before it and `]` after it: it is the first of a list"
            wrong_kind(node, what, words, reading, one if isinstance(node, Map) else None)
            return None
        if len(node.items) > most:
            message = f"{what} has {len(node.items)} entries; at most {most} can be worked with"
            reading.faults.add("too-large", message, node.span, "shorten the list")
            return None
        return node.items

    return Kind(words, read, {"type": "array", "items": {"$ref": f"#/$defs/{table}"}})


def named(table: str, noun: str, may_be_empty: bool = False, least: int = 0) -> Kind[Map]:
    """Groups by the name the designer gives each; an entry itself `may_be_empty`."""
    words = f"a name for each {noun}, with its keys after the colon"

    def read(node: Node, what: str, reading: Reading) -> Map | None:
        if isinstance(node, Map) and len(node.entries) < least:
            message = f"{what} is empty; it needs at least {least} {noun}"
            reading.faults.add("wrong-kind", message, node.span, f"write {words}")
            return None
        if isinstance(node, Map):
            return node
        wrong_kind(node, what, words, reading)
        return None

    entry: Schema = {"$ref": f"#/$defs/{table}"}
    allowed: Schema = {"anyOf": [entry, {"type": "null"}]} if may_be_empty else entry
    few: Schema = {"minProperties": least} if least else {}
    return Kind(words, read, {"type": "object", "additionalProperties": allowed, **few})


_NOTHING = ("no", "nothing", "without", "false", "off", "0", "null", "None")


def none_or(kind: Kind[T]) -> Kind[T | Literal["none"]]:
    """That kind, or the word `none`: what the pattern has, this size has not."""

    def read(node: Node, what: str, reading: Reading) -> T | Literal["none"] | None:
        if isinstance(node, Text) and node.value.strip() == "none":
            return "none"
        known = reading.names.get("fabric", ())
        if isinstance(node, Text) and node.value in _NOTHING and node.value not in known:
            hint = f"write {kind.words}, or `none` where there is none"
            wrong_kind(node, what, kind.words, reading, hint)
            return None
        return kind.read(node, what, reading)

    return Kind(kind.words, read, {"anyOf": [{"const": "none"}, kind.schema]})
