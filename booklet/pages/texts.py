"""Floor 11, texts: a designer's Markdown becomes safe markup with values and figures in it.

A text is a stranger's: no template engine ever sees it. Raw HTML is shown as it was typed, pictures come
only from the folder. Markdown becomes a tree in which a name in `{{ }}` is a slot; the tree's markup is
cleaned, and only then the slots are filled (`slots.py`).
"""

from __future__ import annotations

import base64
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from posixpath import dirname, join, normpath
from xml.etree.ElementTree import Element

import markdown
from markdown.inlinepatterns import InlineProcessor
from markdown.treeprocessors import Treeprocessor
from markdown.util import AtomicString
from markupsafe import Markup

from booklet.bounds import MOST_LINES, MOST_SHOWN, MOST_SHOWN_BYTES, MOST_SIGNS
from booklet.diagnostic import Diagnostic, Span, did_you_mean
from booklet.pages.quantities import quantities
from booklet.pages.slots import SCHEMES, Slots
from booklet.pages.teacher import note_faults
from booklet.pages.values import is_sized, known_names
from booklet.pattern import Pattern
from booklet.source.node import shortened

_BRACED = re.compile(r"\{\{\s*(.*?)\s*\}\}")
_OPEN = re.compile(r"\{\{(?!.*\}\})\s*([\w. -]*\w)?")
NAME = re.compile(r"\{\{\s*([A-Za-z][\w-]*(?:\.[\w-]+(?: [\w-]+)*)*)\s*\}\}")
_IMAGE = re.compile(r"!\[[^\]]*\]\(\s*<?([^)\s>]+)")
_REMOTE = re.compile(r"^(?:[a-z][a-z0-9+.-]*:|//)", re.IGNORECASE)
_KINDS = {b"\x89PNG": "png", b"\xff\xd8\xff": "jpeg"}
DEEPEST = 60  # columns that a line may be indented or quoted
MOST_ALIKE = 200  # of one Markdown sign in one line


@dataclass(frozen=True, slots=True)
class Filling:
    """What may stand in a text: plain values, and blocks (figures, tables) made when asked for."""

    values: Mapping[str, str]
    blocks: Callable[[str], Markup | None] = field(default=lambda name: None)


def needs_size(text: str) -> bool:
    """Whether a text says something that differs from size to size."""
    return any(is_sized(match.group(1)) for match in NAME.finditer(text))


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
            found += _picture_faults(file, number, line, pattern)
    return tuple(found)


def _tangles(file: str, text: str) -> list[Diagnostic]:
    """A diagnostic for a text so tangled that no page could be made of it."""
    for number, line in enumerate(text.splitlines(), 1):
        lead = len(line.expandtabs(4)) - len(line.expandtabs(4).lstrip(" >"))
        if lead > DEEPEST or max(map(line.count, "[`_*{<"), default=0) > MOST_ALIKE:
            message = (
                f"line {number} of `{file}` nests deeper, or holds more signs, than a page can show"
            )
            hint = "write it in shorter lines and lists of fewer levels"
            return [Diagnostic("too-large", message, Span(file, number, 1, 2), hint)]
    for sign in "[`":
        if text.count(sign) > 10 * MOST_ALIKE:
            message = f"`{file}` holds more than {10 * MOST_ALIKE} of the sign `{sign}`"
            return [
                Diagnostic("too-large", message, Span.whole(file), "split the text into several")
            ]
    return []


def _too_much(file: str, text: str, pattern: Pattern) -> list[Diagnostic]:
    """A diagnostic for a text that is longer, or shows more, than goes into a booklet."""
    named = [m[1] for m in NAME.finditer(text) if m[1].startswith(("figure.", "table."))]
    paths = [picture_path(file, match[1], pattern) for match in _IMAGE.finditer(text)]
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
            return [Diagnostic("too-large", message, Span.whole(file), hint)]
    return []


def _name_faults(file: str, number: int, line: str, known: tuple[str, ...]) -> list[Diagnostic]:
    """A diagnostic for every name of a line that stands for nothing."""
    return [
        Diagnostic(
            "unknown-value",
            f"`{shortened(match.group(1))}` is no value, figure or table that a text can show",
            Span(file, number, match.start(1) + 1, max(match.end(1), match.start(1) + 1) + 1),
            did_you_mean(match.group(1)[:60], known),
        )
        for match in _BRACED.finditer(line)
        if match.group(1) not in known
    ]


def _open_faults(file: str, number: int, line: str) -> list[Diagnostic]:
    """A diagnostic for braces that a line opens and does not close."""
    return [
        Diagnostic(
            "unknown-value",
            f"`{shortened(match.group().strip())}` has no `}}}}` in its line, so nothing takes its place",
            Span(file, number, match.start() + 1, match.start() + 3),
            "close it after the name, as in `{{ size.title }}`",
        )
        for match in _OPEN.finditer(line)
    ]


