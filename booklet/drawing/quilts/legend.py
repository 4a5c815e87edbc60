"""Floor 10: how to read the pictures, once for the whole booklet."""

from __future__ import annotations

from booklet.drawing.ink.fills import Looks, tinted, wrong_side
from booklet.drawing.ink.svg import figure
from booklet.drawing.lettering.text_widths import wrapped
from booklet.drawing.scene import Area, Figure, Fill, Ink, Item, Label, Line, Mark, Scene, Sign
from booklet.kit.outlines.plane import Point
from booklet.kit.words import Speaker, Text, listing, phrase

ROW = 7.0  # mm
Entry = tuple[list[Item], Text]
SAMPLE = 20.0  # mm for the sign before its words
_FIELD = ((4.0, -2.6), (16.0, -2.6), (16.0, 2.6), (4.0, 2.6))


def legend_figure(
    name: str,
    looks: Looks,
    width: float = 170.0,
    *,
    speaker: Speaker,
    curved: bool = False,
) -> Figure:
    """The signs of the step pictures with their meaning, in as many columns as fit; `curved` whether there
    are curved seams."""
    entries = _entries(next(iter(looks.values()), Fill("#8fb3c9", 1)), curved)
    columns = max(1, int(width // 80))
    rows = -(-len(entries) // columns)
    items: list[Item] = []
    for i, (sample, words) in enumerate(entries):
        corner = (width / columns * (i // rows), (i % rows) * ROW + ROW / 2)
        items += [_moved(item, corner) for item in sample]
        lines = wrapped(speaker.say(words), 8.5, width / columns - SAMPLE - 4)
        for line, text in enumerate(lines):
            down = 3.4 * (line - (len(lines) - 1) / 2)
            items.append(
                Label(
                    at=(corner[0] + SAMPLE + 2, corner[1] + down),
                    text=text,
                    size=8.5,
                    anchor="start",
                )
            )
    signs = listing([words for _, words in entries], "semicolons")
    told = phrase("The signs of the pictures: {signs}.", signs=signs)
    title = phrase("How to read the pictures")
    scene = Scene(
        name=f"{name}-legend",
        width=width,
        height=rows * ROW,
        items=tuple(items),
        title=title,
        alt=told,
    )
    return figure(scene, phrase("Lines and marks in the pictures of the steps."))


def _entries(look: Fill, curved: bool) -> list[Entry]:
    """Every sign, drawn about (0, 0) to (SAMPLE, 0), with its words."""
    line = ((2.0, 0.0), (SAMPLE - 2, 0.0))
    middle = (SAMPLE / 2, 0.0)
    return [
        ([Line(points=line, ink=Ink.MACHINE)], phrase("sew by machine; past a corner: off the edge", context="legend")),
        ([Line(points=line, ink=Ink.HAND)], phrase("sew by hand", context="legend")),
        ([Line(points=(middle, line[1]), ink=Ink.HAND), Sign(middle, Mark.STOP, 90)], phrase("start or stop at the point", context="legend")),
        (
            [Line(points=((2.0, -2.2), middle), ink=Ink.HAND), Line(points=(middle, (SAMPLE - 2, -2.2)), ink=Ink.HAND), Sign(middle, Mark.DOT)],
            phrase("turn here and go on", context="legend"),
        ),
        ([Line(points=((2.0, -2.2), middle), ink=Ink.HAND), Line(points=(middle, (SAMPLE - 2, -2.2)), ink=Ink.HAND), Sign(middle, Mark.OPENED, 180)],
         phrase("spread the earlier seam open", context="legend")),
        ([Line(points=line, ink=Ink.HAND), Sign(middle, Mark.THROUGH)], phrase("pass the needle through the allowances", context="legend")),
        ([Line(points=(middle, line[1]), ink=Ink.HAND), Sign(middle, Mark.STOP, 90), Sign(middle, Mark.BACKSTITCH, 90)], phrase("backstitch", context="legend")),
        ([Line(points=(line[0], middle), ink=Ink.MACHINE), Line(points=(middle, line[1]), ink=Ink.LATER), Sign(middle, Mark.OPEN)],
         phrase("stop; the rest is sewn later", context="legend")),
        ([Line(points=line, ink=Ink.GUIDE)], phrase("these points meet", context="legend")),
        *(_marked(line) if curved else []),
        ([Line(points=((6.0, 0.0), (14.0, 0.0)), ink=Ink.ARROW, end_arrow=True)], phrase("press the allowance this way", context="legend")),
        ([Line(points=((5.0, 0.0), (15.0, 0.0)), ink=Ink.ARROW, start_arrow=True, end_arrow=True)], phrase("press the allowance open", context="legend")),
        ([Area(_FIELD, look, Ink.PATCH)], phrase("right side of the cloth", context="legend")),
        ([Area(_FIELD, tinted(look), Ink.CONTEXT)], phrase("sewn before", context="legend")),
        ([Area(_FIELD, wrong_side(), Ink.PATCH)], phrase("wrong side of the cloth", context="legend")),
    ]  # fmt: skip


def _marked(line: tuple[Point, Point]) -> list[Entry]:
    """The marks along a curve."""
    middle = ((line[0][0] + line[1][0]) / 2, line[0][1])
    sample: list[Item] = [Line(points=line, ink=Ink.MACHINE), Sign(middle, Mark.MIDDLE, 90)]
    return [(sample, phrase("mark of a curve, as on its template", context="legend"))]


def _moved(item: Item, by: Point) -> Item:
    """An item moved."""

    def at(p: Point) -> Point:
        return p[0] + by[0], p[1] + by[1]

    match item:
        case Area():
            return Area(tuple(at(p) for p in item.points), item.fill, item.ink)
        case Line():
            return Line(
                points=tuple(at(p) for p in item.points),
                ink=item.ink,
                start_arrow=item.start_arrow,
                end_arrow=item.end_arrow,
                halo=item.halo,
            )
        case Sign():
            return Sign(at(item.at), item.mark, item.angle)
    return item
