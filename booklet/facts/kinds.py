"""Floor 9, facts: kinds of values. Each says what a value is printed as and what its schema is, so that the two cannot
come to differ.

A record is a table of keys; each has its kind and says where its value comes from. The names of keys are an interface for
other programs: keys may be added, never renamed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from enum import Enum
from typing import Any, Generic, TypeVar

from booklet.kit.measure import Length
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record

Json = Any
Schema = dict[str, Any]
T = TypeVar("T")
V = TypeVar("V")
E = TypeVar("E", bound=Enum)


class FactKind(Record, Generic[V]):
    """A kind of values: its schema, and a value as JSON has it."""

    schema: Schema
    printed: Callable[[V], Json]


class FactKey(Record, Generic[T]):
    """One key of a record: its name, its schema, its value printed. One that `may_lack` is left out where it is
    None."""

    name: str
    schema: Schema
    of: Callable[[T], Json]
    may_lack: bool = False


def key(name: str, kind: FactKind[V], of: Callable[[T], V]) -> FactKey[T]:
    """A key that is always there."""
    return FactKey(name, kind.schema, lambda value: kind.printed(of(value)))


def maybe(name: str, kind: FactKind[V], of: Callable[[T], V | None]) -> FactKey[T]:
    """A key that is left out where it has no value."""

    def printed(value: T) -> Json:
        found = of(value)
        return None if found is None else kind.printed(found)

    return FactKey(name, kind.schema, printed, may_lack=True)


def record(*keys: FactKey[T]) -> FactKind[T]:
    """A group of keys, in their order."""
    sure = [one for one in keys if not one.may_lack]
    both = [*sure, *(one for one in keys if one.may_lack)]
    schema = {
        "type": "object",
        "properties": {one.name: one.schema for one in both},
        "required": sorted(one.name for one in sure),
    }

    def printed(value: T) -> Json:
        every = ((one, one.of(value)) for one in keys)
        return {one.name: found for one, found in every if found is not None or not one.may_lack}

    return FactKind(schema, printed)


def several(kind: FactKind[V]) -> FactKind[Iterable[V]]:
    """A list of one kind."""
    schema = {"type": "array", "items": kind.schema}
    return FactKind(schema, lambda values: [kind.printed(value) for value in values])


def pair(kind: FactKind[V]) -> FactKind[Iterable[V]]:
    """Two of one kind."""
    schema = {"type": "array", "items": kind.schema, "minItems": 2, "maxItems": 2}
    return FactKind(schema, lambda values: [kind.printed(value) for value in values])


def by_name(kind: FactKind[V]) -> FactKind[Mapping[str, V]]:
    """Values of one kind by names that the pattern gives."""
    schema = {"type": "object", "additionalProperties": kind.schema}
    return FactKind(schema, lambda values: {name: kind.printed(v) for name, v in values.items()})


def word_of(words: type[E]) -> FactKind[E]:
    """One of the words of an enum."""
    return FactKind({"enum": [member.value for member in words]}, lambda member: member.value)


def number(value: float) -> float:
    """A number to a millionth, without a minus before zero."""
    return round(float(value), 6) + 0.0


def _same(value: Any) -> Json:
    return value


NUMBER: FactKind[float] = FactKind({"type": "number"}, number)
TENTHS: FactKind[float] = FactKind({"type": "number"}, lambda value: round(value, 1))
LENGTH: FactKind[Length] = FactKind(
    {"type": "number"}, lambda length: number(float(length))
)  # inches
COUNT: FactKind[int] = FactKind({"type": "integer", "minimum": 0}, _same)
DEGREES: FactKind[int] = FactKind({"type": "number"}, _same)
INDEX: FactKind[int] = FactKind({"type": "integer"}, _same)
TEXT: FactKind[str] = FactKind({"type": "string"}, _same)
FLAG: FactKind[bool] = FactKind({"type": "boolean"}, _same)
POINT: FactKind[Point] = FactKind(pair(NUMBER).schema, lambda point: [number(x) for x in point])
POINTS = several(POINT)
