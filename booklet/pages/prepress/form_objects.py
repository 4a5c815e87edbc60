"""Floor 11, form objects: a picture is drawn once for all papers and editions.

WeasyPrint draws a picture anew wherever it stands. Here it is kept as a form, which PDF can show any number of times, with the
glyphs it needs; the next document that shows the same picture gets the form without drawing. The first one gets it too, so that
a document's bytes do not depend on what was made before. A picture of ours is spelled as PDF (`plain_drawing.py`); of any other
what WeasyPrint drew is kept.

Of a picture that waits to be drawn only its outer element is held: a page of pictures has a hundred times the elements
of its words, and their styles ten times that. What was parsed for drawing is let go of at once.

This leans on the insides of the WeasyPrint that is pinned; `tests/test_drawn_once.py` compares the pages with those drawn
without it.
"""

from __future__ import annotations

import base64
import copy
import gc
import hashlib
import re
from collections import OrderedDict
from collections.abc import Mapping, Sequence
from contextlib import closing
from functools import partial
from typing import Any
from xml.etree import ElementTree

from booklet.kit.records import Record
from booklet.pages.prepress.letters_drawn import LettersDrawn
from booklet.pages.prepress.packing import packed
from booklet.pages.prepress.plain_drawing import Hatch, PlainDrawing, plain_drawing

KEPT = 48 * 2**20
"""How many bytes of drawn pictures are kept; the one used longest ago goes first."""
_OWN = 2_000  # bytes of a form's own objects, roughly
_ROUND = (
    100  # pictures, after which what drawing them left is collected; parts of it hold each other
)
_PLAIN_STATES = {"CA", "ca"}  # what our own pictures set; anything more is left to WeasyPrint
_ADDRESS = re.compile(r'(?<= src=")data:image/svg\+xml;base64,[^"]*(?=")')
_UNSEEN = re.compile(rb'<(title|desc)\b.*?</\1>| aria-labelledby="[^"]*"', re.DOTALL)
_NAME = re.compile(rb'^<svg [^>]*?\bid="([^"]+)"')
_SHORT = "data:image/svg+xml;aside,"  # no picture of a page has such an address: it names no way of writing bytes


def set_aside(html: str) -> tuple[str, dict[str, str]]:
    """A page whose drawings stand under short addresses, and their own addresses by these: what is parsed and kept as
    attributes, keys and styles is then the page without them."""
    pictures: dict[str, str] = {}
    shorter: dict[str, str] = {}

    def short(found: re.Match[str]) -> str:
        own = found[0]
        if own not in shorter:
            shorter[own] = f"{_SHORT}{len(shorter)}"
            pictures[shorter[own]] = own
        return shorter[own]

    return _ADDRESS.sub(short, html), pictures


class _Repeat(Record):
    """How far apart the tiles of a pattern stand, and how it is turned and shifted."""

    across: float
    down: float
    values: tuple[float, ...]


class _Form(Record, kw_only=True):
    """What was drawn: the packed stream, its box, and its states and parts by their names in the stream."""

    packed: bytes
    box: Sequence[float]
    states: Mapping[str, Any]
    forms: Mapping[str, _Form]
    patterns: Mapping[str, tuple[_Repeat, _Form]]

    def size(self) -> int:
        """About how many bytes it takes."""
        parts = (*self.forms.values(), *(part for _, part in self.patterns.values()))
        return _OWN + len(self.packed) + sum(part.size() for part in parts)


class _Drawn(Record):
    """A form and the fonts it shows, with the glyphs it needs of them."""

    form: _Form
    fonts: Mapping[Any, Any]


