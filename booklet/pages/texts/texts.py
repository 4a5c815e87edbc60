"""Floor 11, texts: a designer's Markdown becomes safe markup with values and figures in it.

A text is a stranger's: no template engine ever sees it. Raw HTML is shown as it was typed, pictures come
only from the folder. Markdown becomes a tree in which a name in `{{ }}` is a slot; the tree's markup is
cleaned, and only then the slots are filled (`slots.py`).
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from xml.etree.ElementTree import Element

import markdown
from markdown.inlinepatterns import InlineProcessor
from markdown.treeprocessors import Treeprocessor
from markdown.util import AtomicString
from markupsafe import Markup

from booklet.kit.records import Record, field
from booklet.pages.texts.slots import SCHEMES, Slots
from booklet.pages.texts.text_faults import NAME, picture_address, picture_path
from booklet.pages.texts.true_fractions import quantities
from booklet.pages.texts.values import is_sized
from booklet.pattern import Pattern


class Filling(Record):
    """What may stand in a text: plain values, and blocks (figures, tables) made when asked for."""

    values: Mapping[str, str]
    blocks: Callable[[str], Markup | None] = field(default=lambda name: None)


def needs_size(text: str) -> bool:
    """Whether a text says something that differs from size to size."""
    return any(is_sized(match.group(1)) for match in NAME.finditer(text))


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
        self,
        md: markdown.Markdown,
        picture: Callable[[str, str], Element],
        slots: Slots,
        top: int | None,
    ) -> None:
        super().__init__(md)
        self.picture, self.slots, self.top = picture, slots, top

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
                elif element.tag == "li" and (element.text or "").startswith(("[ ] ", "[x] ")):
                    self.tick(element)
                elif element.tag == "th":
                    element.set("scope", "col")
                elif element.tag == "img":
                    parent[at] = self.picture(element.get("src", ""), element.get("alt", ""))
                    parent[at].tail = element.tail

    def tick(self, element: Element) -> None:
        """Put a box to tick in the place of `[ ]` at the beginning of an entry, a ticked one for `[x]`."""
        text = element.text or ""
        box = _slot(self.slots, BOXES[text[1]])
        element.text, box.tail = "", text[3:]
        element.insert(0, box)


BOXES = {
    " ": Markup('<span class="box" role="img" aria-label="\u2610"></span>'),
    "x": Markup('<span class="box ticked" role="img" aria-label="\u2611">\u2713</span>'),
}
"""A box to tick, and one that is ticked."""


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


def our_text(text: str) -> Markup:
    """The markup of a Markdown text of our own: what rules and keys mean."""
    return Markup(markdown.markdown(text, extensions=["sane_lists", "fenced_code"]))


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
    md.treeprocessors.register(_Guard(md, picture, slots, top), "guard", 1)
    return slots.text(md.convert(text), lambda words: str(quantities(Markup(words).unescape())))
