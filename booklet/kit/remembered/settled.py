"""Floor 0: what is as it was before is the object it was before.

Whoever remembers what values say knows an object it has met without reading it again (`content.py`): of a pattern that was
edited only what the edit changed is read.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from itertools import takewhile
from operator import eq, is_not
from types import MappingProxyType
from typing import Any, TypeVar

from booklet.kit.records import is_record, made_of, parts_of

T = TypeVar("T")
_PLAIN = frozenset({str, int, float, bool, type(None), bytes})
_is_record: Callable[[Any], bool] = cache(is_record)


def settled(new: T, old: object) -> T:
    """The new value, made of the parts of an old one wherever these are equal; the old one itself where all are."""
    found: T = _settled(new, old)
    return found


def _settled(new: Any, old: Any) -> Any:
    kind: Any = type(new)
    if new is old or kind is not type(old):
        return new
    if new == old:
        return old
    if kind is tuple:  # points and rows of names are not worth it
        return new if not new or type(new[0]) in _PLAIN else _row(new, old)
    if kind is MappingProxyType:
        parts = [_settled(part, old.get(key)) for key, part in new.items()]
        return MappingProxyType(dict(zip(new, parts, strict=True)))
    return _record(new, old) if _is_record(kind) else new


def _record(new: Any, old: Any) -> Any:
    """A record with its parts settled."""
    now = parts_of(new)
    parts = tuple(map(_settled, now, parts_of(old)))
    return made_of(type(new), parts) if any(map(is_not, parts, now)) else new


def _row(new: tuple[Any, ...], old: tuple[Any, ...]) -> tuple[Any, ...]:
    """A row with its parts settled: those before what was changed, those behind it, and what was changed one by
    one."""
    first = sum(takewhile(bool, map(eq, new, old)))
    last = sum(takewhile(bool, map(eq, new[first:][::-1], old[first:][::-1])))
    changed, before = new[first : len(new) - last], old[first : len(old) - last]
    middle = (*map(_settled, changed, before), *changed[len(before) :])
    return (*old[:first], *middle, *old[len(old) - last :])
