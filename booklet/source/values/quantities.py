"""Floor 2: the kinds of values that are numbers: lengths, extents, points, counts, percentages, minutes and what is sewn in one."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Literal, TypeVar

from booklet.kit.bounds import MOST_LENGTH, MOST_LENGTH_TOLD
from booklet.kit.measure import (
    Extent,
    Length,
    MeasureError,
    Number,
    read_extent,
    read_number,
    snapped,
)
from booklet.pattern import ExtentPoint
from booklet.source.tree.node import List, Node, Text, described
from booklet.source.values.kinds import ANY, Kind, Reading, Schema, from_text, written, wrong_kind

T = TypeVar("T")
Least = Literal["any", "zero", "positive"]
_BY = re.compile(r"(.*?[^x×\s])\s*[x×]\s*([^x×\s].*)")


def _extent(node: Node, what: str, words: str, reading: Reading) -> Extent | None:
    """The extent a node means, or None with a fault."""
    value = written(node, what, words, reading)
    if value is None:
        return None
    try:
        return read_extent(value, reading.bare)
    except MeasureError as fault:
        hint = fault.hint or "write it like `2 1/2 in`, `6.4 cm` or `1.5 u`"
        reading.faults.add("bad-length", f"{what}: {fault}", node.span, hint)
        return None


def _low(value: Number, least: Least) -> bool:
    return least != "any" and (value < 0 or (value == 0 and least == "positive"))


def _too_small(
    node: Node, what: str, least: Least, reading: Reading, or_none: bool = False
) -> None:
    more = "more than zero" if least == "positive" else "zero or more"
    message = f"{what} is {described(node)}, but it must be {more}"
    hint = "measure it once more and write what you find"
    reading.faults.add(
        "bad-length",
        message,
        node.span,
        f"write `none` where there is none, or {hint}" if or_none else hint,
    )


def extent(least: Least = "positive") -> Kind[Extent]:
    """A number of design units, or a length."""
    words = "a length such as `1 1/2` or `1 1/2 in`"

    def read(node: Node, what: str, reading: Reading) -> Extent | None:
        value = _extent(node, what, words, reading)
        if value is not None and _low(value.value, least):
            _too_small(node, what, least, reading)
            return None
        return value

    return Kind(words, read, ANY)


def length(least: Least = "positive", or_none: bool = False) -> Kind[Length]:
    """A length; one in design units is resolved where a size is being read. Where the key also takes `none` (`or_none`),
    the hint for one of zero says so."""
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
            _too_small(node, what, least, reading, or_none)
            return None
        if abs(exact) > MOST_LENGTH:
            message = f"{what} is {described(node)}; no length is more than {MOST_LENGTH_TOLD}"
            reading.faults.add("too-large", message, node.span, "look at the unit of measure")
            return None
        return Length(exact)

    return Kind(words, read, ANY)


def number(low: float, high: float, words: str) -> Kind[Number]:
    """A plain number or arithmetic, from `low` to `high`."""

    def of(value: str, node: Node, what: str, reading: Reading) -> Number | None:
        try:
            found = read_number(value.removesuffix("°").rstrip())
        except MeasureError as fault:
            reading.faults.add(
                "bad-number", f"{what}: {fault}", node.span, fault.hint or f"write {words}"
            )
            return None
        if not low <= float(found) <= high:
            message = f"{what} is {described(node)}, but it must lie between {low:g} and {high:g}"
            reading.faults.add("bad-number", message, node.span, f"write {words}")
            return None
        return found

    return from_text(words, ANY, of)


def count(low: int, high: int, words: str) -> Kind[int]:
    """A whole number from `low` to `high`; more than `high` is too large."""

    def of(value: str, node: Node, what: str, reading: Reading) -> int | None:
        if not re.fullmatch(r"[+-]?[0-9]{1,12}", value):
            reading.faults.add(
                "bad-number", f"{what} is {described(node)}, but it needs {words}", node.span,
                f"write a whole number from {low} on",
            )  # fmt: skip
            return None
        return int(value) if within(int(value), low, high, what, node, reading) else None

    return from_text(words, {"type": ["integer", "string"]}, of)


def within(value: int, low: int, high: int, what: str, node: Node, reading: Reading) -> bool:
    """Whether a count lies between its limits; notes a fault if not."""
    if value < low:
        message = f"{what} is `{value}`, but it must be {low} or more"
        reading.faults.add("bad-number", message, node.span, f"write a whole number from {low} on")
    elif value > high:
        message = f"{what} is `{value}`; at most {high} can be worked with"
        reading.faults.add("too-large", message, node.span, "write a smaller number")
    return low <= value <= high


def percent(low: int, high: int) -> Kind[Fraction]:
    """A percentage as a share: `5` or `5 %` is 1/20."""
    plain = number(low, high, f"a percentage from {low} to {high}")

    def read(node: Node, what: str, reading: Reading) -> Fraction | None:
        if isinstance(node, Text):
            plain_text = re.sub(r"\s*(%|percent)\s*$", "", node.value)
            node = Text(plain_text, node.span, node.quoted)
        value = plain.read(node, what, reading)
        return None if value is None else Fraction(value).limit_denominator(10**6) / 100

    return Kind(plain.words, read, ANY)


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


def two_by(item: Kind[T], words: str) -> Kind[tuple[T, T]]:
    """Two values with an x between: `6 x 6`, `6x6`, `6 × 6`."""

    def of(value: str, node: Node, what: str, reading: Reading) -> tuple[T, T] | None:
        match = _BY.fullmatch(value)
        if match is None:
            wrong_kind(node, what, words, reading)
            return None
        a, b = (item.read(Text(part, node.span), what, reading) for part in match.groups())
        return (a, b) if a is not None and b is not None else None

    return from_text(words, {"type": "string"}, of)


def is_two_by(node: Node) -> bool:
    """Whether a value has the form `A x B`."""
    return isinstance(node, Text) and _BY.fullmatch(node.value.strip()) is not None


_A_MINUTE = re.compile(r"\s*(\ba|\bper|/)\s*(minute|min)$")
_MINUTES = re.compile(r"\s*(minutes?|min)$")


def speed() -> Kind[Length]:
    """A length sewn in a minute: `10 in a minute`; a bare number is in the units of the pattern."""
    plain = length()

    def read(node: Node, what: str, reading: Reading) -> Length | None:
        return plain.read(_without(_A_MINUTE, node), what, reading)

    return Kind("a length such as `10 in a minute`", read, ANY)


def minutes(low: float, high: float) -> Kind[float]:
    """A number of minutes: `90` or `90 minutes`."""
    plain = number(low, high, f"minutes, from {low:g} to {high:g}")

    def read(node: Node, what: str, reading: Reading) -> float | None:
        value = plain.read(_without(_MINUTES, node), what, reading)
        return None if value is None else float(value)

    return Kind(plain.words, read, ANY)


def _without(ending: re.Pattern[str], node: Node) -> Node:
    """The text without the words at its end."""
    if not isinstance(node, Text):
        return node
    return Text(ending.sub("", node.value), node.span, node.quoted)
