"""Floor 2, reading by parts: of a text that is read again and again only the entries that were changed are parsed.

An entry is a line `key:` or `key: value` with all lines below it that stand farther in. What is a sound entry by itself is
the same entry in the whole, for it has closed every bracket and quotation mark that it opened. A text that cannot be
taken apart so, or has a fault, is read whole: the fault is told as it is there.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable
from functools import lru_cache

from booklet.kit.diagnostic import Span
from booklet.source.tree.node import List, Map, Node, Text

Parse = Callable[[str, str, int], Map | None]
"""The map that a text is if it has no fault at all; its file, and how deep in others it stands."""

_KEY = re.compile(r"[A-Za-z0-9_][\w ./()+-]*:(?= |$)")
_NOTHING = re.compile(r" *(?:#.*)?$")
_OTHER_BREAKS = re.compile("[\t\r\x0b\x0c\x1c-\x1e\x85\u2028\u2029\ufeff]")


def read_by_parts(text: str, file: str, parse: Parse) -> Map | None:
    """The tree of a text put together from those of its entries; None where it must be read whole."""
    if _OTHER_BREAKS.search(text) or not text.endswith("\n"):
        return None
    lines = text.split("\n")
    entries = _entries(lines, 0, len(lines), 0, (file, 0, parse))
    return None if entries is None else _map(entries, lines, file)


_About = tuple[str, int, Parse]
_Entry = tuple[Text, Node]


def _entries(
    lines: list[str], first: int, end: int, indent: int, about: _About
) -> tuple[_Entry, ...] | None:
    """The entries at an indent between two lines, each key once; None where there is anything else."""
    starts = []
    for n in range(first, end):
        line = lines[n]
        if _NOTHING.match(line):
            continue
        own = len(line) - len(line.lstrip(" "))
        if own < indent or (own == indent and not _KEY.match(line, own)):
            return None
        if own == indent:
            starts.append(n)
        elif not starts:
            return None
    found: list[_Entry] = []
    for n, after in itertools.pairwise((*starts, end)):
        entry = _entry(lines, n, after, indent, about)
        if entry is None:
            return None
        found.append(entry)
    is_sound = found and len({key.value for key, _ in found}) == len(found)
    return tuple(found) if is_sound else None


def _entry(lines: list[str], n: int, end: int, indent: int, about: _About) -> _Entry | None:
    """The entry that begins with a line: of entries of its own, or parsed."""
    file, depth, parse = about
    key = _KEY.match(lines[n], indent)
    assert key is not None
    inner = next((k for k in range(n + 1, end) if not _NOTHING.match(lines[k])), end)
    if inner < end and _NOTHING.match(lines[n], key.end()):
        deeper = len(lines[inner]) - len(lines[inner].lstrip(" "))
        below = (file, depth + 1, parse)
        if deeper > indent and (found := _entries(lines, inner, end, deeper, below)):
            span = Span(file, n + 1, indent + 1, key.end())
            return Text(key[0][:-1], span), _map(found, lines, file)
    text = "\n".join(lines[n:end]) + ("\n" if end < len(lines) else "")
    return _parsed(text, n, file, depth, parse)


def _map(entries: tuple[_Entry, ...], lines: list[str], file: str) -> Map:
    """The map of some entries; its span is the rest of the line on which it begins."""
    at = entries[0][0].span
    end = max(len(lines[at.line - 1].rstrip()), at.column)
    return Map(entries, Span(file, at.line, at.column, end + 1))


@lru_cache(maxsize=512)
def _parsed(text: str, line: int, file: str, depth: int, parse: Parse) -> _Entry | None:
    """The entry of a text that begins so many lines below the top."""
    found = _alone(text, file, depth, parse)
    if found is None:
        return None
    key, value = found
    return _text_moved(key, line), _moved(value, line)


@lru_cache(maxsize=512)
def _alone(text: str, file: str, depth: int, parse: Parse) -> _Entry | None:
    """The only entry of a text."""
    found = parse(text, file, depth)
    return found.entries[0] if found and len(found.entries) == 1 else None


def _moved(node: Node, by: int) -> Node:
    """The same, so many lines farther down."""
    match node:
        case Text():
            return _text_moved(node, by)
        case List():
            return List(tuple(_moved(item, by) for item in node.items), _span_moved(node.span, by))
        case Map():
            moved = tuple((_text_moved(key, by), _moved(value, by)) for key, value in node.entries)
            return Map(moved, _span_moved(node.span, by))


def _text_moved(text: Text, by: int) -> Text:
    return Text(text.value, _span_moved(text.span, by), text.quoted)


def _span_moved(span: Span, by: int) -> Span:
    return Span(span.file, span.line + by, span.column, span.end)