class _Place(Record, kw_only=True):
    """Where a picture is shown: on a stream, so wide and high; `faces` are the fonts known so far."""

    stream: Any
    width: float
    height: float
    style: Any
    faces: dict[Any, Any]

    @property
    def box(self) -> list[float]:
        """The box of the form: wider than the picture, since lines along its edge stand out by half their width."""
        return [-self.width, -self.height, 2 * self.width, 2 * self.height]

    def aside(self) -> Any:
        """A stream of no document."""
        kinds = ("ExtGState", "XObject", "Pattern", "Shading")
        resources: dict[str, Any] = {kind: {} for kind in kinds} | {"ColorSpace": None}
        kind, rectangle = type(self.stream), self.stream.page_rectangle
        extra = {"BBox": self.box, "Resources": resources}
        return kind(_Fonts(self.faces), rectangle, resources, {}, None, {}, None, extra=extra)


class _Waiting(Record, kw_only=True):
    """A picture that is not drawn yet: WeasyPrint's image, held as its outer element, and its address."""

    image: Any
    url: str
    address: str

    def svg(self) -> bytes:
        """The picture as it was written; nothing where its address does not hold it in the usual way."""
        head, _, data = self.address.partition(";base64,")
        return base64.b64decode(data) if head == "data:image/svg+xml" else b""

    def draw(self, stream: Any, place: _Place) -> None:
        """Draw it as WeasyPrint does, from its address."""
        with closing(self.image._url_fetcher.fetch(self.url)) as response:
            self.draw_other(response.read(), stream, place)

    def draw_other(self, svg: bytes, stream: Any, place: _Place) -> None:
        """Draw another picture as WeasyPrint draws this one."""
        image, tree = self.image, ElementTree.fromstring(svg)
        whole = type(image)(tree, image._base_url, image._url_fetcher, image._context)
        whole.draw(stream, place.width, place.height, place.style)


class _Bound(Exception):
    """A picture has something in it that belongs to its document: a photograph, a mask, a sign no font has."""


class FormObjects:
    """The pictures drawn in this run, by address and size."""

    def __init__(self) -> None:
        self._drawn: OrderedDict[tuple[bytes, float, float], _Drawn | None] = OrderedDict()
        self._bytes = self._made = 0
        self._faces: dict[Any, Any] = {}
        self._letters = LettersDrawn()

    def images(self, pictures: Mapping[str, str]) -> dict[str, Any]:
        """A document's own images, for WeasyPrint's `cache`: pictures among them are drawn through these forms. `pictures` are
        addresses by those that were set in their place."""
        return _Images(self, pictures)

    def draw(
        self, sign: bytes, picture: _Waiting, stream: Any, width: float, height: float, style: Any
    ) -> None:
        """Show a picture on a page."""
        key = (sign, width, height)
        place = _Place(stream=stream, width=width, height=height, style=style, faces=self._faces)
        if key not in self._drawn:
            self._keep(key, self._ours(picture, place) or self._left(picture, place))
        self._drawn.move_to_end(key)
        if (drawn := self._drawn[key]) is None:
            picture.draw(stream, place)
            return
        _put_fonts(drawn.fonts, stream)
        shown = stream.add_group(0, 0, 0, 0)
        del shown.extra["Group"]  # drawn on the page as it is, not set apart first
        _fill(shown, drawn.form)
        stream.draw_x_object(shown.id)

    def _ours(self, picture: _Waiting, place: _Place) -> _Drawn | None:
        """A picture of ours; None for any other."""

        def probe(svg: bytes) -> tuple[list[bytes], dict[str, Any]]:
            stream = place.aside()
            picture.draw_other(svg, stream, place)
            fonts = stream._fonts
            lines = stream.stream if all(map(_is_plain, fonts.values())) else []
            return lines, {font.hash: key for key, font in fonts.items()}

        letters = partial(self._letters.of, probe)
        made = plain_drawing(picture.svg(), place.width, place.height, letters)
        return None if made is None else _of_ours(made, place)

    def _left(self, picture: _Waiting, place: _Place) -> _Drawn | None:
        """A picture that is left to WeasyPrint."""
        self._made += 1
        if self._made % _ROUND == 0:
            gc.collect(0)
        return _drawn(picture, place)

    def _keep(self, key: tuple[bytes, float, float], drawn: _Drawn | None) -> None:
        self._drawn[key] = drawn
        self._bytes += _size(drawn)
        while self._bytes > KEPT:
            self._bytes -= _size(self._drawn.popitem(last=False)[1])


