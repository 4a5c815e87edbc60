"""Floor 11, slots: the door to nh3. What others wrote is cleaned first; our pictures are put in afterwards.

While a text or page of another's is set, an empty element `<slot data-n="3">` stands for each thing of
ours. In what nh3 hands back every `<` of a text and every `"` of an attribute is written as a name, so
that those very signs can be nothing but an element: nobody's words are ever taken for a slot.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping

import nh3
from markupsafe import Markup

from booklet.kit.letters import showable
from booklet.kit.records import Record, field

SCHEMES = ("https", "mailto")  # of a link that leaves the booklet
_PART = re.compile(
    r'<slot data-[bn]="(?P<n>\d+)">[^<]*</slot>|(?P<tag><(?:[^">]|"[^"]*")*>)|(?P<text>[^<]+)'
)
_BLOCK = re.compile(r'<slot data-b="\d+">[^<]*</slot>')
_PARAGRAPH = re.compile(r"<p>((?:(?!</p>).)*)</p>", re.DOTALL)
_TEXT_TAGS = {
    "p", "h2", "h3", "h4", "h5", "h6", "ul", "ol", "li", "strong", "em", "code", "pre", "hr", "br",
    "blockquote", "a", "span", "table", "thead", "tbody", "tr", "th", "td", "dl", "dt", "dd", "sup",
}  # fmt: skip
_PAGE_TAGS = _TEXT_TAGS | {
    "article", "aside", "b", "caption", "col", "colgroup", "div", "figcaption", "figure", "footer", "h1", "header",
    "i", "nav", "s", "section", "small", "sub", "tfoot", "u",
}  # fmt: skip
_CELL = {"colspan", "rowspan", "scope"}
_PAGE_ATTRIBUTES = {
    "*": {"class", "id", "lang", "role", "style", "tabindex", "title"},
    "td": _CELL, "th": _CELL, "ol": {"start"}, "col": {"span"},
}  # fmt: skip
_STYLES = {
    "background-color", "color", "font-size", "font-weight", "height", "line-height", "text-align", "top", "width",
    "--wide", "--tall",
}  # fmt: skip


class Slots(Record):
    """The things of ours that have a place in a text or page while it is set."""

    held: list[Markup] = field(default_factory=list)

    def number(self, markup: Markup) -> int:
        """Keep a thing; the number of its slot."""
        self.held.append(markup)
        return len(self.held) - 1

    def hold(self, markup: Markup) -> Markup:
        """Keep a thing; what stands for it. Nothing stands for nothing."""
        if not markup:
            return markup
        return Markup('<slot data-n="{}"></slot>').format(self.number(markup))

    def text(self, html: str, said: Callable[[str], str]) -> Markup:
        """The markup of a text, with what is `said` for its words and each slot filled; a figure or table
        in a paragraph follows it."""
        clean = _cleaned(html, _TEXT_TAGS, {"th": {"scope"}}, set())
        return self._filled(_PARAGRAPH.sub(_blocks_after, clean), said)

    def page(self, html: str) -> Markup:
        """The markup of a page of one's own, with each slot filled."""
        return self._filled(_cleaned(html, _PAGE_TAGS, _PAGE_ATTRIBUTES, {"aria-"}), str)

    def _filled(self, html: str, said: Callable[[str], str]) -> Markup:
        """Cleaned markup, part by part; a slot that nothing was given to stays empty."""

        def part(match: re.Match[str]) -> str:
            if match["n"]:
                number = int(match["n"])
                return str(self.held[number]) if number < len(self.held) else ""
            return match["tag"] or said(match["text"])

        return Markup(_PART.sub(part, html))


def _blocks_after(paragraph: re.Match[str]) -> str:
    """A paragraph with its figures and tables behind it; without the paragraph, if nothing else is in it."""
    words, blocks = _BLOCK.sub("", paragraph[1]), "".join(_BLOCK.findall(paragraph[1]))
    return (f"<p>{words}</p>" if words.strip() or not blocks else "") + blocks


def _cleaned(
    html: str, tags: set[str], attributes: Mapping[str, set[str]], prefixes: set[str]
) -> str:
    """Markup with these tags and attributes only; a link leads to a place, to https or to mail."""
    clean = nh3.clean(
        html,
        tags=tags | {"slot"},
        attributes={**attributes, "a": {"href"}, "slot": {"data-b", "data-n"}},
        generic_attribute_prefixes=prefixes or None,
        url_schemes=set(SCHEMES),
        url_relative=lambda url: url if url.startswith("#") else None,
        filter_style_properties=_STYLES,
        link_rel=None,
    )
    return showable(clean)  # an entity may have named what the text itself may not hold
