"""Floor 11, forms: a picture is drawn once for all papers and editions.

WeasyPrint draws a picture anew wherever it stands. What it drew is kept here as a form, which PDF can show any number
of times, with the glyphs it needs; the next document that shows the same picture gets the form without drawing. The
first one gets it too, so that a document's bytes do not depend on what was made before.

This leans on the insides of the WeasyPrint that is pinned; `tests/test_drawn_once.py` compares the pages with those drawn
without it.
"""

from __future__ import annotations

import copy
import hashlib
import zlib
from collections import OrderedDict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any

KEPT = 48 * 2**20
"""How many bytes of drawn pictures are kept; the one used longest ago goes first."""
_OWN = 2_000  # bytes of a form's own objects, roughly
_PLAIN_STATES = {"CA", "ca"}  # what our own pictures set; anything more is left to WeasyPrint


@dataclass(frozen=True, slots=True)
class _Repeat:
    """How far apart the tiles of a pattern stand, and how it is turned and shifted."""

    across: float
    down: float
    values: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Form:
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


@dataclass(frozen=True, slots=True)
class _Drawn:
    """A form and the fonts it shows, with the glyphs it needs of them."""

    form: _Form
    fonts: Mapping[Any, Any]


class _Bound(Exception):
    """A picture has something in it that belongs to its document: a photograph, a mask, a sign no font has."""


class Forms:
    """The pictures drawn in this run, by address and size."""

    def __init__(self) -> None:
        self._drawn: OrderedDict[tuple[bytes, float, float], _Drawn | None] = OrderedDict()
        self._bytes = 0

    def images(self) -> dict[str, Any]:
        """A document's own images, for WeasyPrint's `cache`: pictures among them are drawn through these forms."""
        return _Images(self)

    def draw(
        self, sign: bytes, plain: Any, stream: Any, width: float, height: float, style: Any
    ) -> None:
        """Show a picture on a page; `plain` is how WeasyPrint draws it."""
        key = (sign, width, height)
        if key not in self._drawn:
            self._keep(key, _drawn(plain, stream, width, height, style))
        self._drawn.move_to_end(key)
        if (drawn := self._drawn[key]) is None:
            plain(stream, width, height, style)
            return
        _put_fonts(drawn.fonts, stream)
        shown = stream.add_group(0, 0, 0, 0)
        del shown.extra["Group"]  # drawn on the page as it is, not set apart first
        _fill(shown, drawn.form)
        stream.draw_x_object(shown.id)

    def _keep(self, key: tuple[bytes, float, float], drawn: _Drawn | None) -> None:
        self._drawn[key] = drawn
        self._bytes += _size(drawn)
        while self._bytes > KEPT:
            self._bytes -= _size(self._drawn.popitem(last=False)[1])


class _Images(dict[str, Any]):
    """Takes care that each picture that comes in is drawn through the forms."""

    def __init__(self, forms: Forms) -> None:
        super().__init__()
        self._forms = forms

    def __setitem__(self, url: str, image: Any) -> None:
        """Keep one image."""
        if hasattr(image, "_svg"):
            sign = hashlib.sha256(url.encode("utf-8")).digest()
            image.draw = partial(self._forms.draw, sign, image.draw)
        super().__setitem__(url, image)


def _size(drawn: _Drawn | None) -> int:
    return drawn.form.size() if drawn else _OWN


def _drawn(plain: Any, stream: Any, width: float, height: float, style: Any) -> _Drawn | None:
    """A picture drawn by itself, on a stream of no document; None where it cannot be taken out of one."""
    fonts: dict[Any, Any] = {}
    images: dict[Any, Any] = {}
    kinds = ("ExtGState", "XObject", "Pattern", "Shading")
    resources: dict[str, Any] = {kind: {} for kind in kinds} | {"ColorSpace": None}
    # wider than the picture, since lines along its edge stand out by half their width
    extra = {"BBox": [-width, -height, 2 * width, 2 * height], "Resources": resources}
    aside = type(stream)(
        fonts, stream.page_rectangle, resources, images, None, {}, None, extra=extra
    )
    plain(aside, width, height, style)
    if images or not all(map(_is_plain, fonts.values())):
        return None
    try:
        return _Drawn(_form(aside), {key: _pristine(font) for key, font in fonts.items()})
    except _Bound:
        return None


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
    items = (
        item if isinstance(item, bytes) else str(item).encode("ascii") for item in stream.stream
    )
    return _Form(
        packed=zlib.compress(b"\n".join(items), 9),
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
