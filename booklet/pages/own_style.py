"""Floor 11, a style sheet of one's own: what may stand in it, and its pictures taken from the folder.

The door to tinycss2. The author's rules follow ours, so that they win; nothing is fetched from elsewhere.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import Any

import tinycss2

from booklet.diagnostic import Diagnostic, Span, did_you_mean
from booklet.pages.texts import picture_address, picture_path
from booklet.pattern import Pattern
from booklet.source.own_pages import STYLE

_FETCH = {"src", "image-set", "-webkit-image-set", "expression", "element", "cross-fade"}
_RULES = {"media", "page", "supports"}


def style_faults(pattern: Pattern) -> Iterator[Diagnostic]:
    """The faults of the author's style sheet: what cannot be read, and what would be fetched."""
    if not pattern.style:
        return
    if "</" in pattern.style:
        yield _fault(pattern, (1, 1), "it holds `</`, which ends a style sheet", "take it out")
        return
    for part, declared in _parts(tinycss2.parse_stylesheet(pattern.style, True, True)):
        if part.type == "error":
            yield _fault(
                pattern,
                (part.source_line, part.source_column),
                f"it cannot be read here: {part.message.lower()}",
                "look at the line above, too: a `;` or a `}` may be missing",
            )
        elif part.type == "at-rule" and part.lower_at_keyword not in _RULES:
            yield _fault(
                pattern,
                (part.source_line, part.source_column),
                f"`@{part.at_keyword}` cannot stand in a style sheet of one's own",
                f"only {', '.join(f'`@{name}`' for name in sorted(_RULES))} may",
            )
        elif declared and part.type in ("url", "function", "string"):
            yield from _addresses(part, pattern)


def _parts(things: Iterable[Any], declared: bool = False) -> Iterator[tuple[Any, bool]]:
    """Everything in a style sheet, the outer before the inner; whether it stands inside a rule."""
    for part in things:
        yield part, declared
        for inner in (getattr(part, key, None) for key in ("prelude", "content", "arguments")):
            if isinstance(inner, list):
                yield from _parts(inner, True)


def _addresses(part: Any, pattern: Pattern) -> Iterator[Diagnostic]:
    """A fault for what leads out of the folder."""
    where = (part.source_line, part.source_column)
    if part.type == "function" and part.lower_name in _FETCH:
        yield _fault(pattern, where, f"`{part.name}()` would fetch something", "take it out")
        return
    value = _address(part)
    if value is None or value.startswith("#"):
        return
    if picture_path(STYLE, value, pattern) is None:
        yield _fault(
            pattern,
            where,
            f"`url({value[:60]})` is no picture of the folder; nothing is fetched from elsewhere",
            did_you_mean(value[:60], pattern.pictures) or "put the picture into the folder",
        )


def _address(part: Any) -> str | None:
    """The address of `url(…)`, with or without quotes."""
    if part.type == "url":
        return str(part.value)
    if part.type == "function" and part.lower_name == "url":
        return "".join(str(inner.value) for inner in part.arguments if inner.type == "string")
    return None


def _fault(pattern: Pattern, where: tuple[int, int], why: str, hint: str) -> Diagnostic:
    line, column = where
    lines = pattern.style.splitlines() or [""]
    end = max(len(lines[min(line, len(lines)) - 1]) + 1, column + 1)
    return Diagnostic("own-style", f"`{STYLE}`: {why}", Span(STYLE, line, column, end), hint)


def own_style(pattern: Pattern) -> str:
    """The author's style sheet with the pictures of the folder in it; it was checked before."""

    def inside(match: re.Match[str]) -> str:
        path = picture_path(STYLE, match.group(1).strip(), pattern)
        address = picture_address(pattern.pictures[path]) if path else None
        return f"url({address})" if address else match.group(0)

    return re.sub(r"url\(\s*[\"']?([^\"')#:]+)[\"']?\s*\)", inside, pattern.style)
