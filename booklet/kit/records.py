"""Floor 0: records: values with named fields, and how they grow from stage to stage."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import Field, dataclass, field, fields
from functools import cache
from operator import attrgetter
from typing import Any, TypeVar, cast, dataclass_transform, overload

T = TypeVar("T")


@overload
@dataclass_transform(frozen_default=True, field_specifiers=(field, Field))
def frozen(kind: type[T], /) -> type[T]: ...


@overload
@dataclass_transform(frozen_default=True, field_specifiers=(field, Field))
def frozen(
    *, kw_only: bool = False, order: bool = False, eq: bool = True, repr: bool = True
) -> Callable[[type[T]], type[T]]: ...


def frozen(kind: type[T] | None = None, /, **how: bool) -> type[T] | Callable[[type[T]], type[T]]:
    """A class as a kind of frozen records with slots; `how` is as for `dataclass`."""
    made: Callable[[type[T]], type[T]] = dataclass(frozen=True, slots=True, **how)
    return made if kind is None else made(kind)


@overload
@dataclass_transform(field_specifiers=(field, Field))
def slotted(kind: type[T], /) -> type[T]: ...


@overload
@dataclass_transform(field_specifiers=(field, Field))
def slotted(*, kw_only: bool = False) -> Callable[[type[T]], type[T]]: ...


def slotted(kind: type[T] | None = None, /, **how: bool) -> type[T] | Callable[[type[T]], type[T]]:
    """A class as a kind of records with slots that may be set anew; `how` is as for `dataclass`."""
    made: Callable[[type[T]], type[T]] = dataclass(slots=True, **how)
    return made if kind is None else made(kind)


def grown(kind: type[T], record: Any, **more: object) -> T:
    """A record of a kind that has the fields of `record`, and `more`."""
    kept = {field.name: getattr(record, field.name) for field in fields(record) if field.init}
    return kind(**{**kept, **more})


def parts_of(record: Any) -> tuple[Any, ...]:
    """The values of all fields of a record."""
    kind: Any = type(record)
    return _fields(kind)[1](record)


def made_of(kind: type[T], parts: Sequence[Any]) -> T:
    """A record made of the values of all its fields, also of those that it works out itself."""
    made, known = object.__new__(kind), cast("Any", kind)
    for name, part in zip(_fields(known)[0], parts, strict=True):
        object.__setattr__(made, name, part)
    return made


@cache
def _fields(kind: Any) -> tuple[tuple[str, ...], Callable[[Any], tuple[Any, ...]]]:
    names = tuple(field.name for field in fields(kind))
    return names, attributes(names)


def attributes(names: tuple[str, ...]) -> Callable[[Any], tuple[Any, ...]]:
    """What reads some attributes of a value."""
    if len(names) < 2:  # a getter of one gives no tuple
        return lambda value: tuple(getattr(value, name) for name in names)
    return attrgetter(*names)