class _Context:
    """What drawing a picture asks of the context of its layout, which holds the styles of all elements."""

    def __init__(self, context: Any) -> None:
        self.font_config, self.dictionaries = context.font_config, context.dictionaries
        self.get_image_from_uri = partial(context.get_image_from_uri, context=self)


class _Images(dict[str, Any]):
    """Takes care that each picture that comes in is drawn through the forms, and held as its outer element."""

    def __init__(self, forms: FormObjects, pictures: Mapping[str, str]) -> None:
        super().__init__()
        self._forms, self._pictures = forms, pictures
        self._context: _Context | None = None

    def __setitem__(self, url: str, image: Any) -> None:
        """Keep one image."""
        if hasattr(image, "_svg"):
            address = self._pictures.get(url, url)
            picture = _Waiting(image=image, url=url, address=address)
            image.draw = partial(self._forms.draw, _sign(address), picture)
            _empty(image)
            self._context = self._context or _Context(image._context)
            image._context = self._context
        super().__setitem__(url, image)


def _sign(address: str) -> bytes:
    """What tells a picture from those that look otherwise: all of it but its words for whoever does not see it, and its
    name, so that what is alike in several sizes is drawn once."""
    head, _, data = address.partition(";base64,")
    if not data:
        return hashlib.sha256(head.encode("utf-8")).digest()
    picture = _UNSEEN.sub(b"", base64.b64decode(data))
    if (name := _NAME.search(picture)) is not None:
        own = re.escape(name[1])
        picture = re.sub(
            rb'(?<= id=")' + own + rb"|(?<=url\(#)" + own + rb'|(?<="#)' + own, b"", picture
        )
    return hashlib.sha256(picture).digest()


def _empty(image: Any) -> None:
    """Let go of all of a picture but what says how large it is."""
    svg = image._svg
    outer = ElementTree.Element(svg.tree._etree_node.tag, svg.tree.attrib)
    image._svg = type(svg)(outer, svg.url, svg.font_config, svg.url_fetcher)
    svg.__dict__.clear()  # its parts hold it, and the collector may rest


def _size(drawn: _Drawn | None) -> int:
    return drawn.form.size() if drawn else _OWN


class _Fonts(dict[Any, Any]):
    """The fonts of one picture, in the order in which it shows them. A font that an earlier picture has shown is not read
    again: its file is larger than the picture, and is held once for all."""

    def __init__(self, faces: dict[Any, Any]) -> None:
        super().__init__()
        self._faces = faces

    def __contains__(self, key: object) -> bool:
        """Whether there is such a font; one that is known comes in when it is asked for."""
        if not super().__contains__(key) and key in self._faces:
            super().__setitem__(key, _pristine(self._faces[key]))
        return super().__contains__(key)

    def __setitem__(self, key: Any, font: Any) -> None:
        """Take in a font that was read, and let it be known; one of coloured signs draws them of its own."""
        if not (font.bitmap or font.png or font.svg or font.colr):
            self._faces[key] = _pristine(font)
        super().__setitem__(key, font)


def _drawn(picture: _Waiting, place: _Place) -> _Drawn | None:
    """A picture drawn by WeasyPrint, by itself; None where it cannot be taken out of a document."""
    stream = place.aside()
    picture.draw(stream, place)
    fonts = stream._fonts
    if stream._images or not all(map(_is_plain, fonts.values())):
        return None
    try:
        return _Drawn(_form(stream), {key: _pristine(font) for key, font in fonts.items()})
    except _Bound:
        return None


