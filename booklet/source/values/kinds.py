"""Floor 2: the kinds of values a key can take: how each is read, and its form in the schema.

A kind reads one node to a value, or notes a fault and gives None; it never raises. `what` is how the
message calls the value: "`width` of fabric `ink`".
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Mapping
from datetime import date
from enum import Enum
from typing import Generic, Literal, TypeVar

from booklet.kit.bounds import LONGEST_WORDS
from booklet.kit.diagnostic import Diagnostic, Span, did_you_mean, warning
from booklet.kit.measure import (
    Length,
    UnitSystem,
)
from booklet.kit.records import Record, field
from booklet.kit.words import LANGUAGES, Wordings
from booklet.source.faults import Faults
from booklet.source.tree.node import Map, Node, Text, described, shortened
from booklet.source.values.colour_names import NAMED

T = TypeVar("T")
E = TypeVar("E", bound=Enum)
Schema = Mapping[str, object]
Inches = tuple[float, float]
"""A width and a height."""

_HEX = re.compile(r"#(?:[0-9a-fA-F]{3}|[0-9a-fA-F]{6})")
_CLOCK = re.compile(r"([01]?[0-9]|2[0-3]):([0-5][0-9])")
ANY: Schema = {"type": ["string", "number"]}
ANY_TEXT: Schema = {"type": ["string", "number", "boolean"]}


class Given(Record):
    """Words that were written for some languages only: what they are, and what is said `instead` in another, if it is
    not the words for the pattern's own."""

    what: str
    wordings: Wordings
    instead: str = ""


class Reading(Record, kw_only=True):
    """What a reader needs to know: where faults go, the units, and which names exist.

    `bare` is the unit of a number without one; `unit` the length of 1 u where lengths must be
    known. A fabric that does not exist is kept in `stand_ins`, so that reading can go on; the
    `pictures` named are gathered, to be loaded at the end, those `shown` as they are with their largest size, and so are words `worded` for some
    languages, to see which are missing. `language` is the pattern's own. `doubts` are warnings about values that can be read.
    """

    faults: Faults
    units: UnitSystem = "inch"
    bare: Literal["u", "in", "cm"] = "in"
    unit: Length | None = None
    names: Mapping[str, Collection[str]] = field(default_factory=dict)
    stand_ins: set[str] = field(default_factory=set)
    pictures: dict[str, Span] = field(default_factory=dict)  # those named, and where
    shown: dict[str, tuple[Span, Inches]] = field(default_factory=dict)
    fonts: dict[str, Span] = field(default_factory=dict)  # those named, and where
    language: str = "en"
    worded: dict[Span, Given] = field(default_factory=dict)
    doubts: dict[Diagnostic, None] = field(default_factory=dict)

    def doubt(self, code: str, message: str, span: Span, hint: str) -> None:
        """Note a warning, once for all sizes."""
        self.doubts[warning(code, message, span, hint)] = None

    def show(self, picture: str, span: Span, box: Inches) -> None:
        """Have a picture loaded that is shown as it is, at most as large as a box."""
        before = self.shown.get(picture, (span, box))
        most = max(before[1][0], box[0]), max(before[1][1], box[1])
        self.shown[picture] = before[0], most


class Kind(Record, Generic[T]):
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
        hint = hint or _one_for_all(node) or f"write {words}"
    reading.faults.add("wrong-kind", message, node.span, hint)


def _one_for_all(node: Node) -> str | None:
    """A hint where a value was written for each language that is the same in all."""
    if not isinstance(node, Map) or not node.entries:
        return None
    if not all(key.value in LANGUAGES for key, _ in node.entries):
        return None
    return "only words differ by language: write one value for all"


def written(node: Node, what: str, words: str, reading: Reading) -> str | None:
    """The text of a node, or None with a fault if it is a list, a group or empty."""
    if isinstance(node, Text) and not node.is_empty:
        return node.value.strip()
    wrong_kind(node, what, words, reading)
    return None


def from_text(
    words: str, schema: Schema, of: Callable[[str, Node, str, Reading], T | None]
) -> Kind[T]:
    """A value written as a text that is not empty; `of` says what that text is, or notes why it is none."""

    def read(node: Node, what: str, reading: Reading) -> T | None:
        value = written(node, what, words, reading)
        return None if value is None else of(value, node, what, reading)

    return Kind(words, read, schema)


