"""Floor 11, letters drawn: which glyph of which font WeasyPrint shows for a sign, and how far it leads on.

WeasyPrint is not asked: it draws each sign once, in a small picture between two other letters, and what it wrote is read.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any
from xml.sax.saxutils import escape

from booklet.drawing.lettering.text_widths import FONT
from booklet.pages.prepress.plain_drawing import Glyph

_BETWEEN = "n"
_SIZE = 100  # of the letters, so that widths are told finely enough
_WORDS = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} 200" width="{width}" height="200" font-family="{font}">'
    '<text x="0" y="100" font-size="{size}" font-weight="{weight}">{text}</text></svg>'
)
_AT = re.compile(r"1 0 0 -1 ([-\d.]+) [-\d.]+ Tm")
_FONT = re.compile(r"/(\S+) [\d.]+ Tf")
_GLYPH = re.compile(r"\[<([0-9a-f]{4})>-?[01]?\] TJ")

Probe = Callable[[bytes], tuple[Iterable[bytes], Mapping[str, Any]]]
"""Has WeasyPrint draw a small picture: the lines that it wrote, and the keys of the fonts by their names there."""


class LettersDrawn:
    """The glyphs of the signs that pictures showed so far, by weight; None for a sign that is not a glyph by itself."""

    def __init__(self) -> None:
        self._known: dict[tuple[int, str], Glyph | None] = {}

    def of(self, probe: Probe, weight: int, text: str) -> Mapping[str, Glyph] | None:
        """The glyphs of all signs of a text; None where one of them has none."""
        signs = dict.fromkeys(text)
        self._learn(probe, weight, [one for one in signs if (weight, one) not in self._known])
        found = {sign: self._known[weight, sign] for sign in signs}
        glyphs = {sign: glyph for sign, glyph in found.items() if glyph is not None}
        return glyphs if len(glyphs) == len(found) else None

    def _learn(self, probe: Probe, weight: int, signs: Sequence[str]) -> None:
        """Have signs drawn; one by one where together they cannot be told apart."""
        if not signs:
            return
        lines, fonts = probe(_words(weight, signs))
        glyphs = _read(lines, signs, fonts)
        if len(glyphs) < len(signs) and len(signs) > 1:
            for sign in signs:
                self._learn(probe, weight, [sign])
            return
        self._known |= {(weight, sign): glyphs.get(sign) for sign in signs}


def _words(weight: int, signs: Sequence[str]) -> bytes:
    """A picture of signs, each between two other letters."""
    text = escape(_BETWEEN + "".join(_BETWEEN + sign for sign in signs) + _BETWEEN)
    width = 2 * _SIZE * len(text)
    return _WORDS.format(width=width, font=FONT, size=_SIZE, weight=weight, text=text).encode(
        "utf-8"
    )


def _read(
    lines: Iterable[bytes], signs: Sequence[str], fonts: Mapping[str, Any]
) -> dict[str, Glyph]:
    """The glyphs of signs, as they were drawn; none where there are more or fewer than signs."""
    shown = list(_shown(lines))
    drawn = iter(shown)
    expected = 2 + len(signs) + sum(not _is_blank(sign) for sign in signs)
    if len(shown) != expected:
        return {}
    first, before = next(drawn)[0], next(drawn)[0]
    between = before - first
    glyphs = {}
    for sign in signs:
        name, number = "", None
        if not _is_blank(sign):
            _, name, number = next(drawn)
        after = next(drawn)[0]
        advance = (after - before - between) * 1000 / _SIZE
        glyphs[sign] = Glyph(fonts.get(name), name, number, advance)
        before = after
    return glyphs


def _is_blank(sign: str) -> bool:
    """Whether WeasyPrint shows nothing for a sign."""
    return not sign.strip()


def _shown(lines: Iterable[bytes]) -> Iterable[tuple[float, str, int]]:
    """Where each glyph stands, the name of its font, and its number."""
    at, name = 0.0, ""
    for line in b"\n".join(lines).decode("ascii").split("\n"):
        if found := _AT.fullmatch(line):
            at = float(found[1])
        elif found := _FONT.fullmatch(line):
            name = found[1]
        elif found := _GLYPH.fullmatch(line):
            yield at, name, int(found[1], 16)