def _of_ours(made: PlainDrawing, place: _Place) -> _Drawn:
    """A picture of ours as a form."""
    fonts = {}
    for key, shown in made.shown.items():
        font = fonts[key] = _pristine(place.faces[key])
        font.to_unicode = {glyph: sign for glyph, (sign, _) in shown.items()}
        font.widths = {glyph: round(advance) for glyph, (_, advance) in shown.items()}
    patterns = {name: _of_hatch(hatch) for name, hatch in made.hatches.items()}
    return _Drawn(_plain_form(made.lines, place.box, patterns), fonts)


def _of_hatch(hatch: Hatch) -> tuple[_Repeat, _Form]:
    tile = _plain_form(hatch.lines, (0, 0, *hatch.tile), {})
    return _Repeat(*hatch.tile, hatch.matrix), tile


def _plain_form(
    lines: bytes, box: Sequence[float], patterns: Mapping[str, tuple[_Repeat, _Form]]
) -> _Form:
    return _Form(packed=packed([lines]), box=box, states={}, forms={}, patterns=patterns)


def _is_plain(font: Any) -> bool:
    """Whether a font is outlines only and has every sign it was asked for."""
    return not (font.missing or font.bitmap or font.png or font.svg or font.colr)


def _pristine(font: Any) -> Any:
    """A font as it was before a document took it for itself, with its own glyphs."""
    twin = copy.copy(font)
    twin.hb_font = None  # not ours to keep; only pictures of signs ask for it
    twin.widths, twin.to_unicode, twin.missing = dict(font.widths), dict(font.to_unicode), {}
    twin.variations = dict(font.variations)
    return twin


def _form(stream: Any) -> _Form:
    """The form of a stream. Raises _Bound."""
    resources = stream.extra["Resources"]
    states = resources["ExtGState"]
    parts = (*resources["XObject"].values(), *resources["Pattern"].values())
    if resources["Shading"] or any(set(state) - _PLAIN_STATES for state in states.values()):
        raise _Bound
    if any(part is None for part in parts):
        raise _Bound
    return _Form(
        packed=packed(stream.stream),
        box=tuple(stream.extra["BBox"]),
        states=dict(states),
        forms={name: _form(part) for name, part in resources["XObject"].items()},
        patterns={
            name: (_repeat(part.extra), _form(part)) for name, part in resources["Pattern"].items()
        },
    )


def _repeat(extra: Mapping[str, Any]) -> _Repeat:
    return _Repeat(extra["XStep"], extra["YStep"], tuple(extra["Matrix"]))


def _put_fonts(fonts: Mapping[Any, Any], stream: Any) -> None:
    """Let a document have the glyphs that a form shows."""
    for key, font in fonts.items():
        if (mine := stream._fonts.get(key)) is None:
            stream._fonts[key] = _pristine(font)
            continue
        for glyph, text in font.to_unicode.items():
            mine.to_unicode.setdefault(glyph, text)
        for glyph, width in font.widths.items():
            mine.widths.setdefault(glyph, width)


def _fill(made: Any, form: _Form) -> None:
    """Make a new stream of a document show what a form shows."""
    resources = made.extra["Resources"]
    made.stream, made.compress = [form.packed], False
    made.extra["Filter"] = "/FlateDecode"
    made.extra["BBox"][:] = form.box
    for name, state in form.states.items():
        resources["ExtGState"][name] = type(state)(state)
    for name, part in form.forms.items():
        _fill(_named(made.add_group(0, 0, 0, 0), name, resources["XObject"]), part)
    for name, (repeat, part) in form.patterns.items():
        pattern = made.add_pattern(0, 0, 0, 0, repeat.across, repeat.down, repeat)
        _fill(_named(pattern, name, resources["Pattern"]), part)


def _named(part: Any, name: str, among: dict[str, Any]) -> Any:
    """A part of a stream under the name that it has in the form."""
    among[name] = among.pop(part.id)
    return part
