"""Floor 11, sum columns: which of the sums of a size begin a column where three stand beside each other on paper.

A typesetter finds columns of one height by trying: it laid each sum out ten times. What a sum takes is reckoned from the
widths of its letters instead; a figure that is a little off makes columns a little uneven, and nothing else.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate

from booklet.pages.style.fonts import FACES, SANS, text_width
from booklet.pages.style.paper import Sheet
from booklet.pages.tables.cutlist import PrintedSumLine

COLUMNS, GAP = 3, 20.25  # as in `style.css`, in points like all that follows
_TYPE, _LINE, _BESIDE = 8.5, 12.0, 13.5  # of the lines; between words and figures
_CAPTION, _BETWEEN = 16.5, 13.5  # with the room below it; after a sum
_ABOVE = 150.0  # of the page: its title and its first words
_FACE = next(face for face in FACES if face.family == SANS and face.weight == 400)


def column_begins(sums: Sequence[Sequence[PrintedSumLine]], sheet: Sheet) -> frozenset[int]:
    """The places of the sums that begin a column after the first; none where all would take more than a page."""
    wide = (sheet.measure - (COLUMNS - 1) * GAP) / COLUMNS
    heights = [_height(lines, wide) for lines in sums]
    ends = [0.0, *accumulate(heights)]
    least = max(heights, default=0.0)
    stretches = sorted({b - a for n, a in enumerate(ends) for b in ends[n:] if b - a >= least})
    for most in stretches:
        begins = _begins(heights, most)
        if len(begins) < COLUMNS:
            return begins if most <= sheet.depth - _ABOVE else frozenset()
    return frozenset()


def _begins(heights: Sequence[float], most: float) -> frozenset[int]:
    """Where columns begin that are filled one after the other, each up to a height."""
    found, filled = set[int](), 0.0
    for n, height in enumerate(heights):
        if n and filled + height > most:
            found.add(n)
            filled = 0.0
        filled += height
    return frozenset(found)


def _height(lines: Sequence[PrintedSumLine], wide: float) -> float:
    """What a sum takes with its title, its lines and what is bought."""
    figures = max((_width(line.figure.striptags()) for line in lines), default=0.0)
    rows = sum(_rows(line.words.striptags(), wide - figures - _BESIDE) for line in lines)
    return _CAPTION + _LINE * (rows + 1) + _BETWEEN


def _rows(text: str, wide: float) -> int:
    """How many lines some words fill."""
    rows, used = 1, 0.0
    for word in text.split():
        across = _width(word)
        if used and used + across > wide:
            rows, used = rows + 1, 0.0
        used += across + _width(" ")
    return rows


def _width(text: str) -> float:
    return text_width(_FACE, text, _TYPE)
