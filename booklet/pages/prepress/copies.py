"""Floor 11, copies: the names of a class put into a document that was laid out once.

The document is laid out with all signs of all names where a name belongs, so that the fonts hold each of them and
tell its glyph; then the glyphs of one name after the other take their place, and its title. A name stands on a line
of its own that does not wrap, without kerning and ligatures: nothing else on the page depends on it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any
from xml.sax.saxutils import escape as xml_text

READER = "\uffffname\uffff"
"""Stands for a name until it is put in; sources cannot hold these signs (`letters.py`)."""
LONGEST = 36  # signs: a longer name could run off the paper, and is laid out by itself
_SHOWN = re.compile(rb"\[((?:<[0-9a-f]*>|-?[01])+)\] TJ")  # shifts of a thousandth are of rounding


def signs_of(readers: Sequence[str]) -> str | None:
    """All signs of these names, each once, with a space between if there is one in a name; None where names are
    better laid out one by one."""
    if len(readers) < 2 or max(map(len, readers)) > LONGEST:
        return None
    words = [" ".join(name.split()) for name in readers]
    signs = "".join(dict.fromkeys("".join(words)))
    if words != list(readers) or not _is_plain(signs.replace(" ", "")):
        return None
    bare = signs.replace(" ", "")
    if " " not in signs:
        return bare
    return f"{bare} {bare[0]}"


def _is_plain(signs: str) -> bool:
    """Whether every sign is one glyph, wherever it stands: Latin, Greek and Cyrillic letters, digits, and a few
    marks."""
    return bool(re.fullmatch(r"[0-9A-Za-z\u00c0-\u024f\u0370-\u03ff\u0400-\u04ff.,'’\-]+", signs))


class Copies:
    """A written PDF into which names are put one after the other."""

    def __init__(self, pdf: Any, fonts: Iterable[Any], signs: str) -> None:
        self._pdf, self._signs = pdf, signs
        self._objects = len(pdf.objects)
        self._places = [
            (stream, at, glyphs)
            for stream in pdf.objects
            if isinstance(getattr(stream, "stream", None), list)
            for at, item in enumerate(stream.stream)
            if (glyphs := _glyphs(item, fonts, signs)) is not None
        ]
        self._title = str(pdf.info["Title"].string)
        told = xml_text(signs).encode()
        self._told = [
            (stream, tuple(stream.stream))
            for stream in pdf.objects
            if isinstance(getattr(stream, "stream", None), list)
            and any(
                isinstance(item, bytes) and told in item and b"rdf" in item
                for item in stream.stream
            )
        ]

    @property
    def streams(self) -> Iterator[Any]:
        """What names are written into."""
        yield from (stream for stream, *_ in self._places)
        yield from (stream for stream, _ in self._told)

    @property
    def can(self) -> bool:
        """Whether the name was found, on the page and in the title."""
        return bool(self._places) and self._signs in self._title

    def put(self, name: str) -> None:
        """Put a name in the place of the one before; the PDF can then be written."""
        for stream, at, glyphs in self._places:
            stream.stream[at] = b"[<" + "".join(glyphs[sign] for sign in name).encode() + b">] TJ"
        self._pdf.info["Title"].string = self._title.replace(self._signs, name)
        for stream, items in self._told:
            old, new = (xml_text(text).encode() for text in (self._signs, name))
            stream.stream = [
                item.replace(old, new) if isinstance(item, bytes) else item for item in items
            ]
        del self._pdf.objects[self._objects :]  # what the last writing added
        self._pdf.current_position = 0


def _glyphs(item: Any, fonts: Iterable[Any], signs: str) -> Mapping[str, str] | None:
    """The glyph of every sign, where an item of a stream shows just these signs in one of the fonts."""
    found = _SHOWN.fullmatch(item) if isinstance(item, bytes) else None
    if found is None:
        return None
    digits = b"".join(re.findall(rb"<([0-9a-f]*)>", found[1])).decode()
    glyphs = [digits[n : n + 4] for n in range(0, len(digits), 4)]
    for font in fonts:
        if [font.to_unicode.get(int(glyph, 16)) for glyph in glyphs] == list(signs):
            return dict(zip(signs, glyphs, strict=True))
    return None
