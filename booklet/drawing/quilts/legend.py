"""Floor 10: how to read the pictures, once for the whole booklet: the signs that they use."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.drawing.ink.fills import Looks, tinted, wrong_side
from booklet.drawing.ink.svg import figure
from booklet.drawing.lettering.text_widths import wrapped
from booklet.drawing.scene import (
    Area,
    Figure,
    Fill,
    Ink,
    Item,
    Label,
    Line,
    Mark,
    Scene,
    Sign,
    moved,
)
from booklet.drawing.signs_used import SignsUsed, signs_used
from booklet.kit.words import Text, listing, phrase, words_of
from booklet.plan import SizePlan

ROW = 7.0  # mm
Entry = tuple[list[Item], Text]
SAMPLE = 20.0  # mm for the sign before its words
_FIELD = ((4.0, -2.6), (16.0, -2.6), (16.0, 2.6), (4.0, 2.6))


def legend_figure(
    name: str, sizes: Sequence[SizePlan], looks: Looks, width: float = 170.0
) -> Figure:
    """The signs of the pictures of these sizes with their meaning, in as many columns as fit."""
    speaker = words_of(sizes[0].pattern.tongue)
    entries = _entries(next(iter(looks.values()), Fill("#8fb3c9", 1)), signs_used(sizes))
    columns = max(1, int(width // 80))
    rows = -(-len(entries) // columns)
    items: list[Item] = []
    for i, (sample, words) in enumerate(entries):
        corner = (width / columns * (i // rows), (i % rows) * ROW + ROW / 2)
        items += [moved(item, corner) for item in sample]
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
    scene = Scene.of(f"{name}-legend", (width, rows * ROW), items, title, told)
    return figure(scene, phrase("Lines and marks in the pictures of the steps."))


def _entries(look: Fill, used: SignsUsed) -> list[Entry]:
    """Every sign that is used, drawn about (0, 0) to (SAMPLE, 0), with its words."""
    line = ((2.0, 0.0), (SAMPLE - 2, 0.0))
    middle = (SAMPLE / 2, 0.0)
    by = Ink.HAND if used.hand else Ink.MACHINE
    half, through = Line(points=(middle, line[1]), ink=by), Line(points=line, ink=by)
    turned = [
        Line(points=((2.0, -2.2), middle), ink=by),
        Line(points=(middle, (SAMPLE - 2, -2.2)), ink=by),
    ]
    begun = Line(points=(line[0], middle), ink=Ink.MACHINE if used.machine else Ink.HAND)
    later = Line(points=(middle, line[1]), ink=Ink.LATER)
    to_a_side = Line(points=((6.0, 0.0), (14.0, 0.0)), ink=Ink.ARROW, end_arrow=True)
    both_ways = Line(
        points=((5.0, 0.0), (15.0, 0.0)), ink=Ink.ARROW, start_arrow=True, end_arrow=True
    )
    stop = Sign(middle, Mark.STOP, 90)
    told: list[tuple[bool, list[Item], Text]] = [
        (used.machine, [Line(points=line, ink=Ink.MACHINE)], phrase("sew by machine; past a corner: off the edge", context="legend")),
        (used.hand, [Line(points=line, ink=Ink.HAND)], phrase("sew by hand", context="legend")),
        (used.stops, [half, stop], phrase("start or stop at the point", context="legend")),
        (used.turns, [*turned, Sign(middle, Mark.DOT)], phrase("turn here and go on", context="legend")),
        (used.opened, [*turned, Sign(middle, Mark.OPENED, 180)], phrase("spread the earlier seam open", context="legend")),
        (used.clipped, [*turned, Sign(middle, Mark.DOT), Sign(middle, Mark.CLIP, 0)], phrase("clip the allowance, almost to the dot", context="legend")),
        (used.through, [through, Sign(middle, Mark.THROUGH)], phrase("pass the needle through the allowances", context="legend")),
        (used.threads and not used.papers, [half, stop, Sign(middle, Mark.BACKSTITCH, 90)], phrase("backstitch", context="legend")),
        (used.threads and used.papers, [half, stop, Sign(middle, Mark.BACKSTITCH, 90)], phrase("a few stitches on one spot", context="legend")),
        (used.partial, [begun, later, Sign(middle, Mark.OPEN)], phrase("stop; the rest is sewn later", context="legend")),
        (True, [Line(points=line, ink=Ink.GUIDE)], phrase("these points meet", context="legend")),
        (used.curved, [Line(points=line, ink=by), Sign(middle, Mark.MIDDLE, 90)], phrase("mark of a curve, as on its template", context="legend")),
        (used.to_a_side, [to_a_side], phrase("press the allowance this way", context="legend")),
        (used.pressed_open, [both_ways], phrase("press the allowance open", context="legend")),
        (True, [Area(_FIELD, look, Ink.PATCH)], phrase("right side of the cloth", context="legend")),
        (True, [Area(_FIELD, tinted(look), Ink.CONTEXT)], phrase("sewn before", context="legend")),
        (True, [Area(_FIELD, wrong_side(), Ink.PATCH)], phrase("wrong side of the cloth", context="legend")),
    ]  # fmt: skip
    return [(sample, words) for is_used, sample, words in told if is_used]
