"""Floor 11, markup as a tree of slices: what merging and shortening look at.

It reads only what our templates, svgwrite and nh3 write: every `<` of a text and every `"` of an attribute is written
as a name there (`slots.py`), so that those signs can be nothing but an element. Joined again, the slices are
what was read, sign for sign.
"""

from __future__ import annotations

import re
from typing import TypeAlias

from booklet.kit.records import Mutable, Record

VOID = {"area", "base", "br", "col", "hr", "img", "input", "link", "meta", "wbr"}
_TAG = re.compile(r"<(?:[^\">]|\"[^\"]*\")*>")
_NAME = re.compile(r"</?([A-Za-z][\w:-]*)")


class MarkupError(ValueError):
    """Markup that is not nested as ours is: a bug of ours."""


class Element(Record):
    """An element: its name, its opening and closing tag, what is in it, and all of that as it stands."""

    name: str
    opening: str
    children: tuple[Node, ...]
    closing: str
    source: str


class ScreenWords(Record):
    """Words between elements."""

    source: str


Node: TypeAlias = Element | ScreenWords


def build_of(node: Node) -> str:
    """What two nodes must share to be compared part by part."""
    return node.name if isinstance(node, Element) else ""


class _Open(Mutable):
    """An element whose end has not come yet."""

    name: str
    start: int
    opening: str
    children: list[Node]


def parsed(markup: str) -> tuple[Node, ...]:
    """The nodes of well-nested markup. Raises MarkupError for any other."""
    markup = str(markup)  # not `Markup`, which would escape what it is joined with
    stack = [_Open("", 0, "", [])]
    at = 0
    for tag in _TAG.finditer(markup):
        if tag.start() > at:
            stack[-1].children.append(ScreenWords(markup[at : tag.start()]))
        at = tag.end()
        _take(stack, tag.group(), tag.start(), at, markup)
    if at < len(markup):
        stack[-1].children.append(ScreenWords(markup[at:]))
    if len(stack) != 1:
        raise MarkupError(f"<{stack[-1].name}> has no end")
    return tuple(stack[0].children)


def _take(stack: list[_Open], tag: str, start: int, end: int, markup: str) -> None:
    """Put one tag into the tree."""
    found = _NAME.match(tag)
    if found is None:
        raise MarkupError(f"no element of ours: {tag[:40]}")
    name = found.group(1).lower()
    if tag.startswith("</"):
        open_ = stack.pop()
        if open_.name != name or not stack:
            raise MarkupError(f"</{name}> ends <{open_.name}>")
        children = tuple(open_.children)
        node = Element(name, open_.opening, children, tag, markup[open_.start : end])
        stack[-1].children.append(node)
    elif tag.endswith("/>") or name in VOID:
        stack[-1].children.append(Element(name, tag, (), "", tag))
    else:
        stack.append(_Open(name, start, tag, []))


def with_attribute(opening: str, attribute: str) -> str:
    """An opening tag with one attribute more."""
    end = len(opening) - (2 if opening.endswith("/>") else 1)
    return f"{opening[:end].rstrip()} {attribute}{opening[end:]}"
