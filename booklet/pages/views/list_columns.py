"""Floor 11, list columns: which entries of a list begin a column where it stands in several on paper.

A typesetter finds columns of one height by trying: it laid each list out ten times. What an entry takes is reckoned from the
widths of its letters instead; a figure that is a little off makes columns a little uneven, and nothing else.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import accumulate
from typing import Any

from markupsafe import Markup

from booklet.drawing.lettering.text_widths import text_width, wrapped
from booklet.kit.measure import POINT_MM
from booklet.kit.outlines.near import NOISE
from booklet.kit.records import Record
from booklet.pages.style.paper import Sheet

_BESIDE, _CAPTION, _BETWEEN = 13.5, 16.5, 13.5  # of a sum: before figures, its title, after it


class _Columns(Record, kw_only=True):
    """How a list is set (`style.css`), in points: what stands `between` two entries and below the last, how many columns there
    are on a large and on a small page, which shares of the page's measure and depth it may take, and the words of an entry."""

    type: float
    line: float
    between: float
    gap: float
    counts: tuple[int, int]
    below: float = 0.0  # the last entry
    measure: float = 1.0
    depth: float = 1 / 3  # a list that is shared out is not broken: more would leave a page empty
    words: Callable[[Any], str] = Markup.striptags

    def height(self, entry: Any, wide: float) -> float:
        """What an entry takes in a column of this width."""
        return self.line * self.rows(self.words(entry), wide) + self.between

    def rows(self, words: str, wide: float) -> int:
        """The lines that some words fill."""
        return len(wrapped(words, self.type, wide * POINT_MM))


class _Sums(_Columns):
    """Sums of cloth, each a table with a title and what is bought."""

    def height(self, entry: Any, wide: float) -> float:
        """What a sum takes with all its lines."""
        shown = [(line.words.striptags(), line.figure.striptags()) for line in entry[1]]
        figures = max((text_width(figure, self.type) for _, figure in shown), default=0.0)
        left = wide - figures / POINT_MM - _BESIDE
        rows = sum(self.rows(words, left) for words, _ in shown)
        return _CAPTION + self.line * (rows + 1) + _BETWEEN


_LISTS = {
    "amounts": _Sums(type=8.5, line=12, between=0, gap=20.25, counts=(3, 1), depth=0.75),
    "card": _Columns(
        type=9.5,
        line=13.5,
        between=3.375,
        gap=14.2,
        counts=(2, 1),
        below=27,
        words=lambda line: line[1],
    ),
    "glossary": _Columns(
        type=8.5, line=13.5, between=6.75, gap=20.25, counts=(3, 1), depth=0.75, words=" ".join
    ),
    "sums": _Columns(type=8, line=10.8, between=2, gap=20, counts=(2, 2)),
    "tools": _Columns(type=9.5, line=13.5, between=0, gap=20.25, counts=(2, 2), measure=0.7),
}


def column_begins(name: str, entries: Sequence[Any], sheet: Sheet) -> frozenset[int]:
    """The places of the entries of a list that begin a column after the first; none where it is set in one, or takes so
    much of a page that it may break over two."""
    how = _LISTS[name]
    count = how.counts[sheet.is_small]
    wide = (sheet.measure * how.measure - (count - 1) * how.gap) / count
    heights = [how.height(entry, wide) for entry in entries] if count > 1 else []
    heights[-1:] = [height + how.below for height in heights[-1:]]
    ends = [0.0, *accumulate(heights)]
    least = max(sum(heights) / count, *heights, 0.0) - NOISE
    for most in sorted({b - a for n, a in enumerate(ends) for b in ends[n:] if b - a >= least}):
        begins = _begins(heights, most)
        if len(begins) < count:
            return begins if most <= sheet.depth * how.depth else frozenset()
    return frozenset()


def _begins(heights: Sequence[float], most: float) -> frozenset[int]:
    """Where columns begin that are filled one after the other, each up to a height."""
    found, filled = set[int](), 0.0
    for n, height in enumerate(heights):
        if n and filled + height > most + NOISE:
            found.add(n)
            filled = 0.0
        filled += height
    return frozenset(found)