def text(words: str = "a text", longest: int = LONGEST_WORDS) -> Kind[str]:
    """Any text, kept as written; numbers and `yes` are texts here."""

    def of(value: str, node: Node, what: str, reading: Reading) -> str | None:
        if len(value) <= longest:
            return value
        message = f"{what} has {len(value)} characters; at most {longest} fit"
        reading.faults.add("too-large", message, node.span, "shorten it")
        return None

    return from_text(words, ANY_TEXT, of)


def name_of(noun: str) -> Kind[str]:
    """The name of a fabric, patch, block or size of this pattern."""

    def of(name: str, node: Node, what: str, reading: Reading) -> str | None:
        if name in reading.names.get(noun, ()):
            return name
        reading.faults.unknown_name(noun, shortened(name), reading.names.get(noun, ()), node.span)
        if noun != "fabric":
            return None
        reading.stand_ins.add(name)
        return name

    return from_text(f"the name of a {noun}", ANY_TEXT, of)


def yes_no() -> Kind[bool]:
    """`yes` or `no`, `true` or `false`."""
    words = "`yes` or `no`"
    values = {"yes": True, "true": True, "no": False, "false": False}

    def of(value: str, node: Node, what: str, reading: Reading) -> bool | None:
        if value.lower() not in values:
            wrong_kind(node, what, words, reading)
        return values.get(value.lower())

    return from_text(words, {"enum": ["yes", "no", True, False]}, of)


def one_of(choices: type[E] | Mapping[str, E]) -> Kind[E]:
    """One of a few words, the values of an Enum."""
    by_word: Mapping[str, E] = (
        choices
        if isinstance(choices, Mapping)
        else {str(member.value): member for member in choices}
    )
    words = ", ".join(f"`{word}`" for word in by_word)
    words = f"one of {words}" if len(by_word) > 1 else words

    def of(value: str, node: Node, what: str, reading: Reading) -> E | None:
        found = by_word.get(" ".join(value.split()))
        if found is None:
            wrong_kind(node, what, words, reading, did_you_mean(value[:80], by_word))
        return found

    return from_text(words, {"enum": list(by_word)}, of)


def word(choices: Collection[str], words: str = "") -> Kind[str]:
    """One of a few words, as text."""
    words = words or "one of " + ", ".join(f"`{choice}`" for choice in choices)

    def of(value: str, node: Node, what: str, reading: Reading) -> str | None:
        plain = " ".join(value.split())
        if plain in choices:
            return plain
        wrong_kind(node, what, words, reading, did_you_mean(plain[:80], choices))
        return None

    return from_text(words, {"enum": list(choices)}, of)


def colour() -> Kind[str]:
    """A colour as "#rrggbb"."""
    words = 'a colour such as `"#243b6b"` (in quotes) or `navy`'

    def of(value: str, node: Node, what: str, reading: Reading) -> str | None:
        if _HEX.fullmatch(value):
            digits = value[1:].lower()
            return "#" + (digits if len(digits) == 6 else "".join(2 * d for d in digits))
        if value.lower() in NAMED:
            return NAMED[value.lower()]
        wrong_kind(node, what, words, reading, did_you_mean(value[:80].lower(), NAMED))
        return None

    return from_text(words, {"type": "string"}, of)


def day() -> Kind[date]:
    """A date, year first."""
    words = "a date such as `2026-11-25`"

    def of(value: str, node: Node, what: str, reading: Reading) -> date | None:
        try:
            if re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", value):
                return date.fromisoformat(value)
        except ValueError:
            pass
        wrong_kind(node, what, words, reading, "write year, month and day with hyphens between")
        return None

    return from_text(words, {"type": "string", "pattern": r"^\d{4}-\d{2}-\d{2}$"}, of)


def clock() -> Kind[int]:
    """A time of day such as `9:30` or `14:00`, as minutes after midnight."""

    def of(value: str, node: Node, what: str, reading: Reading) -> int | None:
        found = _CLOCK.fullmatch(value)
        if found is None:
            message = f"{what} is {described(node)}, which is not a time of day"
            hint = "write hours, from 0 to 23, a colon, and two digits of minutes: `9:30`, `14:00`"
            reading.faults.add("wrong-kind", message, node.span, hint)
        return 60 * int(found[1]) + int(found[2]) if found else None

    words = "a time of day such as `9:30` or `14:00`"
    return from_text(words, {"type": "string", "pattern": _CLOCK.pattern}, of)


def raw(words: str, schema: Schema) -> Kind[Node]:
    """Any node, handed on as it is to a reader of its own."""
    return Kind(words, lambda node, what, reading: node, schema)
