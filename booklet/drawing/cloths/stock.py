"""Floor 10: cloth sold ready cut: each kind of piece of stock with its cuts, and how many are cut alike."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import lru_cache

from booklet.cutting.cutting_plan import FabricPlan, Placed, Strip
from booklet.drawing.cloths.cut_names import CutNames, DrawnCut, cuts_on, drawn
from booklet.drawing.lettering.text_widths import text_width
from booklet.drawing.scene import Area, Fill, Ink, Item, Label
from booklet.kit.outlines.plane import Point, box_of, rectangle
from booklet.kit.records import Record
from booklet.kit.trade import LEAST_SCRAP
from booklet.kit.words import Speaker, Text, phrase

SPACE, WORDS = 6.0, 6.0  # mm between pieces of stock, and for the words above each
NUMBER = 6.0  # mm for the numbers of the strips
LARGEST = 3.5  # mm for an inch, at most
LOWEST = 14.0  # mm: a piece of stock is drawn at least so high, so that letters can be read


SaySize = Callable[[float, float], str]
"""Says the size of what is left over, from its inches across and along."""


class StockKind(Record):
    """Pieces of stock cut alike: their numbers, and the strips of the first of them."""

    numbers: tuple[int, ...]
    strips: tuple[Strip, ...]


Look = tuple[tuple[str, str, tuple[Point, ...], tuple[str, ...], str], ...]


def look_of(layout: Sequence[Placed]) -> Look:
    """How a strip looks, wherever in the cloth it lies: its cuts in a fixed order, each with how it lies."""
    return tuple(
        sorted(
            (
                cut.name,
                cut.method.word,
                _at_origin(cut.outline),
                tuple(w.value for w in cut.wedges),
                str(cut.stretch),
            )
            for cut in layout
        )
    )


def looks_of(strip: Strip) -> list[Look]:
    """How each of alike strips looks."""
    return [look_of(layout) for layout in strip.layouts]


@lru_cache(maxsize=4096)
def _at_origin(points: tuple[Point, ...]) -> tuple[Point, ...]:
    """An outline in the corner of its box. The rows of a cloth are asked for by its table, its picture and its numbers."""
    left, top, _, _ = box_of(points)
    return tuple((round(x - left, 4) + 0.0, round(y - top, 4) + 0.0) for x, y in points)


def stock_kinds(plan: FabricPlan) -> list[StockKind]:
    """The pieces of stock, those with the same strips and cuts taken together."""
    pieces: dict[int, list[Strip]] = {}
    for strip in plan.strips:
        pieces.setdefault(strip.stock, []).append(strip)
    kinds: dict[object, list[int]] = {}
    for number, strips in pieces.items():
        alike = tuple((strip.width, tuple(looks_of(strip))) for strip in strips)
        kinds.setdefault(alike, []).append(number)
    return [StockKind(tuple(found), tuple(pieces[found[0]])) for found in kinds.values()]


def stock_items(
    plan: FabricPlan,
    look: Fill,
    names: CutNames,
    width: float,
    say_size: SaySize,
    *,
    speaker: Speaker,
) -> tuple[list[Item], float]:
    """The pieces of stock side by side in a room so many mm wide, and the height they take."""
    assert plan.stock is not None
    across, along = (float(side) for side in plan.stock)
    kinds = stock_kinds(plan)
    fit = (width - SPACE * (min(len(kinds), 3) - 1)) / min(len(kinds), 3) - NUMBER
    scale = min(LARGEST, max(fit, 40.0) / across)
    wide, high = across * scale + NUMBER, max(along * scale, LOWEST)
    items: list[Item] = []
    x, y, number = 0.5, 0.0, 1
    for kind in kinds:
        words = speaker.say(_words(plan, kind))
        room = max(wide, NUMBER + text_width(words, 8.0))
        if x > 0.5 and x + room > width:
            x, y = 0.5, y + WORDS + high + SPACE
        items.append(
            Label(at=(x + NUMBER, y + 2.8), text=words, size=8.0, anchor="start", bold=True)
        )
        place = (x + NUMBER, y + WORDS, scale, high / along)
        items += _piece(plan, kind, place, look, names, say_size)
        items += _numbers(plan, kind, place, number)
        number += sum(strip.count for strip in kind.strips)
        x += room + SPACE
    return items, y + WORDS + high + 1.0


def _numbers(
    plan: FabricPlan, kind: StockKind, place: tuple[float, float, float, float], first: int
) -> list[Item]:
    """The number of every strip, as in the list of cuts."""
    assert plan.stock is not None
    x, y, _, stretch = place
    top = (kind.numbers[0] - 1) * float(plan.stock[1])
    middles = [
        y + (start - top + float(strip.width) / 2) * stretch
        for strip in kind.strips
        for start in strip.starts
    ]
    return [
        Label(at=(x - NUMBER / 2 - 0.5, middle), text=str(number), size=7.0, bold=True, plate=True)
        for number, middle in enumerate(middles, first)
    ]


def _words(plan: FabricPlan, kind: StockKind) -> Text:
    """Which pieces of stock these are, and how many."""
    first, last = kind.numbers[0], kind.numbers[-1]
    unit = plan.buy.unit or ""
    if first == last:
        return phrase("{unit} {number}", unit=unit, number=first)
    which = f"{first}–{last}"
    if len(kind.numbers) != last - first + 1:
        which = ", ".join(str(number) for number in kind.numbers)
    return phrase("{unit} {numbers}: × {n}", unit=unit, numbers=which, n=len(kind.numbers))


def _piece(
    plan: FabricPlan,
    kind: StockKind,
    place: tuple[float, float, float, float],
    look: Fill,
    names: CutNames,
    say_size: SaySize,
) -> list[Item]:
    """One piece of stock: what is left over hatched, the cuts upon it, the cuts right across."""
    assert plan.stock is not None
    x, y, scale, stretch = place
    across, along = (float(side) for side in plan.stock)
    top = (kind.numbers[0] - 1) * along
    items: list[Item] = [
        Area(
            rectangle(x, y, across * scale, along * stretch), Fill("#ffffff", 1, tint=True), Ink.CUT
        )
    ]

    def put(point: Point) -> Point:
        return x + point[0] * scale, y + (point[1] - top) * stretch

    cuts = [drawn(c, put) for strip in kind.strips for layout in strip.layouts for c in layout]
    items += cuts_on(cuts, look)
    items += _strips(kind.strips, (x, y, across * scale, stretch), top)
    rest = along - sum(float(strip.width) * strip.count for strip in kind.strips)
    if rest >= float(LEAST_SCRAP):
        text = say_size(across, rest)
        left = (x, x + across * scale)
        items += names.left_over(left, y + (along - rest) * stretch, rest * stretch, text)
    for group in _by_strip(cuts):
        items += names.on_cuts(group)
    return items


def _strips(
    strips: Sequence[Strip], place: tuple[float, float, float, float], top: float
) -> list[Item]:
    """The outline of every strip."""
    x, y, wide, stretch = place
    return [
        Area(
            rectangle(x, y + (start - top) * stretch, wide, float(strip.width) * stretch),
            None,
            Ink.CUT,
        )
        for strip in strips
        for start in strip.starts
    ]


def _by_strip(cuts: Sequence[DrawnCut]) -> list[list[DrawnCut]]:
    """The cuts of one strip after another."""
    rows: dict[float, list[DrawnCut]] = {}
    for cut in cuts:
        rows.setdefault(round(box_of(cut.outline)[1], 3), []).append(cut)
    return list(rows.values())
