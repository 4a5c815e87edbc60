"""Floor 10: the picture of the back: its panels where they come to lie, its seams, the top upon it."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from booklet.cutting.cutting_plan import LAST_WIDTH
from booklet.drawing.ink.fills import Looks, tinted
from booklet.drawing.ink.svg import figure
from booklet.drawing.lettering.text_widths import text_width
from booklet.drawing.scene import Area, Figure, Ink, Item, Label, Scene
from booklet.drawing.viewport import Margins, View, fitted
from booklet.kit.outlines.plane import Box, corners
from booklet.kit.words import Speaker, Text, area_text, phrase, plural_phrase, with_unit, words_of
from booklet.plan import SizePlan
from booklet.plan.cuts.joined import joins_at
from booklet.quilt.sized import BackingPlan


def backing_figure(size: SizePlan, looks: Looks, width: float = 85.0) -> Figure | None:
    """The back with its panels and seams, the top dashed upon it; None where the pattern has none."""
    back, finished = size.quilt.backing, size.quilt.finished
    if back is None or finished is None:
        return None
    wide, high = float(back.size[0]), float(back.size[1])
    view, _, height = fitted(
        ((0.0, 0.0), (wide, high)), width, width, Margins(3, 3, 3, 8), exact=True
    )
    speaker = words_of(size.pattern.tongue)
    look = tinted(looks[back.fabric])
    places = panel_places(back)
    joins = _joins_of_last(size, places[-1])
    pieces = [*places[:-1], *parted(places[-1], joins, back.turned)]
    items: list[Item] = [Area(view.put(corners(box)), look, Ink.PATCH) for box in pieces]
    top = float(finished[0]), float(finished[1])
    inner = ((wide - top[0]) / 2, (high - top[1]) / 2, (wide + top[0]) / 2, (high + top[1]) / 2)
    items.append(Area(view.put(corners(inner)), None, Ink.SEAM_LINE))
    units = size.pattern.units
    if len(places) > 1:
        items += _numbers(places, view)
    text = area_text((wide, high), units)
    items.append(_below(text, width, height, speaker))
    seams = _seams(back.seam, len(places) - 1)
    if joins:
        seams = plural_phrase(
            "{seams}, and {n} join in the last panel",
            "{seams}, and {n} joins in the last panel",
            len(joins),
            seams=seams,
        )
    told = phrase(
        "The back, {size}, {seams}. The top lies in its middle, {inset} from each side.",
        size=text,
        seams=seams,
        inset=with_unit(inner[0], units),
    )
    title = phrase("The back")
    scene = Scene.of(f"{size.size.id}-backing", (width, height), items, title, told)
    caption = plural_phrase(
        "The back: {n} panel, {seams}. Dashed: where the top lies.",
        "The back: {n} panels, {seams}. Dashed: where the top lies.",
        len(places),
        seams=seams,
    )
    return figure(scene, caption)


def panel_places(back: BackingPlan) -> tuple[Box, ...]:
    """The panels as they lie in the trimmed back, in inches: whole ones from the left or the top, the last
    as far as the edge."""
    wide, high = float(back.size[0]), float(back.size[1])
    over = high if back.turned else wide
    across = float(back.panel[0]) if back.panel else over
    pitch, seam = across - 2 * float(back.allowance), float(back.allowance)
    lines = [0.0, *(seam + pitch * n for n in range(1, back.widths)), over]
    pairs = pairwise(lines)
    if back.turned:
        return tuple((0.0, a, wide, b) for a, b in pairs)
    return tuple((a, 0.0, b, high) for a, b in pairs)


def _joins_of_last(size: SizePlan, place: Box) -> tuple[float, ...]:
    """Where the joins of the last panel lie along it, in inches from its beginning; none of one cut whole. What lies
    beyond its `place`, which is trimmed off, has none."""
    made = size.cutting.joined(LAST_WIDTH)
    if made is None:
        return ()
    long = max(place[2] - place[0], place[3] - place[1])
    joins = (float(at) for at in joins_at(made[1][0], made[0].loss))
    return tuple(at for at in joins if at < long)


def parted(place: Box, joins: Sequence[float], turned: bool) -> tuple[Box, ...]:
    """A panel parted at its joins, which lie across it."""
    left, top, right, bottom = place
    lines = pairwise([0.0, *joins, right - left if turned else bottom - top])
    if turned:
        return tuple((left + a, top, left + b, bottom) for a, b in lines)
    return tuple((left, top + a, right, top + b) for a, b in lines)


def _numbers(places: tuple[Box, ...], view: View) -> list[Item]:
    """The panels counted in the order in which they are joined."""
    found: list[Item] = []
    for number, (left, top, right, bottom) in enumerate(places, 1):
        at = view.at(((left + right) / 2, (top + bottom) / 2))
        found.append(Label(at=at, text=str(number), size=8.0, bold=True, plate=True))
    return found


def _below(text: Text, width: float, height: float, speaker: Speaker) -> Label:
    """The size of the back below it, in letters that have room."""
    said = speaker.say(text)
    points = min(8.0, 8.0 * width / max(text_width(said, 8.0), 1.0))
    return Label(at=(width / 2, height - 3.5), text=said, size=points, bold=True)


def _seams(way: str, count: int) -> Text:
    """The seams of the back."""
    if way == "none":
        return phrase("no seam")
    if way == "lengthwise":
        return plural_phrase("{n} seam, lengthwise", "{n} seams, lengthwise", count)
    return plural_phrase("{n} seam, crosswise", "{n} seams, crosswise", count)
