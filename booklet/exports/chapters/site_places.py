"""Floor 11, site places: what each chapter of a site holds that others lead to: words to find, pieces, ticks and counts,
each with the sizes it is told for. The script of a page, which sees its own chapter only, reads them from one file.
"""

from __future__ import annotations

import html
import re
from collections.abc import Iterable, Iterator, Sequence

from booklet.kit.records import Mutable, field
from booklet.pages.screen.markup import Element, Node, ScreenWords, parsed

_ATTRIBUTE = re.compile(r'\s(class|data-s|data-of)="([^"]*)"')
_WITHIN_WORDS = {"a", "b", "em", "i", "small", "span", "strong", "sub", "sup"}
_UNSEEN = {"svg", "script"}

Tick = tuple[str, ...]  # its key, its sizes and, of blocks that are counted, their title
Piece = tuple[str, str]  # its letter and its sizes


class ChapterPlaces(Mutable):
    """What is told of in one chapter. Sizes are those of `data-s`: numbers with blanks between, all if there are none."""

    words: dict[str, list[str]] = field(default_factory=dict)  # by sizes
    pieces: dict[Piece, None] = field(default_factory=dict)
    ticks: list[Tick] = field(default_factory=list)
    title: str = ""  # the last heading of a block

    @property
    def texts(self) -> list[tuple[str, str]]:
        """The words of the chapter in one line and in small letters, for each group of sizes."""
        lines = ((sizes, " ".join("".join(words).split())) for sizes, words in self.words.items())
        return [(sizes, line.casefold()) for sizes, line in lines if line]

    def read(self, nodes: Iterable[Node], sizes: str = "") -> None:
        """Take in what nodes tell of, in order."""
        for node in nodes:
            if isinstance(node, ScreenWords):
                self.words.setdefault(sizes, []).append(html.unescape(node.source))
            elif node.name not in _UNSEEN:
                self._element(node, sizes)

    def _element(self, element: Element, sizes: str) -> None:
        said = dict(_ATTRIBUTE.findall(element.opening))
        looks = said.get("class", "").split()
        if "sr" in looks:
            return
        sizes = said.get("data-s", sizes)
        if "depth-1" in looks:
            self.title = _plain(element)
        for key in html.unescape(said.get("data-of", "")).split():
            self._key(element.name, key, sizes)
        self.read(element.children, sizes)
        if element.name not in _WITHIN_WORDS:
            self.words.setdefault(sizes, []).append(" ")

    def _key(self, name: str, key: str, sizes: str) -> None:
        """Take in one thing that an element tells of."""
        kind, _, rest = key.partition("/")
        if kind == "tick":
            self.ticks.append((key, sizes))
        elif kind == "count":
            self.ticks.append((key, sizes, self.title))
        elif (name, kind) in (("tr", "cut"), ("figure", "patch")):
            self.pieces[rest.rpartition("/")[2], sizes] = None


def places_of(markup: str) -> ChapterPlaces:
    """What is told of in the markup of a chapter."""
    found = ChapterPlaces()
    found.read(parsed(markup))
    return found


def _plain(element: Element) -> str:
    return " ".join("".join(_words(element)).split())


def _words(element: Element) -> Iterator[str]:
    for node in element.children:
        if isinstance(node, ScreenWords):
            yield html.unescape(node.source)
        else:
            yield from _words(node)


def told_once(rows: Sequence[Sequence[Tick]]) -> tuple[list[Sequence[Tick]], list[int]]:
    """Equal lists once, and which of them each view has."""
    once: list[Sequence[Tick]] = []
    for row in rows:
        if row not in once:
            once.append(row)
    return once, [once.index(row) for row in rows]
