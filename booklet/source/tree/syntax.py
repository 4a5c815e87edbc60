"""Floor 2, first step: YAML text to a tree with positions. The only module that meets ruamel.yaml.

It works on the parser's events, so that nothing of the text is ever made into an object, and names
for values (anchors), their repeats (aliases) and type marks (tags) can be refused.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

from ruamel.yaml import YAML
from ruamel.yaml.error import MarkedYAMLError, YAMLError
from ruamel.yaml.events import (
    AliasEvent,
    DocumentStartEvent,
    Event,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
)

from booklet.kit.bounds import DEEPEST_SOURCE, MOST_BLANKS
from booklet.kit.diagnostic import Diagnostic, Span
from booklet.kit.letters import paired, unshown
from booklet.source.faults import Faults, invisible
from booklet.source.tree.node import List, Map, Node, Text
from booklet.source.tree.rereading import read_by_parts
from booklet.source.tree.syntax_words import explain

MOST_MARKS = 3
_BLANKS = re.compile(r"\s+")
_COMMENT = re.compile(r"#[^\r\n]*")
UNREADABLE = "unreadable-source"


class _Stop(Exception):
    """Reading cannot go on; the fault is noted."""


def read_tree(text: str, file: str, faults: Faults, again: bool = False) -> Node | None:
    """The tree of a YAML text, or None with a fault if it is empty or cannot be read at all. A text that is read
    `again` after an edit is read by parts where it can be."""
    node, found = _read(text, file, again)
    faults.extend(found)
    return node


def comments_of(text: str) -> tuple[tuple[int, int], ...]:
    """Where comments stand in a YAML text that can be read: from the `#` to the end of its line, as places of
    characters. They lie between the signs that the scanner takes for the text itself."""
    found: list[tuple[int, int]] = []
    before = 0
    for token in YAML(typ="safe", pure=True).scan(text):
        gap = text[before : token.start_mark.index]
        found += [(before + c.start(), before + c.end()) for c in _COMMENT.finditer(gap)]
        before = max(before, token.end_mark.index)
    return tuple(found)


@lru_cache(maxsize=2)
def _read(text: str, file: str, again: bool) -> tuple[Node | None, tuple[Diagnostic, ...]]:
    """The tree of a text, and its faults. Who looks at a pattern again after a change of another of its files
    need not wait for it."""
    if again and (put_together := read_by_parts(text, file, _sound)) is not None:
        return put_together, ()
    faults = Faults()
    return _tree(text, file, faults), faults.all()


def _sound(text: str, file: str, depth: int) -> Map | None:
    """The map that a text is, if it has no fault."""
    faults = Faults()
    node = _tree(text, file, faults, depth)
    return node if isinstance(node, Map) and not faults.noted else None


def _tree(text: str, file: str, faults: Faults, depth: int = 0) -> Node | None:
    lines = text.splitlines() or [""]
    if _unprintable(text, file, faults):
        return None
    composer = _Composer(file, lines, faults)
    parser = YAML(typ="safe", pure=True)
    try:
        node = composer.document(iter(parser.parse(text)), depth)
    except _Stop:
        return None
    except MarkedYAMLError as fault:
        mark = fault.problem_mark or fault.context_mark
        opened = fault.context_mark or mark
        began = opened.line if opened else None
        message, hint, at_opening = explain(str(fault.problem), lines, mark and mark.line, began)
        place = opened if at_opening else mark
        where = composer.span_at(place.line, place.column) if place else Span.whole(file)
        faults.add(UNREADABLE, message, where, hint)
        return None
    except (YAMLError, ValueError, RecursionError):
        message = "the text cannot be read as keys and values"
        faults.add(UNREADABLE, message, Span.whole(file), "compare it with a pattern that builds")
        return None
    if node is None:
        faults.add(UNREADABLE, f"`{file}` is empty", Span.whole(file), "begin with `title:`")
    return node


def _unprintable(text: str, file: str, faults: Faults) -> bool:
    """Whether a sign stands in the text that cannot be shown; notes where."""
    found = unshown(text)
    if found:
        line, column, code = found
        faults.add(UNREADABLE, *invisible(code, Span(file, line, column, column + 1)))
    return found is not None


class _Composer:
    """Builds the tree from the events of one document."""

    def __init__(self, file: str, lines: list[str], faults: Faults) -> None:
        self._file, self._lines, self._faults = file, lines, faults
        self._marks = 0  # anchors, aliases and tags met so far

    def document(self, events: Iterator[Event], depth: int = 0) -> Node | None:
        """The only document of the text, or None if there is none; `depth` is how deep it stands in others."""
        root: Node | None = None
        documents = 0
        for event in events:
            if isinstance(event, DocumentStartEvent):
                documents += 1
                if documents > 1:
                    self._fault(
                        event,
                        "a second document begins here after `---`",
                        "keep one pattern in one file and delete this line and what follows",
                    )
                    return root
            elif isinstance(
                event, (ScalarEvent, SequenceStartEvent, MappingStartEvent, AliasEvent)
            ):
                root = self._node(event, events, depth)
        return root

    def _node(
        self, event: Event, events: Iterator[Event], depth: int, is_key: bool = False
    ) -> Node:
        """The node that begins with this event; names of keys are looked at by those who know them."""
        if depth > DEEPEST_SOURCE:
            self._fault(
                event,
                f"lists and groups stand inside one another more than {DEEPEST_SOURCE} deep here",
                "a pattern needs no more than six; close the brackets earlier",
            )
            raise _Stop
        span = self.span(event)
        if isinstance(event, AliasEvent):
            self._mark(
                event,
                "a `*` in front of a value repeats another value, which patterns do not use",
                "write the value out, or put the text in quotes if the `*` belongs to it",
            )
            return Text("", span)
        if isinstance(event, (ScalarEvent, SequenceStartEvent, MappingStartEvent)):
            self._refuse_marks(event)
        if isinstance(event, SequenceStartEvent):
            return self._list(events, span, depth)
        if isinstance(event, MappingStartEvent):
            return self._map(events, span, depth)
        if isinstance(event, ScalarEvent):
            value = paired(event.value) if is_key else self._shown(event)
            return Text(value, span, quoted=event.style is not None)
        raise _Stop  # no other event begins a node

    def _shown(self, event: ScalarEvent) -> str:
        """The text of a value. Between double quotes signs can be written as escapes: one that cannot be
        shown ends the reading, but `\\b` (a backspace) is a cell such as `ink\\bark`."""
        value = paired(event.value).replace("\b", "\\b")
        if found := unshown(value):
            self._faults.add(UNREADABLE, *invisible(found[2], self.span(event)))
            raise _Stop
        if max(map(len, _BLANKS.findall(value)), default=0) > MOST_BLANKS:
            message = f"more than {MOST_BLANKS} spaces stand in a row here"
            self._faults.add("too-large", message, self.span(event), "take them out")
            raise _Stop
        return value

    def _refuse_marks(self, event: ScalarEvent | SequenceStartEvent | MappingStartEvent) -> None:
        """Note an anchor or a tag on a value."""
        if event.anchor is not None:
            self._mark(
                event,
                f"`&{event.anchor}` gives a name to a value, which patterns do not use",
                "delete it, and write the value out where it is needed",
            )
        if event.tag is not None:
            self._mark(
                event,
                "a `!` in front of a value marks its type, which patterns do not use",
                "delete the mark, or put the text in quotes if the `!` belongs to it",
            )

    def _mark(self, event: Event, message: str, hint: str) -> None:
        """Note one of YAML's marks; after a few the rest are left unsaid, since one repair serves all."""
        self._marks += 1
        if self._marks <= MOST_MARKS:
            self._fault(event, message, hint)

    def _list(self, events: Iterator[Event], span: Span, depth: int) -> List:
        items: list[Node] = []
        for event in events:
            if isinstance(event, SequenceEndEvent):
                span = self._to_end(span, event)
                break
            items.append(self._node(event, events, depth + 1))
        return List(tuple(items), span)

    def _map(self, events: Iterator[Event], span: Span, depth: int) -> Map:
        entries: dict[str, tuple[Text, Node]] = {}
        for event in events:
            if isinstance(event, MappingEndEvent):
                span = self._to_end(span, event)
                break
            key = self._node(event, events, depth + 1, is_key=True)
            value = self._node(next(events), events, depth + 1)
            if not isinstance(key, Text):
                message = "a list or group stands where a key should be"
                self._faults.add(UNREADABLE, message, key.span, "write `key: value`")
            elif key.value in entries:
                line = entries[key.value][0].span.line
                self._faults.add(
                    "duplicate-name",
                    f"`{key.value}` stands here again; it is already on line {line}",
                    key.span,
                    "keep one of the two, or give this one another name",
                )
            else:
                if isinstance(value, Text) and value.is_empty:
                    value = Text(value.value, key.span)  # nothing stands there: point at its key
                entries[key.value] = (key, value)
        return Map(tuple(entries.values()), span)

    def _to_end(self, span: Span, event: Event) -> Span:
        """The span as far as the closing bracket, if that stands on the same line."""
        mark = event.end_mark
        if mark.line + 1 == span.line and mark.column + 1 > span.end:
            return Span(span.file, span.line, span.column, mark.column + 1)
        return span

    def _fault(self, event: Event, message: str, hint: str) -> None:
        self._faults.add(UNREADABLE, message, self.span(event), hint)

    def span(self, event: Event) -> Span:
        """Where an event stands; of a value over several lines, the part on its first line."""
        start, end = event.start_mark, event.end_mark
        if start.line == end.line and end.column > start.column:
            return Span(self._file, start.line + 1, start.column + 1, end.column + 1)
        return self.span_at(start.line, start.column)

    def span_at(self, line: int, column: int) -> Span:
        """From a place to the end of its line (both count from 0 here), at least one column."""
        line = min(line, len(self._lines) - 1)
        end = max(len(self._lines[line].rstrip()), column + 1)
        return Span(self._file, line + 1, column + 1, end + 1)
