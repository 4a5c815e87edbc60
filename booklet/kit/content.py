"""Floor 0: what a record says, told apart from where it is written in the source.

Two records have the same content if all their values are equal but for the spans, and the spans of one stand in the same
order as those of the other and are the same where those are the same. So a line added at the top of a file changes
no content below it. The digest is the same in every run.
"""

from __future__ import annotations

import marshal
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, fields, is_dataclass
from datetime import date
from enum import Enum
from fractions import Fraction
from functools import cache
from hashlib import blake2b
from operator import attrgetter, is_not
from types import FunctionType, MappingProxyType, MethodType
from typing import Any, TypeVar

from booklet.diagnostic import Span
from booklet.kit.recent import Recent

T = TypeVar("T")

_PLAIN = frozenset({str, int, float, bool, type(None), bytes})
_SHARED = frozenset({tuple, MappingProxyType})
MANY = 6  # parts: of a tuple so long the content is worth remembering
Spans = tuple[Span, ...]


@dataclass(frozen=True, slots=True)
class Content:
    """The digest of what a value says, and the spans in it, each once, as they were met."""

    digest: bytes
    spans: Spans


class Contents:
    """Reads contents. Long tuples and mappings, which records share when one is made of another, are read once and
    remembered for some rounds; what is remembered keeps them alive."""

    def __init__(self, rounds: int = 1) -> None:
        self._known: Recent[int, tuple[object, Content]] = Recent(rounds)  # by identity

    def next_round(self) -> None:
        """Forget what was not read for some rounds."""
        self._known.next_round()

    def of(self, value: object) -> Content:
        """The content of a value made of records, plain values, tuples and mappings; TypeError for others."""
        spans: dict[Span, int] = {}
        said: list[object] = []
        self._read(value, said, spans)
        places = [(s.file, s.line, s.column, s.end) for s in spans]
        said.append(sorted(range(len(places)), key=places.__getitem__))
        return Content(_digest(said), tuple(spans))

    def _read(self, value: Any, said: list[object], spans: dict[Span, int]) -> None:
        """Add what a value says. Lists are marks of kinds, which no plain value can be taken for."""
        kind: Any = type(value)
        if kind in _PLAIN:
            said.append(value)
        elif kind is Span:
            said.append([spans.setdefault(value, len(spans))])
        elif kind in _SHARED and len(value) >= MANY:
            whole = self._remembered(value, kind)
            said.append([whole.digest, *(spans.setdefault(s, len(spans)) for s in whole.spans)])
        else:
            self._read_parts(value, kind, said, spans)

    def _read_parts(
        self, value: Any, kind: Any, said: list[object], spans: dict[Span, int]
    ) -> None:
        name, parts_of = _parts(kind)
        parts = parts_of(value)
        said.append([name, len(parts)])
        for part in parts:
            there = type(part)
            if there in _PLAIN:
                said.append(part)
            elif there is tuple and len(part) == 2 and type(part[0]) is float is type(part[1]):
                said.append(part)  # a point: there are many
            else:
                self._read(part, said, spans)

    def _remembered(self, value: object, kind: Any) -> Content:
        """The content of a value that many others share."""
        known = self._known.get(id(value))
        if known is None:
            spans: dict[Span, int] = {}
            said: list[object] = []
            self._read_parts(value, kind, said, spans)
            known = (value, Content(_digest(said), tuple(spans)))
            self._known.keep(id(value), known)
        return known[1]


def _digest(said: list[object]) -> bytes:
    """The digest of plain values and lists of them."""
    text = marshal.dumps(said, 2)  # the version that does not tell one object from two equal ones
    return blake2b(text, digest_size=16).digest()


@cache
def _parts(kind: Any) -> tuple[str, Callable[[Any], Sequence[Any]]]:
    """The name of a kind, and what takes its values apart into all that they say."""
    return f"{kind.__module__}.{kind.__qualname__}", _taken_apart(kind)


def _taken_apart(kind: type) -> Callable[[Any], Sequence[Any]]:
    if kind in (tuple, list):
        return lambda value: value
    if is_dataclass(kind):
        return _attributes(tuple(field.name for field in fields(kind) if field.compare))
    if issubclass(kind, Enum):
        return lambda value: (value.name,)
    if issubclass(kind, str):
        own = _attributes(tuple(vars(kind).get("__slots__", ())))
        return lambda value: (str.__str__(value), *own(value))
    if issubclass(kind, (dict, MappingProxyType)):
        return lambda value: tuple(part for pair in value.items() for part in pair)
    if kind is Fraction:
        return lambda value: (value.numerator, value.denominator)
    if kind is date:
        return lambda value: (value.isoformat(),)
    if kind is frozenset:
        return lambda value: sorted(value)
    if kind in (FunctionType, MethodType):
        return lambda value: (value.__module__, value.__qualname__)
    raise TypeError(f"no content is read from a {kind.__name__}")


def _attributes(names: tuple[str, ...]) -> Callable[[Any], tuple[Any, ...]]:
    """What reads some attributes of a value."""
    if len(names) < 2:  # a getter of one gives no tuple
        return lambda value: tuple(getattr(value, name) for name in names)
    return attrgetter(*names)


def moved(value: T, spans: Mapping[Span, Span]) -> T:
    """The same value with other spans in place of its own; parts that hold none are the same objects."""
    found: T = _Mover(spans).moved(value)
    return found


class _Mover:
    """Puts spans in place of others. What is one object stays one."""

    def __init__(self, spans: Mapping[Span, Span]) -> None:
        self._spans = spans
        self._done: dict[
            int, Any
        ] = {}  # by identity: all of them are parts of one value, which stays

    def moved(self, value: Any) -> Any:
        """A part of the value, moved."""
        kind = type(value)
        if kind in _PLAIN:
            return value
        if kind is Span:
            return self._spans.get(value, value)
        made = self._done.get(id(value))
        if made is None:
            made = self._done[id(value)] = self._made(value, kind)
        return made

    def _made(self, value: Any, kind: type) -> Any:
        if kind in (tuple, list):
            parts = kind(part if type(part) in _PLAIN else self.moved(part) for part in value)
            return parts if any(map(is_not, parts, value)) else value
        if kind in (dict, MappingProxyType):
            there = {key: self.moved(part) for key, part in value.items()}
            same = all(part is value[key] for key, part in there.items())
            return value if same else (there if kind is dict else MappingProxyType(there))
        if is_dataclass(kind):
            return self._record(value, kind)
        return value

    def _record(self, value: Any, kind: type) -> Any:
        """A record, made anew as it stands, with what it worked out when it was made."""
        names, parts_of = _all_fields(kind)
        parts = parts_of(value)
        found = [part if type(part) in _PLAIN else self.moved(part) for part in parts]
        if not any(map(is_not, found, parts)):
            return value
        made: Any = object.__new__(kind)
        for name, part in zip(names, found, strict=True):
            object.__setattr__(made, name, part)
        return made


@cache
def _all_fields(kind: Any) -> tuple[tuple[str, ...], Callable[[Any], tuple[Any, ...]]]:
    names = tuple(field.name for field in fields(kind))
    return names, _attributes(names)
