"""Floor 2: the kinds of values a key can take: how each is read, and its form in the schema.

A kind reads one node to a value, or notes a fault and gives None; it never raises. `what` is how the
message calls the value: "`width` of fabric `ink`".
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import Enum
from fractions import Fraction
from typing import Generic, Literal, TypeVar

from booklet.diagnostic import did_you_mean
from booklet.measure import (
    Extent,
    Length,
    MeasureError,
    Number,
    UnitSystem,
    read_extent,
    read_number,
    snapped,
)
from booklet.pattern import ExtentPoint
from booklet.source.colours import NAMED
from booklet.source.faults import Faults
from booklet.source.node import List, Map, Node, Text, described, shortened

T = TypeVar("T")
E = TypeVar("E", bound=Enum)
Schema = Mapping[str, object]

MOST_LIST = 20_000  # entries of any list of the format
_HEX = re.compile(r"#(?:[0-9a-fA-F]{3}|[0-9a-fA-F]{6})")
_BY = re.compile(r"(.*?[^x×\s])\s*[x×]\s*([^x×\s].*)")
_ANY: Schema = {"type": ["string", "number"]}


@dataclass(frozen=True, slots=True)
class Reading:
    """What a reader needs to know: where faults go, the units, and which names exist.

    `bare` is the unit of a number without one; `unit` the length of 1 u where lengths must be
    known. A fabric that does not exist is kept in `stand_ins`, so that reading can go on.
    """

    faults: Faults
    units: UnitSystem = "inch"
    bare: Literal["u", "in", "cm"] = "in"
    unit: Length | None = None
    names: Mapping[str, Collection[str]] = field(default_factory=dict)
    stand_ins: set[str] = field(default_factory=set)

    def of_units(self, inch: str, cm: str) -> Length:
        """The default length that suits the units of the pattern."""
        return Length.of(inch if self.units == "inch" else cm)


@dataclass(frozen=True, slots=True)
class Kind(Generic[T]):
    """A kind of value: its words for a message, its reader, its JSON Schema."""

    words: str
    read: Callable[[Node, str, Reading], T | None]
    schema: Schema


def wrong_kind(
    node: Node, what: str, words: str, reading: Reading, hint: str | None = None
) -> None:
    """Note that a value is not of the kind its key takes."""
    if isinstance(node, Text) and node.is_empty:
        message = f"{what} is empty; it needs {words}"
        hint = hint or "write the value after the colon; a value that begins with `#` needs quotes"
    else:
        message = f"{what} is {described(node)}, but it needs {words}"
    reading.faults.add("wrong-kind", message, node.span, hint)


def _written(node: Node, what: str, words: str, reading: Reading) -> str | None:
    """The text of a node, or None with a fault if it is a list, a group or empty."""
    if isinstance(node, Text) and not node.is_empty:
        return node.value.strip()
    wrong_kind(node, what, words, reading)
    return None


def text(words: str = "a text", longest: int = 2000) -> Kind[str]:
    """Any text, kept as written; numbers and `yes` are texts here."""

    def read(node: Node, what: str, reading: Reading) -> str | None:
        value = _written(node, what, words, reading)
        if value is not None and len(value) > longest:
            message = f"{what} has {len(value)} characters; at most {longest} fit"
            reading.faults.add("too-large", message, node.span, "shorten it")
            return None
        return value

    return Kind(words, read, {"type": ["string", "number", "boolean"]})


def name_of(noun: str) -> Kind[str]:
    """The name of a fabric, patch, block or size of this pattern."""
    words = f"the name of a {noun}"

    def read(node: Node, what: str, reading: Reading) -> str | None:
        name = _written(node, what, words, reading)
        if name is None or name in reading.names.get(noun, ()):
            return name
        reading.faults.unknown_name(noun, shortened(name), reading.names.get(noun, ()), node.span)
        if noun != "fabric":
            return None
        reading.stand_ins.add(name)
        return name

    return Kind(words, read, {"type": ["string", "number", "boolean"]})


def _extent(node: Node, what: str, words: str, reading: Reading) -> Extent | None:
    """The extent a node means, or None with a fault."""
    value = _written(node, what, words, reading)
    if value is None:
        return None
    try:
        return read_extent(value, reading.bare)
    except MeasureError as fault:
        hint = "write it like `2 1/2 in`, `6.4 cm` or `1.5 u`"
        reading.faults.add("bad-length", f"{what}: {fault}", node.span, hint)
        return None


def _low(value: Number, least: Literal["any", "zero", "positive"]) -> bool:
    return least != "any" and (value < 0 or (value == 0 and least == "positive"))


def _too_small(node: Node, what: str, least: str, reading: Reading) -> None:
    more = "more than zero" if least == "positive" else "zero or more"
    message = f"{what} is {described(node)}, but it must be {more}"
    reading.faults.add(
        "bad-length", message, node.span, "measure it once more and write what you find"
    )


def extent(least: Literal["any", "zero", "positive"] = "positive") -> Kind[Extent]:
    """A number of design units, or a length."""
    words = "a length such as `1 1/2` or `1 1/2 in`"

    def read(node: Node, what: str, reading: Reading) -> Extent | None:
        value = _extent(node, what, words, reading)
        if value is not None and _low(value.value, least):
            _too_small(node, what, least, reading)
            return None
        return value

    return Kind(words, read, _ANY)


def length(least: Literal["any", "zero", "positive"] = "positive") -> Kind[Length]:
    """A length; one in design units is resolved where a size is being read."""
    words = "a length such as `2 1/2 in` or `6.4 cm`"

    def read(node: Node, what: str, reading: Reading) -> Length | None:
        value = _extent(node, what, words, reading)
        if value is None:
            return None
        if value.in_units and reading.unit is None:
            message = f"{what} is in design units, which have no length here"
            reading.faults.add("bad-length", message, node.span, "write it in in, cm or mm")
            return None
        factor = reading.unit.inches if value.in_units and reading.unit else Fraction(1)
        number = value.value
        exact = number * factor if isinstance(number, Fraction) else snapped(number * float(factor))
        if _low(exact, least):
            _too_small(node, what, least, reading)
            return None
        return Length(exact)

    return Kind(words, read, _ANY)


def number(low: float, high: float, words: str) -> Kind[Number]:
    """A plain number or arithmetic, from `low` to `high`."""

    def read(node: Node, what: str, reading: Reading) -> Number | None:
        value = _written(node, what, words, reading)
        if value is None:
            return None
        try:
            found = read_number(value.removesuffix("°").rstrip())
        except MeasureError as fault:
            reading.faults.add("bad-number", f"{what}: {fault}", node.span, f"write {words}")
            return None
        if not low <= float(found) <= high:
            message = f"{what} is {described(node)}, but it must lie between {low:g} and {high:g}"
            reading.faults.add("bad-number", message, node.span, f"write {words}")
            return None
        return found

    return Kind(words, read, _ANY)


def count(low: int, high: int, words: str) -> Kind[int]:
    """A whole number from `low` to `high`; more than `high` is too large."""

    def read(node: Node, what: str, reading: Reading) -> int | None:
        value = _written(node, what, words, reading)
        if value is None:
            return None
        if not re.fullmatch(r"[+-]?[0-9]{1,12}", value):
            reading.faults.add(
                "bad-number", f"{what} is {described(node)}, but it needs {words}", node.span,
                f"write a whole number from {low} on",
            )  # fmt: skip
            return None
        return int(value) if within(int(value), low, high, what, node, reading) else None

    return Kind(words, read, {"type": ["integer", "string"]})


def within(value: int, low: int, high: int, what: str, node: Node, reading: Reading) -> bool:
    """Whether a count lies between its limits; notes a fault if not."""
    if value < low:
        message = f"{what} is `{value}`, but it must be {low} or more"
        reading.faults.add("bad-number", message, node.span, f"write a whole number from {low} on")
    elif value > high:
        message = f"{what} is `{value}`; at most {high} can be worked with"
        reading.faults.add("too-large", message, node.span, "write a smaller number")
    return low <= value <= high


def yes_no() -> Kind[bool]:
    """`yes` or `no`, `true` or `false`."""
    words = "`yes` or `no`"
    values = {"yes": True, "true": True, "no": False, "false": False}

    def read(node: Node, what: str, reading: Reading) -> bool | None:
        value = _written(node, what, words, reading)
        if value is not None and value.lower() not in values:
            wrong_kind(node, what, words, reading)
        return values.get(value.lower()) if value is not None else None

    return Kind(words, read, {"enum": ["yes", "no", True, False]})


def one_of(choices: type[E] | Mapping[str, E]) -> Kind[E]:
    """One of a few words, the values of an Enum."""
    by_word: Mapping[str, E] = (
        choices
        if isinstance(choices, Mapping)
        else {str(member.value): member for member in choices}
    )
    words = "one of " + ", ".join(f"`{word}`" for word in by_word)

    def read(node: Node, what: str, reading: Reading) -> E | None:
        value = _written(node, what, words, reading)
        found = by_word.get(" ".join(value.split())) if value is not None else None
        if value is not None and found is None:
            wrong_kind(node, what, words, reading, did_you_mean(value, by_word))
        return found

    return Kind(words, read, {"enum": list(by_word)})


def word(choices: Collection[str]) -> Kind[str]:
    """One of a few words, as text."""
    words = "one of " + ", ".join(f"`{choice}`" for choice in choices)

    def read(node: Node, what: str, reading: Reading) -> str | None:
        value = _written(node, what, words, reading)
        plain = " ".join(value.split()) if value is not None else None
        if plain is not None and plain not in choices:
            wrong_kind(node, what, words, reading, did_you_mean(plain, choices))
            return None
        return plain

    return Kind(words, read, {"enum": list(choices)})


def point(words: str = "a point such as `[3, 1.5]`, across then down") -> Kind[ExtentPoint]:
    """Two extents: x to the right, y down."""
    of_place = extent("any")

    def read(node: Node, what: str, reading: Reading) -> ExtentPoint | None:
        if not isinstance(node, List) or len(node.items) != 2:
            wrong_kind(node, what, words, reading)
            return None
        x, y = (of_place.read(item, what, reading) for item in node.items)
        return (x, y) if x is not None and y is not None else None

    schema: Schema = {"type": "array", "items": of_place.schema, "minItems": 2, "maxItems": 2}
    return Kind(words, read, schema)


def list_of(
    item: Kind[T], words: str, least: int = 1, most: int = MOST_LIST
) -> Kind[tuple[T, ...]]:
    """A list of one kind; None if any entry is faulty, so that no entry is lost unseen."""

    def read(node: Node, what: str, reading: Reading) -> tuple[T, ...] | None:
        if not isinstance(node, List):
            wrong_kind(node, what, words, reading)
            return None
        if len(node.items) < least:
            message = f"{what} has {len(node.items)} entries; it needs at least {least}"
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


def two_by(item: Kind[T], words: str) -> Kind[tuple[T, T]]:
    """Two values with an x between: `6 x 6`, `6x6`, `6 × 6`."""

    def read(node: Node, what: str, reading: Reading) -> tuple[T, T] | None:
        value = _written(node, what, words, reading)
        match = _BY.fullmatch(value) if value is not None else None
        if match is None:
            if value is not None:
                wrong_kind(node, what, words, reading)
            return None
        a, b = (item.read(Text(part, node.span), what, reading) for part in match.groups())
        return (a, b) if a is not None and b is not None else None

    return Kind(words, read, {"type": "string"})


def is_two_by(node: Node) -> bool:
    """Whether a value has the form `A x B`."""
    return isinstance(node, Text) and _BY.fullmatch(node.value.strip()) is not None


def colour() -> Kind[str]:
    """A colour as "#rrggbb"."""
    words = 'a colour such as `"#243b6b"` (in quotes) or `navy`'

    def read(node: Node, what: str, reading: Reading) -> str | None:
        value = _written(node, what, words, reading)
        if value is None:
            return None
        if _HEX.fullmatch(value):
            digits = value[1:].lower()
            return "#" + (digits if len(digits) == 6 else "".join(2 * d for d in digits))
        if value.lower() in NAMED:
            return NAMED[value.lower()]
        wrong_kind(node, what, words, reading, did_you_mean(value.lower(), NAMED))
        return None

    return Kind(words, read, {"type": "string"})


def day() -> Kind[date]:
    """A date, year first."""
    words = "a date such as `2026-11-25`"

    def read(node: Node, what: str, reading: Reading) -> date | None:
        value = _written(node, what, words, reading)
        if value is None:
            return None
        try:
            if re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", value):
                return date.fromisoformat(value)
        except ValueError:
            pass
        wrong_kind(node, what, words, reading, "write year, month and day with hyphens between")
        return None

    return Kind(words, read, {"type": "string", "pattern": r"^\d{4}-\d{2}-\d{2}$"})


def percent(low: int, high: int) -> Kind[Fraction]:
    """A percentage as a share: `5` or `5 %` is 1/20."""
    plain = number(low, high, f"a percentage from {low} to {high}")

    def read(node: Node, what: str, reading: Reading) -> Fraction | None:
        if isinstance(node, Text):
            written = re.sub(r"\s*(%|percent)\s*$", "", node.value)
            node = Text(written, node.span, node.quoted)
        value = plain.read(node, what, reading)
        return None if value is None else Fraction(value).limit_denominator(10**6) / 100

    return Kind(plain.words, read, _ANY)


def group(table: str) -> Kind[Map]:
    """A group of keys; its own table is opened by the reader of that part."""
    words = "a group of keys, as in `{width: 3 in, fabric: ink}`"

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
            wrong_kind(node, what, words, reading)
            return None
        if len(node.items) > most:
            message = f"{what} has {len(node.items)} entries; at most {most} can be worked with"
            reading.faults.add("too-large", message, node.span, "shorten the list")
            return None
        return node.items

    return Kind(words, read, {"type": "array", "items": {"$ref": f"#/$defs/{table}"}})


def named(table: str, noun: str, may_be_empty: bool = False) -> Kind[Map]:
    """Groups by the name the designer gives each."""
    words = f"a name for each {noun}, with its keys after the colon"

    def read(node: Node, what: str, reading: Reading) -> Map | None:
        if isinstance(node, Map):
            return node
        wrong_kind(node, what, words, reading)
        return None

    entry: Schema = {"$ref": f"#/$defs/{table}"}
    allowed: Schema = {"anyOf": [entry, {"type": "null"}]} if may_be_empty else entry
    return Kind(words, read, {"type": "object", "additionalProperties": allowed})


def none_or(kind: Kind[T]) -> Kind[T | Literal["none"]]:
    """That kind, or the word `none`: what the pattern has, this size has not."""

    def read(node: Node, what: str, reading: Reading) -> T | Literal["none"] | None:
        if isinstance(node, Text) and node.value.strip() == "none":
            return "none"
        return kind.read(node, what, reading)

    return Kind(kind.words, read, {"anyOf": [{"const": "none"}, kind.schema]})


def raw(words: str, schema: Schema) -> Kind[Node]:
    """Any node, handed on as it is to a reader of its own."""
    return Kind(words, lambda node, what, reading: node, schema)
