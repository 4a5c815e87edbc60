"""Floor 11, markup as a tree of slices: what merging and shortening look at.

It reads only what our templates, svgwrite and nh3 write: every `<` of a text and every `"` of an attribute is written
as a name there (`slots.py`), so that those signs can be nothing but an element. Joined again, the slices are
what was read, sign for sign.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TypeAlias

from booklet.kit.records import Record

VOID = {"area", "base", "br", "col", "hr", "img", "input", "link", "meta", "wbr"}
_TAG = re.compile(r'<(/?)([A-Za-z][\w:-]*)?+[^">]*+(?:"[^"]*+"[^">]*+)*+>')


class MarkupError(ValueError):
    """Markup that is not nested as ours is: a bug of ours."""


class Element(Record):
    """An element: its name, its opening and closing tag, and where it stands in the markup that it is of."""

    name: str
    opening: str
    closing: str
    whole: str
    start: int
    end: int

    @property
    def source(self) -> str:
        """All of it as it stands."""
        return self.whole[self.start : self.end]

    @property
    def children(self) -> tuple[Node, ...]:
        """What is in it, read whenever it is asked for: a tree of all choices would take many times the room of their text,
        and most elements are alike in all of them, so that nobody looks within."""
        inner = self.start + len(self.opening), self.end - len(self.closing)
        return tuple(_nodes(self.whole, *inner)) if self.closing else ()


class ScreenWords(Record):
    """Words between elements."""

    source: str


Node: TypeAlias = Element | ScreenWords


def build_of(node: Node) -> str:
    """What two nodes must share to be compared part by part."""
    return node.name if isinstance(node, Element) else ""


def parsed(markup: str) -> tuple[Node, ...]:
    """The nodes of well-nested markup. Raises MarkupError for any other."""
    whole = str(markup)  # not `Markup`, which would escape what it is joined with
    return tuple(_nodes(whole, 0, len(whole)))


def _nodes(whole: str, start: int, end: int) -> Iterator[Node]:
    """The nodes of a stretch of markup; of what is in them only that it is well nested."""
    open_: list[str] = []
    at, first = start, ""
    for tag in _TAG.finditer(whole, start, end):
        ends, name = tag.groups()
        if name is None:
            raise MarkupError(f"no element of ours: {tag[0][:40]}")
        name = name.lower()
        if ends:
            if not open_ or open_.pop() != name:
                raise MarkupError(f"</{name}> ends what is not open")
            if not open_:
                yield Element(name, first, tag[0], whole, at, tag.end())
                at = tag.end()
            continue
        alone = name in VOID or whole[tag.end() - 2] == "/"
        if not open_:
            if tag.start() > at:
                yield ScreenWords(whole[at : tag.start()])
            at, first = tag.start(), tag[0]
            if alone:
                yield Element(name, first, "", whole, at, tag.end())
                at = tag.end()
        if not alone:
            open_.append(name)
    if open_:
        raise MarkupError(f"<{open_[-1]}> has no end")
    if at < end:
        yield ScreenWords(whole[at:end])


def with_attribute(opening: str, attribute: str) -> str:
    """An opening tag with one attribute more."""
    end = len(opening) - (2 if opening.endswith("/>") else 1)
    return f"{opening[:end].rstrip()} {attribute}{opening[end:]}"
