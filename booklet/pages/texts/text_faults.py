"""Floor 11, faults of texts: what a page could not show of a designer's Markdown, found without setting it."""

from __future__ import annotations

import base64
import re
from collections.abc import Iterator
from itertools import groupby

from booklet.kit.bounds import (
    DEEPEST_TEXT,
    MOST_ALIKE,
    MOST_LINES,
    MOST_SHOWN,
    MOST_SHOWN_BYTES,
    MOST_SIGNS,
)
from booklet.kit.diagnostic import Diagnostic, Span, did_you_mean, warning
from booklet.pages.texts.callouts import note_faults
from booklet.pages.texts.values import known_names
from booklet.pattern import Pattern
from booklet.source.files.text_pictures import pictures_named, places_of
from booklet.source.tree.node import shortened

_BRACED = re.compile(r"\{\{(.*?)\}\}")
_OPEN = re.compile(r"\{\{(?!.*\}\})\s*([\w. -]*\w)?")
NAME = re.compile(r"\{\{\s*([A-Za-z][\w-]*(?:\.[\w-]+(?: [\w-]+)*)*)\s*\}\}")
_REMOTE = re.compile(r"^(?:[a-z][a-z0-9+.-]*:|//)", re.IGNORECASE)
_LINK = re.compile(
    r"(?:(?<!!)\[[^\]\[]*\]\(\s*<?|^\s{0,3}\[[^\]]+\]:\s*<?)([A-Za-z][A-Za-z0-9+.-]*:[^)\s>]*)"
)
_KINDS = {
    b"\x89PNG": "png",
    b"\xff\xd8\xff": "jpeg",
    b'<svg xmlns="http://www.w3.org/2000/svg"': "svg+xml",
}


def text_faults(pattern: Pattern) -> tuple[Diagnostic, ...]:
    """The faults of all texts: unknown names, pictures from elsewhere, pictures not in the folder."""
    known = known_names(pattern)
    found: list[Diagnostic] = []
    for file, text in sorted(pattern.texts.items()):
        found += _tangles(file, text) or _too_much(file, text, pattern)
        found += note_faults(file, text)
        for number, line in enumerate(text.splitlines(), 1):
            found += _name_faults(file, number, line, known)
            found += _open_faults(file, number, line)
            found += _link_warnings(file, number, line)
        found += _picture_faults(file, text, pattern)
    return tuple(found)


def _tangles(file: str, text: str) -> list[Diagnostic]:
    """A diagnostic for a text so tangled that no page could be made of it."""
    lines = enumerate(text.splitlines(), 1)
    for _, rows in groupby(lines, lambda each: bool(each[1].strip())):
        paragraph = list(rows)
        deep = [n for n, line in paragraph if _lead(line) > DEEPEST_TEXT]
        crowd = max(sum(line.count(sign) for _, line in paragraph) for sign in "[`_*{<")
        if deep or crowd > MOST_ALIKE:
            number = deep[0] if deep else paragraph[0][0]
            message = f"line {number} of `{file}` nests deeper, or its paragraph holds more signs, than a page can show"
            hint = f"use lists of fewer levels, and at most {MOST_ALIKE} of ` [ _ * {{ < between two empty lines"
            return [
                Diagnostic(
                    code="too-large", message=message, span=Span(file, number, 1, 2), hint=hint
                )
            ]
    return []


def _lead(line: str) -> int:
    """By how many columns a line is indented or quoted."""
    wide = line.expandtabs(4)
    return len(wide) - len(wide.lstrip(" >"))


def _too_much(file: str, text: str, pattern: Pattern) -> list[Diagnostic]:
    """A diagnostic for a text that is longer, or shows more, than goes into a booklet."""
    named = [m[1] for m in NAME.finditer(text) if m[1].startswith(("figure.", "table."))]
    paths = [picture_path(file, name, pattern) for name, _ in pictures_named(file, text)]
    size = sum(len(pattern.pictures[path]) for path in paths if path)
    shown = len(named) + len(paths)
    for count, most, what in (
        (len(text), MOST_SIGNS, "signs"),
        (text.count("\n"), MOST_LINES, "lines"),
        (shown, MOST_SHOWN, "figures, tables and pictures"),
        (size, MOST_SHOWN_BYTES, "bytes of pictures"),
    ):
        if count > most:
            message = f"`{file}` has {count} {what}; at most {most} go into a text"
            hint = "split the text into several, or show less"
            return [Diagnostic(code="too-large", message=message, span=Span.whole(file), hint=hint)]
    return []


def _name_faults(file: str, number: int, line: str, known: tuple[str, ...]) -> list[Diagnostic]:
    """A diagnostic for every name of a line that stands for nothing."""
    found: list[Diagnostic] = []
    for match in _BRACED.finditer(line):
        name = match[1].strip()
        if name not in known:
            start = match.end(1) - len(match[1].lstrip()) + 1 if name else match.end(1) + 1
            message = f"`{shortened(name)}` is no value, figure or table that a text can show"
            span = Span(file, number, start, start + max(len(name), 1))
            found.append(
                Diagnostic(
                    code="unknown-value",
                    message=message,
                    span=span,
                    hint=did_you_mean(name[:60], known),
                )
            )
    return found


def _open_faults(file: str, number: int, line: str) -> list[Diagnostic]:
    """A diagnostic for braces that a line opens and does not close."""
    return [
        Diagnostic(
            code="unknown-value",
            message=f"`{shortened(match.group().strip())}` has no `}}}}` in its line, so nothing takes its place",
            span=Span(file, number, match.start() + 1, match.start() + 3),
            hint="close it after the name, as in `{{ size.title }}`",
        )
        for match in _OPEN.finditer(line)
    ]


def _link_warnings(file: str, number: int, line: str) -> list[Diagnostic]:
    """A warning for every link of a line that nobody will be able to follow."""
    return [
        warning(
            "plain-link",
            f"the link to `{shortened(match[1])}` cannot be followed: booklets lead to `https://` and to mail only",
            Span(file, number, match.start(1) + 1, match.end(1) + 1),
            "write `https://` if the address opens with it, or take the link out; its words stay",
        )
        for match in _LINK.finditer(line)
        if match[1].partition(":")[0].lower() not in ("https", "mailto")
    ]


def _picture_faults(file: str, text: str, pattern: Pattern) -> Iterator[Diagnostic]:
    """A diagnostic for every picture of a text that is not in the folder."""
    for address, span in pictures_named(file, text):
        lost = f"the picture `{address}` is not in the folder"
        if _REMOTE.match(address):
            message = f"{lost}; nothing is fetched from elsewhere"
            hint = "put the picture into the folder and name it here"
            yield Diagnostic(code="remote-address", message=message, span=span, hint=hint)
        elif picture_path(file, address, pattern) is None:
            hint = did_you_mean(address, pattern.pictures) or "put it beside the text"
            yield Diagnostic(code="missing-picture", message=lost, span=span, hint=hint)


def picture_path(file: str, address: str, pattern: Pattern) -> str | None:
    """The key of a picture named in a text: beside the text, or from the folder's top."""
    return next((path for path in places_of(file, address) if path in pattern.pictures), None)


def picture_address(data: bytes) -> str | None:
    """A `data:` address for the bytes of a picture made ready, else None."""
    for start, kind in _KINDS.items():
        if data.startswith(start):
            return f"data:image/{kind};base64,{base64.b64encode(data).decode('ascii')}"
    return None
