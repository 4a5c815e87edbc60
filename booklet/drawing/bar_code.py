"""Floor 10: the bar code of a book: the EAN-13 symbol of its ISBN, true to size, as a picture of lines alone.

Sizes are those of the GS1 General Specifications, section 5.2.1.4, at magnification 1: a module of 0.330 mm, bars of
22.85 mm and five modules more where they guard; its free edges belong to the picture.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from booklet.drawing.ink.svg import figure
from booklet.drawing.scene import Area, Figure, Fill, Item, Label, Scene
from booklet.kit.article_numbers import MODULES, QUIET, bars
from booklet.kit.outlines.plane import Point, rectangle
from booklet.kit.words import phrase
from booklet.pattern import Isbn

MODULE = 0.33  # mm
TALL, GUARD = 22.85, 5 * MODULE
HEAD, FOOT = 5.0, 4.2  # mm above and below the bars: the number in words, and its digits
GUARDS = (range(3), range(45, 50), range(92, 95))  # modules whose bars are longer
BLACK, WHITE = Fill("#000000"), Fill("#ffffff")
WIDE = (QUIET[0] + MODULES + QUIET[1]) * MODULE


def bar_code(isbn: Isbn) -> Figure:
    """The bars of an ISBN with its number above and its digits below, on white."""
    high = HEAD + TALL + FOOT
    items: list[Item] = [
        Area(rectangle(0, 0, WIDE, high), WHITE, None),
        *(Area(box, BLACK, None) for box in bar_boxes(isbn.digits)),
        Label(at=(WIDE / 2, HEAD / 2), text=f"ISBN {isbn.written}", size=8.0),
        *_digits(isbn.digits),
    ]
    scene = Scene.of(
        "bar-code",
        (WIDE, high),
        items,
        phrase("Bar code"),
        phrase("Bar code of the ISBN {number}.", number=isbn.written),
    )
    return figure(scene, "", true_size=True)


def bar_boxes(digits: str) -> Iterator[tuple[Point, ...]]:
    """The bars as boxes in mm, from left to right."""
    at = 0
    for sign, run in groupby(bars(digits)):
        wide = len(list(run))
        if sign == "1":
            tall = TALL + (GUARD if any(at in guard for guard in GUARDS) else 0)
            yield rectangle((QUIET[0] + at) * MODULE, HEAD, wide * MODULE, tall)
        at += wide


def _digits(digits: str) -> Iterator[Label]:
    """The first digit in the free edge, then two sixes, each digit under its seven modules."""
    low = HEAD + TALL + FOOT / 2
    yield Label(at=(QUIET[0] / 2 * MODULE, low), text=digits[0], size=9.0)
    for place, digit in enumerate(digits[1:]):
        begin = 3 + 7 * place + (5 if place >= 6 else 0)
        yield Label(at=((QUIET[0] + begin + 3.5) * MODULE, low), text=digit, size=9.0)
