"""Floor 0: what a record says, told apart from what it only hands through.

Spans are handed through to faults. Two records have the same content if all their values are equal but for these, and
the spans of one stand in the same order as those of the other and are the same where those are. So a line added at the
top of a file changes no content below it. Words of the author's that are marked as such (`OwnWords`) are handed through
wherever a reader says so. The digest is the same in every run.
"""

from __future__ import annotations

import marshal
from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date
from enum import Enum
from fractions import Fraction
from functools import cache
from hashlib import blake2b
from operator import is_not
from types import FunctionType, MappingProxyType, MethodType
from typing import Any, TypeVar

from booklet.kit.diagnostic import Span
from booklet.kit.records import (
    ByWord,
    Record,
    attributes,
    field_names,
    is_record,
    made_of,
    parts_of,
)
from booklet.kit.remembered.recent import Recent

T = TypeVar("T")

_PLAIN = frozenset({str, int, float, bool, type(None), bytes})
_SHARED = frozenset({tuple, MappingProxyType})
MANY, LARGE = (
    6,
    10,
)  # parts: of a tuple so long, of a record so large the content is worth remembering


Through = tuple["Span | OwnWords", ...]


class OwnWords(str):
    """Words of the author's that only the plan and the pages read."""

    __slots__ = ()


class Content(Record):
    """The digest of what a value says, and what it hands through, each thing once, as it was met."""

    digest: bytes
    through: Through


class Narrow:
    """The fields by which records of some kinds are told apart; all others of these kinds say nothing."""

    def __init__(self, kinds: Iterable[type], fields: Iterable[tuple[type, str]]) -> None:
        names: dict[Any, list[str]] = {kind: [] for kind in kinds}
        for kind, name in sorted(fields, key=lambda field: field[1]):
            names[kind].append(name)
        self.kinds = frozenset(names)
        self.parts = {kind: (_name(kind), attributes(tuple(own))) for kind, own in names.items()}


_WHOLE = Narrow((), ())


class Contents:
    """Reads contents. Long tuples and mappings and large records, which records share when one is made of another, are
    read once and remembered for some rounds; what is remembered keeps them alive."""

    def __init__(self, rounds: int = 1) -> None:
        self._known: _Known = Recent(rounds)

    def __len__(self) -> int:
        return len(self._known)

    def next_round(self) -> None:
        """Forget what was not read for some rounds."""
        self._known.next_round()

    def of(self, value: object, words: bool = True, narrow: Narrow = _WHOLE) -> Content:
        """The content of a value made of records, plain values, tuples and mappings; TypeError for others.
        Without `words` those of the author's are handed through; of `narrow` records some fields are left out."""
        reading = _Reading(self._known, words, narrow)
        reading.read(value)
        return reading.content(with_order=True)


_Key = tuple[
    int, bool, Narrow | frozenset[type]
]  # by identity; as it is said where it is not said whole
_Known = Recent[
    _Key, tuple[object, Content, bool]
]  # what keeps it alive, and whether something was left out


