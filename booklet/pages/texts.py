"""Floor 11, texts: a designer's Markdown becomes safe markup with values and figures in it.

A text is a stranger's: no template engine ever sees it. Raw HTML is shown as it was typed, addresses
other than `#places` become plain text, pictures come only from the folder. Three steps: names in
`{{ }}` give way to tokens, Markdown is set and sanitised, tokens give way to values.
"""

from __future__ import annotations

import base64
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from posixpath import dirname, join, normpath
from xml.etree.ElementTree import Element

import markdown
import nh3
from markdown.treeprocessors import Treeprocessor
from markupsafe import Markup

from booklet.diagnostic import Diagnostic, Span, did_you_mean
from booklet.pages.quantities import quantities
from booklet.pages.teacher import note_faults
from booklet.pages.values import is_sized, known_names
from booklet.pattern import Pattern
from booklet.source.node import shortened

_BRACED = re.compile(r"\{\{\s*(.*?)\s*\}\}")
_OPEN = re.compile(r"\{\{(?!.*\}\})\s*([\w. -]*\w)?")
NAME = re.compile(r"\{\{\s*([A-Za-z][\w-]*(?:\.[\w-]+(?: [\w-]+)*)*)\s*\}\}")
_IMAGE = re.compile(r"!\[[^\]]*\]\(\s*<?([^)\s>]+)")
_REMOTE = re.compile(r"^(?:[a-z][a-z0-9+.-]*:|//)", re.IGNORECASE)
_PRIVATE = re.compile("[\ue000-\uf8ff]")
_TOKEN = re.compile("\ue000(\\d+)\ue001")
_LONE = re.compile("<p>((?:(?!</p>).)*\ue000\\d+\ue001(?:(?!</p>).)*)</p>", re.DOTALL)
_TEXT_NODE = re.compile(r"(<[^>]*>)")
_KINDS = {b"\x89PNG": "png", b"\xff\xd8\xff": "jpeg"}
DEEPEST = 60  # columns that a line may be indented or quoted
MOST_SIGNS = 200  # of one Markdown sign in one line
_TAGS = {
    "p", "h2", "h3", "h4", "h5", "h6", "ul", "ol", "li", "strong", "em", "code", "pre", "hr", "br",
    "blockquote", "a", "span", "table", "thead", "tbody", "tr", "th", "td", "dl", "dt", "dd", "sup",
}  # fmt: skip


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
        found += _tangles(file, text)
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
        if lead > DEEPEST or max(map(line.count, "[`_*{<"), default=0) > MOST_SIGNS:
            message = (
                f"line {number} of `{file}` nests deeper, or holds more signs, than a page can show"
            )
            hint = "write it in shorter lines and lists of fewer levels"
            return [Diagnostic("too-large", message, Span(file, number, 1, 2), hint)]
    for sign in "[`":
        if text.count(sign) > 10 * MOST_SIGNS:
            message = f"`{file}` holds more than {10 * MOST_SIGNS} of the sign `{sign}`"
            return [
                Diagnostic("too-large", message, Span.whole(file), "split the text into several")
            ]
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


class _Guard(Treeprocessor):
    """Sets headings one level lower, and takes addresses and pictures out of the tree."""

    def __init__(self, md: markdown.Markdown, picture: Callable[[str, str], str]) -> None:
        super().__init__(md)
        self.picture = picture

    def run(self, root: Element) -> None:
        """Change the tree in place."""
        for element in root.iter():
            if re.fullmatch("h[1-6]", element.tag):
                element.tag = f"h{min(6, int(element.tag[1]) + 1)}"
            elif element.tag == "a":
                _plain_link(element)
            elif element.tag == "img":
                token = self.picture(element.get("src", ""), element.get("alt", ""))
                element.tag, element.text = "span", token
                element.attrib.clear()


def _plain_link(element: Element) -> None:
    """Leave a link to a place in the booklet; show any other as its words and its address."""
    address = element.get("href", "")
    element.attrib.pop("title", None)
    if address.startswith("#"):
        return
    element.tag = "span"
    element.attrib.clear()
    words = "".join(element.itertext())
    if address.lower().startswith(("http://", "https://", "mailto:")):
        shown = address.split(":", 1)[1] if address.lower().startswith("mailto:") else address
        if words != shown:
            last = element[-1] if len(element) else None
            if last is None:
                element.text = f"{element.text or ''} ({shown})"
            else:
                last.tail = f"{last.tail or ''} ({shown})"


def set_text(file: str, text: str, pattern: Pattern, filling: Filling) -> Markup:
    """The safe markup of a Markdown text; headings begin at h2."""
    slots: list[tuple[Markup, bool]] = []

    def token(markup: Markup, block: bool) -> str:
        slots.append((markup, block))
        return f"\ue000{len(slots) - 1}\ue001"

    def named(match: re.Match[str]) -> str:
        name = match.group(1)
        if name in filling.values:
            return token(quantities(filling.values[name]), False)
        block = filling.blocks(name)
        return token(block, True) if block is not None else match.group(0)

    def picture(address: str, alt: str) -> str:
        path = picture_path(file, address, pattern)
        source = picture_address(pattern.pictures[path]) if path is not None else None
        if source is None:
            return alt
        markup = Markup('<figure class="photo"><img src="{}" alt="{}"></figure>')
        return token(markup.format(source, alt), True)

    prepared = NAME.sub(named, _PRIVATE.sub("", text))
    return _filled(_safe(prepared, picture), slots)


def _safe(text: str, picture: Callable[[str, str], str]) -> str:
    """Markdown as sanitised HTML; raw HTML stays visible text."""
    md = markdown.Markdown(extensions=["tables", "sane_lists", "smarty"], output_format="html")
    md.preprocessors.deregister("html_block")
    md.inlinePatterns.deregister("html")
    md.treeprocessors.register(_Guard(md, picture), "guard", 1)
    html = md.convert(text)
    return nh3.clean(
        html,
        tags=_TAGS,
        attributes={"a": {"href"}, "th": {"scope"}},
        url_schemes=set(),
        link_rel=None,
    )


def _filled(html: str, slots: list[tuple[Markup, bool]]) -> Markup:
    """Tokens replaced; a figure or table inside a paragraph comes after it."""

    def paragraph(match: re.Match[str]) -> str:
        ids = [int(i) for i in _TOKEN.findall(match.group(1)) if slots[int(i)][1]]
        if not ids:
            return match.group(0)
        rest = match.group(1)
        for i in ids:
            rest = rest.replace(f"\ue000{i}\ue001", "")
        bare = re.sub(r"</?span>|\s", "", rest)
        after = "".join(f"\ue000{i}\ue001" for i in ids)
        return (f"<p>{rest}</p>" if bare else "") + after

    html = _LONE.sub(paragraph, html)
    parts = _TEXT_NODE.split(html.replace("<th>", '<th scope="col">'))
    html = "".join(p if p.startswith("<") else _fractions(p) for p in parts)
    return Markup(_TOKEN.sub(lambda m: str(slots[int(m.group(1))][0]), html))


def _fractions(text: str) -> str:
    """Escaped text with true fractions."""
    return str(quantities(Markup(text).unescape()))
