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
_TAG = re.compile(r'<[^">]*+(?:"[^"]*+"[^">]*+)*+>')
_NAME = re.compile(r"</?([A-Za-z][\w:-]*)")


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
        said = tag.group()
        found = _NAME.match(said)
        if found is None:
            raise MarkupError(f"no element of ours: {said[:40]}")
        name = found.group(1).lower()
        if not open_ and tag.start() > at:
            yield ScreenWords(whole[at : tag.start()])
            at = tag.start()
        if said.startswith("</"):
            if not open_ or open_[-1] != name:
                raise MarkupError(f"</{name}> ends <{open_[-1] if open_ else ''}>")
            open_.pop()
            closing = said
        elif said.endswith("/>") or name in VOID:
            first, closing = (first, "") if open_ else (said, "")
        else:
            first = first if open_ else said
            open_.append(name)
            continue
        if not open_:
            yield Element(name, first, closing, whole, at, tag.end())
            at = tag.end()
    if open_:
        raise MarkupError(f"<{open_[-1]}> has no end")
    if at < end:
        yield ScreenWords(whole[at:end])


def with_attribute(opening: str, attribute: str) -> str:
    """An opening tag with one attribute more."""
    end = len(opening) - (2 if opening.endswith("/>") else 1)
    return f"{opening[:end].rstrip()} {attribute}{opening[end:]}"
