"""Floor 10: how to read the pictures, once for the whole booklet."""

from __future__ import annotations

from booklet.drawing.fills import Looks, tinted, wrong_side
from booklet.drawing.scene import (
    Area,
    Figure,
    Fill,
    Ink,
    Item,
    Label,
    Line,
    Mark,
    Point,
    Scene,
    Sign,
)
from booklet.drawing.svg import figure

ROW = 7.0  # mm
SAMPLE = 20.0  # mm for the sign before its words
_FIELD = ((4.0, -2.6), (16.0, -2.6), (16.0, 2.6), (4.0, 2.6))


def legend_figure(name: str, looks: Looks, width: float = 170.0) -> Figure:
    """The signs of the step pictures with their meaning, in as many columns as fit."""
    entries = _entries(next(iter(looks.values()), Fill("#8fb3c9", 1)))
    columns = max(1, int(width // 80))
    rows = -(-len(entries) // columns)
    items: list[Item] = []
    for i, (sample, words) in enumerate(entries):
        corner = (width / columns * (i // rows), (i % rows) * ROW + ROW / 2)
        items += [_moved(item, corner) for item in sample]
        items.append(Label((corner[0] + SAMPLE + 2, corner[1]), words, 8.5, "start"))
    told = "The signs of the pictures: " + "; ".join(words for _, words in entries) + "."
    scene = Scene(
        f"{name}-legend", width, rows * ROW, tuple(items), "How to read the pictures", told
    )
    return figure(scene, "How to read the pictures.")


def _entries(look: Fill) -> list[tuple[list[Item], str]]:
    """Every sign, drawn about (0, 0) to (SAMPLE, 0), with its words."""
    line = ((2.0, 0.0), (SAMPLE - 2, 0.0))
    middle = (SAMPLE / 2, 0.0)
    return [
        ([Line(line, Ink.MACHINE)], "sew by machine; past a corner: off the edge"),
        ([Line(line, Ink.HAND)], "sew by hand"),
        ([Line((middle, line[1]), Ink.HAND), Sign(middle, Mark.STOP, 90)], "start or stop at the point"),
        (
            [Line(((2.0, -2.2), middle), Ink.HAND), Line((middle, (SAMPLE - 2, -2.2)), Ink.HAND), Sign(middle, Mark.DOT)],
            "turn here and go on",
        ),
        ([Line(line, Ink.HAND), Sign(middle, Mark.THROUGH)], "pass the needle through the allowances"),
        ([Line((middle, line[1]), Ink.HAND), Sign(middle, Mark.STOP, 90), Sign(middle, Mark.BACKSTITCH, 90)], "backstitch"),
        ([Line((line[0], middle), Ink.MACHINE), Line((middle, line[1]), Ink.LATER), Sign(middle, Mark.OPEN)],
         "stop; the rest is sewn later"),
        ([Line(line, Ink.GUIDE)], "these points meet"),
        ([Line(((6.0, 0.0), (14.0, 0.0)), Ink.ARROW, end_arrow=True)], "press the allowance this way"),
        ([Line(((5.0, 0.0), (15.0, 0.0)), Ink.ARROW, True, True)], "press the allowance open"),
        ([Area(_FIELD, look, Ink.PATCH)], "right side of the cloth"),
        ([Area(_FIELD, tinted(look), Ink.CONTEXT)], "sewn before"),
        ([Area(_FIELD, wrong_side(), Ink.PATCH)], "wrong side of the cloth"),
    ]  # fmt: skip


def _moved(item: Item, by: Point) -> Item:
    """An item moved."""

    def at(p: Point) -> Point:
        return p[0] + by[0], p[1] + by[1]

    match item:
        case Area():
            return Area(tuple(at(p) for p in item.points), item.fill, item.ink)
        case Line():
            return Line(
                tuple(at(p) for p in item.points),
                item.ink,
                item.start_arrow,
                item.end_arrow,
                item.halo,
            )
        case Sign():
            return Sign(at(item.at), item.mark, item.angle)
    return item
