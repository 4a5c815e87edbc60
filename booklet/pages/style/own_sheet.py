"""Floor 11: an author's own style sheet, read for what a browser and the maker of pages leave out without a word."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice
from typing import Any

import tinycss2

from booklet.kit.diagnostic import Diagnostic, Span, warning
from booklet.pattern import Pattern
from booklet.source.files.page_names import STYLE

MOST_TOLD = 5  # one slip may bring on many
FIXED = ("decimal", "disc", "square", "circle", "disclosure-open", "disclosure-closed", "none")
"""Styles of counters that nobody may change (CSS Counter Styles, level 3)."""
_INSIDE = ("prelude", "content", "arguments", "value")  # where the parser keeps what a node holds
_RULES = ("qualified-rule", "at-rule")


def sheet_oddities(pattern: Pattern) -> Iterator[Diagnostic]:
    """A warning for each place of the author's sheet that is not read as it is meant."""
    if not pattern.style:
        return
    told = islice(_told(pattern.style), MOST_TOLD)
    for (line, column), message, hint in told:
        yield warning("style-sheet", message, Span(STYLE, line, column, column + 1), hint)


def _told(style: str) -> Iterator[tuple[tuple[int, int], str, str]]:
    """Place, message and hint of each, the open brace last."""
    nodes = tinycss2.parse_stylesheet(style)
    for node in _all(nodes):
        if node.type == "error":
            said = f"`{STYLE}` cannot be read at this place, which is left out"
            yield _at(node), said, "look for a brace, colon, semicolon or quote too few or too many"
        elif node.type == "at-rule" and node.lower_at_keyword == "counter-style":
            name = tinycss2.serialize(node.prelude).strip()
            if name.lower() in FIXED:
                hint = "give your style a name of its own, and name it where it is used"
                yield _at(node), f"`@counter-style {name}` is left out: nobody may change it", hint
    if (begun := _left_open(style)) is not None:
        said = (
            f"what begins here in `{STYLE}` is not closed, so that all that follows belongs to it"
        )
        yield begun, said, "write the `}` of the rule (or the `*/` of the comment) where it ends"


def _all(nodes: Any) -> Iterator[Any]:
    """The nodes and all that they hold."""
    for node in nodes:
        yield node
        for name in _INSIDE:
            held = getattr(node, name, None)
            if name == "content" and held and node.type in _RULES:
                held = tinycss2.parse_blocks_contents(held)
            if isinstance(held, list):
                yield from _all(held)


def _left_open(style: str) -> tuple[int, int] | None:
    """Where the rule or comment begins that is open at the end: a brace put after it belongs to it, else to nothing."""
    line = style.count("\n") + 2
    *_, last = tinycss2.parse_stylesheet(f"{style}\n}}", skip_whitespace=True)
    return None if last.source_line == line else _at(last)


def _at(node: Any) -> tuple[int, int]:
    return node.source_line, node.source_column
