"""Floor 0: records: values with named fields, and how they grow from stage to stage. The door to msgspec's structs.

A struct is made and compared in C, and its class costs a fortieth of what compiling a dataclass does: with hundreds of
kinds of records that is a third of a short command.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache
from operator import attrgetter
from typing import Any, TypeVar, dataclass_transform

from msgspec import Struct, StructMeta, field as field
from msgspec.structs import replace as replace

T = TypeVar("T")


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
class _Frozen(StructMeta):
    """Tells a reader of types what `Record` says of all kinds that follow from it."""


class Record(Struct, metaclass=_Frozen, frozen=True):
    """A value that stays as it was made, equal to another of its kind whose fields are equal."""


class ByWord(Record, eq=False, kw_only=True):
    """Something of which there is one for each word: equal by its word alone, whatever else it holds."""

    word: str

    def __eq__(self, other: object) -> bool:
        """Whether both have the same word."""
        return type(other) is type(self) and other.word == self.word

    def __hash__(self) -> int:
        """The hash of its word."""
        return hash(self.word)


class Mutable(Struct):
    """A value whose fields may be set anew: something that is being worked out."""


def is_record(kind: type) -> bool:
    """Whether a kind is one of records."""
    return issubclass(kind, Struct)


def field_names(kind: type) -> tuple[str, ...]:
    """The names of the fields of a kind of records, in their order."""
    names: tuple[str, ...] = kind.__struct_fields__  # type: ignore[attr-defined]
    return names


def grown(kind: type[T], record: Any, **more: object) -> T:
    """A record of a kind that has the fields of `record`, and `more`."""
    return kind(**{name: getattr(record, name) for name in field_names(type(record))} | more)


def parts_of(record: Any) -> tuple[Any, ...]:
    """The values of all fields of a record."""
    kind: Any = type(record)
    return _taken_apart(kind)(record)


def made_of(kind: type[T], parts: Sequence[Any]) -> T:
    """A record made of the values of all its fields."""
    return kind(**dict(zip(field_names(kind), parts, strict=True)))


@cache
def _taken_apart(kind: Any) -> Callable[[Any], tuple[Any, ...]]:
    return attributes(field_names(kind))


def attributes(names: tuple[str, ...]) -> Callable[[Any], tuple[Any, ...]]:
    """What reads some attributes of a value."""
    if len(names) < 2:  # a getter of one gives no tuple
        return lambda value: tuple(getattr(value, name) for name in names)
    return attrgetter(*names)
