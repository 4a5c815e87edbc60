"""Floor 11, chapters: a web page cut at its parts, for books and sites: each part a file of its own, links that lead to the
file where their target stands, and pictures and fonts that addresses carry as files beside them.
"""

from __future__ import annotations

import base64
import binascii
import hashlib
import html
import re
from collections.abc import Iterable, Iterator, Mapping

from markupsafe import Markup

from booklet.kit.records import Mutable, Record, field

_HEAD = re.compile(r"<(h[12])\b[^>]*>(.*?)</\1>", re.DOTALL)
_LABEL = re.compile(r'^\s*<[^>]*\saria-label="([^"]*)"')
_ID = re.compile(r'\sid="([^"]+)"')
_LINK = re.compile(r'(<a\b[^>]*?\shref=")(#[^"]+)"')
_DATA = re.compile(r"data:(image/png|image/jpeg|image/svg\+xml|font/woff2?);base64,([\w+/=]*)")
_ENDINGS = {
    "image/png": "png", "image/jpeg": "jpg", "image/svg+xml": "svg", "font/woff": "woff", "font/woff2": "woff2",
}  # fmt: skip


class BookChapter(Record):
    """A part of a page on its way: its file, its title and what is in it."""

    file: str
    title: str
    markup: str

    def names(self) -> Iterator[str]:
        """The names of places in it that links can lead to."""
        return map(html.unescape, _ID.findall(self.markup))


def chapter(file: str, markup: str, fallback: str) -> BookChapter:
    """A part of a page as a chapter; its title is its first heading (h1 before h2), else the label of the part, else
    `fallback`."""
    heads = sorted(_HEAD.findall(markup), key=lambda found: str(found[0]))
    titles = (Markup(words).striptags() for _, words in heads)
    label = _LABEL.search(markup)
    title = next(filter(None, titles), "") or (html.unescape(label[1]) if label else "")
    return BookChapter(file, title or fallback, markup)


def homes_of(chapters: Iterable[BookChapter]) -> dict[str, str]:
    """The file in which each name stands."""
    return {name: each.file for each in chapters for name in each.names()}


def address(value: str, file: str, homes: Mapping[str, str]) -> str:
    """The address of a place, seen from a file."""
    home = homes.get(value[1:], file) if value.startswith("#") else file
    return value if home == file else home + value


def linked(markup: str, file: str, homes: Mapping[str, str]) -> str:
    """Markup of a file whose links lead to the files where their targets stand."""
    return _LINK.sub(lambda a: f'{a[1]}{address(html.unescape(a[2]), file, homes)}"', markup)


class FilesBeside(Mutable):
    """Pictures and fonts as files of their own, each once: named by what is in them."""

    files: dict[str, bytes] = field(default_factory=dict)

    def without_data(self, text: str) -> str:
        """A text with names of files where addresses carried pictures or fonts."""
        return _DATA.sub(self._kept, text)

    def _kept(self, found: re.Match[str]) -> str:
        try:
            data = base64.b64decode(found[2])
        except binascii.Error:
            return found[0]
        name = f"{found[1][0]}{hashlib.sha256(data).hexdigest()[:16]}.{_ENDINGS[found[1]]}"
        self.files[name] = data
        return name