def _picture_faults(file: str, number: int, line: str, pattern: Pattern) -> list[Diagnostic]:
    """A diagnostic for every picture of a line that is not in the folder."""
    found: list[Diagnostic] = []
    for match in _IMAGE.finditer(line):
        address = match.group(1)
        span = Span(file, number, match.start(1) + 1, match.end(1) + 1)
        if _REMOTE.match(address):
            message = (
                f"the picture `{address}` is not in the folder; nothing is fetched from elsewhere"
            )
            found.append(
                Diagnostic(
                    "remote-address",
                    message,
                    span,
                    "put the picture into the folder and name it here",
                )
            )
        elif picture_path(file, address, pattern) is None:
            message = f"the picture `{address}` is not in the folder"
            found.append(
                Diagnostic(
                    "missing-picture",
                    message,
                    span,
                    did_you_mean(address, pattern.pictures) or "put it beside the text",
                )
            )
    return found


def picture_path(file: str, address: str, pattern: Pattern) -> str | None:
    """The key of a picture named in a text: beside the text, or from the folder's top."""
    for path in (normpath(join(dirname(file), address)), normpath(address)):
        if path in pattern.pictures:
            return path
    return None


def picture_address(data: bytes) -> str | None:
    """A `data:` address for the bytes of a PNG or JPEG picture, else None."""
    for start, kind in _KINDS.items():
        if data.startswith(start):
            return f"data:image/{kind};base64,{base64.b64encode(data).decode('ascii')}"
    return None


class _Names(InlineProcessor):
    """Sets a slot where a text names a value, a figure or a table. In code a name stays as it is typed."""

    def __init__(self, filling: Filling, slots: Slots) -> None:
        super().__init__(NAME.pattern)
        self.filling, self.slots = filling, slots

    def handleMatch(  # type: ignore[override]
        self, match: re.Match[str], data: str
    ) -> tuple[Element | None, int | None, int | None]:
        """The slot of a name, and where the name began and ended; nothing for a name unknown."""
        name = match.group(1)
        if name in self.filling.values:
            slot = _slot(self.slots, quantities(self.filling.values[name]))
            slot.text = AtomicString(
                self.filling.values[name]
            )  # what a link or a picture shows of it
        elif (block := self.filling.blocks(name)) is not None:
            slot = _slot(self.slots, block, is_block=True)
        else:
            return None, None, None
        return slot, match.start(0), match.end(0)


def _slot(slots: Slots, markup: Markup, is_block: bool = False) -> Element:
    """The element that stands for a thing of ours: a figure or table (a block), or words."""
    return Element("slot", {"data-b" if is_block else "data-n": str(slots.number(markup))})


class _Guard(Treeprocessor):
    """Sets headings lower, and takes addresses and pictures out of the tree."""

    def __init__(
        self, md: markdown.Markdown, picture: Callable[[str, str], Element], top: int | None
    ) -> None:
        super().__init__(md)
        self.picture, self.top = picture, top

    def run(self, root: Element) -> None:
        """Change the tree in place."""
        levels = [int(e.tag[1]) for e in root.iter() if re.fullmatch("h[1-6]", e.tag)]
        lower = 1 if self.top is None else self.top - min(levels, default=1)
        for parent in list(root.iter()):
            for at, element in enumerate(parent):
                if re.fullmatch("h[1-6]", element.tag):
                    element.tag = f"h{min(6, int(element.tag[1]) + lower)}"
                elif element.tag == "a":
                    _told_link(element)
                elif element.tag == "th":
                    element.set("scope", "col")
                elif element.tag == "img":
                    parent[at] = self.picture(element.get("src", ""), element.get("alt", ""))
                    parent[at].tail = element.tail


def _told_link(element: Element) -> None:
    """Leave a link to a place in the booklet, and show the address of one that leads elsewhere, for paper.

    Links to https and to mail can be followed; any other becomes its words.
    """
    address = element.get("href", "")
    element.attrib.pop("title", None)
    kind = address.partition(":")[0].lower()
    if address.startswith("#"):
        return
    if kind not in SCHEMES:
        element.tag = "span"
        element.attrib.clear()
    shown = address.partition(":")[2] if kind == "mailto" else address
    if kind in (*SCHEMES, "http") and "".join(element.itertext()) != shown:
        element.tail = f" ({shown}){element.tail or ''}"


def set_text(
    file: str, text: str, pattern: Pattern, filling: Filling, top: int | None = None
) -> Markup:
    """The safe markup of a Markdown text. `top` is the level of its highest heading; left out, `#` is h2."""
    slots = Slots()

    def picture(address: str, alt: str) -> Element:
        path = picture_path(file, address, pattern)
        source = picture_address(pattern.pictures[path]) if path is not None else None
        if source is None:
            element = Element("span")
            element.text = AtomicString(alt)
            return element
        markup = Markup('<figure class="photo"><img src="{}" alt="{}"></figure>')
        return _slot(slots, markup.format(source, alt), is_block=True)

    md = markdown.Markdown(extensions=["tables", "sane_lists", "smarty"], output_format="html")
    md.preprocessors.deregister("html_block")
    md.inlinePatterns.deregister("html")
    md.inlinePatterns.register(_Names(filling, slots), "names", 175)  # after code, before links
    md.treeprocessors.register(_Guard(md, picture, top), "guard", 1)
    return slots.text(md.convert(text), lambda words: str(quantities(Markup(words).unescape())))
