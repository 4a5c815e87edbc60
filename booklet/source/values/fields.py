"""Floor 2: tables of keys, and the reading of a group against its table.

A `Table` says which keys a group takes, of which kind, and what each means. The reader of a part and
the JSON Schema both use the same table, so they cannot come to differ.
"""

from __future__ import annotations

from typing import Any, Generic, TypeVar, overload

from booklet.kit.diagnostic import Span, did_you_mean
from booklet.kit.measure import Length
from booklet.kit.records import Record
from booklet.kit.trade import Usual
from booklet.source.tree.node import Map, Node, Text, shortened
from booklet.source.values.kinds import Kind, Reading, wrong_kind

T = TypeVar("T")
U = TypeVar("U")


class Key(Record, Generic[T]):
    """One key of a group: its name, the kind of its value, what it means, whether it must be there; as
    `default` the value that says the same as leaving it out, where there is one."""

    name: str
    kind: Kind[T]
    doc: str
    required: bool = False
    default: str | None = None


class Table(Record):
    """The keys a group takes."""

    name: str
    doc: str
    keys: tuple[Key[Any], ...]

    def names(self) -> tuple[str, ...]:
        """The names of the keys, in the order of the table."""
        return tuple(key.name for key in self.keys)


ELSEWHERE = {"wadding": "batting", "lining": "backing"}
"""What a key is called where English is spoken otherwise."""


class Fields:
    """A group opened against its table: unknown and missing keys are noted, values read on demand."""

    def __init__(self, node: Map, table: Table, what: str, where: Span, reading: Reading) -> None:
        self.what, self.where, self.reading = what, where, reading
        self._nodes = {key.value: value for key, value in node.entries}
        self._keys = {key.value: key.span for key, _ in node.entries}
        self.complete = True
        for key, _ in node.entries:
            if key.value not in table.names():
                self._unknown(key, table)
        for wanted in table.keys:
            if wanted.required and wanted.name not in self._nodes:
                self.complete = False
                self.missing(wanted)

    def _unknown(self, key: Text, table: Table) -> None:
        shown = shortened(key.value)
        hint = did_you_mean(ELSEWHERE.get(shown, shown), table.names())
        if key.value[:1].isdigit():
            hint = "write decimals with a point, and put a text with a comma or colon in quotes"
        for noun, names in self.reading.names.items():
            if key.value in names and f"{noun}s" in table.names():
                hint = f"write it under `{noun}s`: `{noun}s: {{{key.value}: …}}`"
        self.reading.faults.add(
            "unknown-key", f"{self.what} takes no key `{shown}`", key.span, hint
        )

    def missing(self, key: Key[Any], why: str = "") -> None:
        """Note that a key is missing."""
        message = f"{self.what} has no `{key.name}`" + (f", {why}" if why else "")
        hint = f"add `{key.name}:` with {key.kind.words}"
        self.reading.faults.add("missing-key", message, self.where, hint)

    def has(self, key: Key[Any]) -> bool:
        """Whether the key was written."""
        return key.name in self._nodes

    @overload
    def get(self, key: Key[T]) -> T | None: ...

    @overload
    def get(self, key: Key[T], usual: U) -> T | U: ...

    def get(self, key: Key[T], usual: U | None = None) -> T | U | None:
        """The value of a key; what is `usual` if it was not written or is faulty (the fault is noted)."""
        node = self._nodes.get(key.name)
        if node is None:
            return usual
        read = key.kind.read(node, f"`{key.name}` of {self.what}", self.reading)
        return usual if read is None else read

    def need(self, key: Key[T], why: str) -> T | None:
        """As get, but a key that is not there is noted as missing."""
        if not self.has(key):
            self.missing(key, why)
            return None
        return self.get(key)

    def usual(self, key: Key[Length], usual: Usual) -> Length:
        """The length of a key; the trade's usual one if it was not written or is faulty."""
        return self.get(key, usual.said_in(self.reading.units))

    def inner(self, key: Key[Any], table: Table, what: str = "") -> Fields | None:
        """The group of a key, opened against its table; None if it is not there, is `none`, or is faulty."""
        node: object = self.get(key)
        if not isinstance(node, Map):
            return None
        what = what or f"`{key.name}` of {self.what}"
        return Fields(node, table, what, self.key_span(key), self.reading)

    def both(self, one: Key[Any], other: Key[Any]) -> None:
        """Note two keys of which only one can hold."""
        message = f"{self.what} has both `{one.name}` and `{other.name}`"
        place = self.key_span(other)
        self.reading.faults.add("conflicting-keys", message, place, "keep one of the two")

    def node(self, key: Key[Any]) -> Node | None:
        """The node of a key as written."""
        return self._nodes.get(key.name)

    def key_span(self, key: Key[Any]) -> Span:
        """Where the key itself stands; of a key not written, the group's place."""
        return self._keys.get(key.name, self.where)

    def span(self, key: Key[Any]) -> Span:
        """Where the value of a key stands; of a key not written, the group's place."""
        node = self._nodes.get(key.name)
        return self.where if node is None else node.span


def open_fields(
    node: Node, table: Table, what: str, where: Span, reading: Reading
) -> Fields | None:
    """The group opened against its table; None with a fault if the node is no group."""
    if isinstance(node, Map):
        return Fields(node, table, what, where, reading)
    wrong_kind(node, what, f"its keys ({', '.join(f'`{n}`' for n in table.names()[:6])})", reading)
    return None
