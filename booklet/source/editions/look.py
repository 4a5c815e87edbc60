"""Floor 2: `look` of `booklet`: colours, the font of titles, a logo, titles of pages, texts about them."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import TypeVar

from booklet.kit.diagnostic import Span
from booklet.pattern import Look, Page, Tint
from booklet.source.faults import near
from booklet.source.files.page_names import PAGES
from booklet.source.tree.node import Map, Node, Text, shortened
from booklet.source.values.fields import Fields, Key, Table
from booklet.source.values.kinds import Kind, Reading, colour, text, wrong_kind
from booklet.source.values.wordings import wording

T = TypeVar("T")
TITLED = tuple(name for name in PAGES if name != "cover")


def _tint(node: Node, what: str, reading: Reading) -> Tint | None:
    found = colour().read(node, what, reading)
    return Tint(found, node.span) if found is not None else None


def _text_file(node: Node, what: str, reading: Reading) -> Page | None:
    name = text(longest=200).read(node, what, reading)
    if name is None or name.endswith(".md"):
        return Page(name, node.span) if name else None
    wrong_kind(node, what, "a text file ending in `.md`", reading)
    return None


def _by_page(item: Kind[T], words: str) -> Kind[Mapping[str, T]]:
    """A value for each page that is named."""

    def read(node: Node, what: str, reading: Reading) -> Mapping[str, T] | None:
        if not isinstance(node, Map):
            wrong_kind(node, what, words, reading)
            return None
        pairs = (
            (_titled(key, reading), item.read(value, what, reading)) for key, value in node.entries
        )
        return MappingProxyType(
            {name: value for name, value in pairs if name and value is not None}
        )

    names = {"enum": list(TITLED)}
    schema = {"type": "object", "propertyNames": names, "additionalProperties": item.schema}
    return Kind(words, read, schema)


def _titled(key: Text, reading: Reading) -> str:
    """The name of a page that has a title; nothing, with a fault, where there is none."""
    if key.value in TITLED:
        return key.value
    message = f"there is no page `{shortened(key.value)}` with a title"
    reading.faults.add("unknown-name", message, key.span, near(key.value, TITLED))
    return ""


_FONT_WORDS = "`serif`, `sans` or a font of the folder such as `fonts/mine.ttf`"


def _font(node: Node, what: str, reading: Reading) -> str | None:
    said = text(longest=200).read(node, what, reading)
    if said is None or said in FONTS:
        return said
    if not said.lower().endswith(FONT_ENDINGS):
        hint = near(said, FONTS) if len(said) < 9 else None
        wrong_kind(node, what, _FONT_WORDS, reading, hint)
        return None
    reading.fonts.setdefault(said, node.span)
    return said


def _own_font(node: Node, what: str, reading: Reading) -> str | None:
    said = text(longest=200).read(node, what, reading)
    if said is not None and not said.lower().endswith(FONT_ENDINGS):
        wrong_kind(node, what, _OWN_FONT_WORDS, reading)
        return None
    if said is not None:
        reading.fonts.setdefault(said, node.span)
    return said


_OWN_FONT_WORDS = "a font of the folder such as `fonts/mine-italic.ttf`"
FONTS = ("serif", "sans")
FONT_ENDINGS = (".ttf", ".otf", ".woff")
_FONT = Kind(_FONT_WORDS, _font, {"type": "string"})
_OWN_FONT = Kind(_OWN_FONT_WORDS, _own_font, {"type": "string"})
_TINT = Kind(colour().words, _tint, colour().schema)
_FILE = Kind("a text file", _text_file, {"type": "string", "pattern": r"\.md$"})
_FILES = _by_page(_FILE, "a text for each page, as in `{cutting: text/blades.md}`")
TITLE_COLOUR = Key("title colour", _TINT, "The colour of titles.")
TITLE_FONT = Key(
    "title font",
    _FONT,
    "The font of titles: serif, sans, or a font in the folder (TTF, OTF or WOFF) that may be embedded; that of the text if left out.",
)
TEXT_FONT = Key(
    "text font",
    _FONT,
    "The font of running text and of the names of blocks and steps, likewise; tables, pictures, step cards and the words of steps keep the booklet's own.",
    default="serif",
)
TEXT_ITALIC = Key(
    "text italic",
    _OWN_FONT,
    "The slanted face of a `text font` of yours, for what is emphasised; the booklet's own serif if left out.",
)
TEXT_BOLD = Key("text bold", _OWN_FONT, "Its bold face, likewise.")
GROUND = Key("ground", _TINT, "The pale ground of the cover's wall, of notes and of marked lines.")
LOGO = Key("logo", text(longest=200), "A picture (PNG or JPEG) in the folder, for the cover.")
TITLES = Key(
    "titles",
    _by_page(wording("a title", longest=80), "a title for each page, as in `{notes: My diary}`"),
    "Titles of your own for pages, by the page's name.",
)
BEFORE = Key("before", _FILES, "Texts of the folder at the beginning of pages, by the page's name.")
AFTER = Key("after", _FILES, "Texts of the folder at the end of pages, by the page's name.")
LOOK = Table(
    "look",
    "How the booklet looks.",
    (
        TITLE_COLOUR,
        TITLE_FONT,
        TEXT_FONT,
        TEXT_ITALIC,
        TEXT_BOLD,
        GROUND,
        LOGO,
        TITLES,
        BEFORE,
        AFTER,
    ),
)


def read_look(node: Map | None, where: Span, reading: Reading) -> Look:
    """The look; the booklet's own where nothing is written."""
    fields = Fields(node or Map((), where), LOOK, "`look` of `booklet`", where, reading)
    text_font = fields.get(TEXT_FONT) or "serif"
    for key in (TEXT_ITALIC, TEXT_BOLD):
        if fields.has(key) and text_font in FONTS:
            message = f"`look` has `{key.name}`, but its `text font` is none of yours"
            hint = "name it, as in `text font: fonts/mine.ttf`, or take this out"
            reading.faults.add("conflicting-keys", message, fields.span(key), hint)
    logo = fields.get(LOGO)
    if logo is not None:
        reading.pictures.setdefault(logo, fields.span(LOGO))
    return Look(
        title_colour=fields.get(TITLE_COLOUR),
        title_font=fields.get(TITLE_FONT) or "",
        text_font=text_font,
        text_italic=fields.get(TEXT_ITALIC) or "",
        text_bold=fields.get(TEXT_BOLD) or "",
        ground=fields.get(GROUND),
        logo=logo,
        titles=fields.get(TITLES) or MappingProxyType({}),
        before=fields.get(BEFORE) or MappingProxyType({}),
        after=fields.get(AFTER) or MappingProxyType({}),
    )