class _Reading:
    """One value, being read."""

    def __init__(self, known: _Known, words: bool, narrow: Narrow) -> None:
        self._known, self._words, self._narrow = known, words, narrow
        self.narrowed = False  # whether records were met of which fields may be left out
        self._said: list[
            object
        ] = []  # lists are marks of kinds, which no plain value can be taken for
        self._through: dict[Span | OwnWords, int] = {}

    def content(self, with_order: bool = False) -> Content:
        """The content of what was read; with the order of its spans, unless it is part of another."""
        if with_order:
            places = sorted(
                (s.file, s.line, s.column, s.end, k)
                for s, k in self._through.items()
                if isinstance(s, Span)
            )
            self._said.append([place[-1] for place in places])
        text = marshal.dumps(
            self._said, 2
        )  # the version that does not tell one object from its equal
        return Content(blake2b(text, digest_size=16).digest(), tuple(self._through))

    def read(self, value: Any) -> None:
        """Take in what a value says."""
        kind: Any = type(value)
        if kind in _PLAIN:
            self._said.append(value)
        elif kind is Span or (kind is OwnWords and not self._words):
            self._said.append([self._through.setdefault(value, len(self._through))])
        elif (
            len(value) >= MANY if kind in _SHARED else _is_large(kind)
        ) or kind in self._narrow.parts:
            whole = self._remembered(value, kind)
            numbers = (self._through.setdefault(t, len(self._through)) for t in whole.through)
            self._said.append([whole.digest, *numbers])
        else:
            self._read_parts(value, kind)

    def _read_parts(self, value: Any, kind: Any) -> None:
        name, taken_apart = self._narrow.parts.get(kind) or _parts(kind)
        self.narrowed = self.narrowed or kind in self._narrow.parts
        parts, said = taken_apart(value), self._said
        said.append([name, len(parts)])
        for part in parts:
            there = type(part)
            if there in _PLAIN:
                said.append(part)
            elif there is tuple and len(part) == 2 and type(part[0]) is float is type(part[1]):
                said.append(part)  # a point: there are many
            else:
                self.read(part)

    def _remembered(self, value: object, kind: Any) -> Content:
        """The content of a value that many others share."""
        own: _Key = (id(value), self._words, self._narrow)
        known = self._known.get((*own[:2], self._narrow.kinds)) or self._known.get(own)
        if known is None:
            reading = _Reading(self._known, self._words, self._narrow)
            reading._read_parts(value, kind)
            known = (value, reading.content(), reading.narrowed)
            self._known.keep(own if reading.narrowed else (*own[:2], self._narrow.kinds), known)
        self.narrowed = self.narrowed or known[2]
        return known[1]


@cache
def _is_large(kind: Any) -> bool:
    """Whether a kind is one of large records."""
    return is_record(kind) and len(field_names(kind)) >= LARGE


@cache
def _parts(kind: Any) -> tuple[str, Callable[[Any], Sequence[Any]]]:
    """The name of a kind, and what takes its values apart into all that they say."""
    return _name(kind), _taken_apart(kind)


def _name(kind: Any) -> str:
    return f"{kind.__module__}.{kind.__qualname__}"


def _taken_apart(kind: type) -> Callable[[Any], Sequence[Any]]:
    if kind in (tuple, list):
        return lambda value: value
    if issubclass(kind, ByWord):
        return lambda value: (value.word,)
    if is_record(kind):
        return attributes(field_names(kind))
    if issubclass(kind, Enum):
        return lambda value: (value.name,)
    if issubclass(kind, str):
        own = attributes(tuple(vars(kind).get("__slots__", ())))
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


def handed(value: T, through: Mapping[Span | OwnWords, Span | OwnWords]) -> T:
    """The same value with other things handed through in place of its own; parts that hold none are the same
    objects."""
    found: T = _Hand(through).handed(value)
    return found


class _Hand:
    """Puts some values in place of others. What is one object stays one."""

    def __init__(self, through: Mapping[Span | OwnWords, Span | OwnWords]) -> None:
        self._through = through
        self._done: dict[int, Any] = {}  # by identity: all are parts of one value, which stays

    def handed(self, value: Any) -> Any:
        """A part of the value, with the others in their place."""
        kind: Any = type(value)
        if kind is Span or kind is OwnWords:
            return self._through.get(value, value)
        if _is_whole(kind):
            return value
        made = self._done.get(id(value))
        if made is None:
            made = self._done[id(value)] = self._made(value, kind)
        return made

    def _made(self, value: Any, kind: Any) -> Any:
        if kind is tuple:
            if len(value) == 2 and type(value[0]) is float is type(value[1]):
                return value  # a point: there are many
            parts = tuple(part if type(part) in _PLAIN else self.handed(part) for part in value)
            return parts if any(map(is_not, parts, value)) else value
        if kind in (dict, MappingProxyType):
            there = {key: self.handed(part) for key, part in value.items()}
            same = not any(map(is_not, there.values(), value.values()))
            return value if same else (there if kind is dict else MappingProxyType(there))
        return self._record(value, kind)

    def _record(self, value: Any, kind: Any) -> Any:
        """A record, made anew as it stands, with what it worked out when it was made."""
        parts = parts_of(value)
        found = [part if type(part) in _PLAIN else self.handed(part) for part in parts]
        return made_of(kind, found) if any(map(is_not, found, parts)) else value


@cache
def _is_whole(kind: Any) -> bool:
    """Whether values of a kind have no parts that anything is handed to."""
    return not (is_record(kind) or kind in (tuple, dict, MappingProxyType))
