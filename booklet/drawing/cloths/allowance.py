"""Floor 10: the test of the allowance: three strips sewn side by side, and what they must measure."""

from __future__ import annotations

from booklet.drawing.ink.fills import Looks, wrong_side
from booklet.drawing.ink.svg import figure
from booklet.drawing.scene import Area, Figure, Ink, Item, Label, Line, Scene
from booklet.kit.colour import lightness
from booklet.kit.outlines.plane import rectangle
from booklet.kit.words import Speaker, Text, phrase


def allowance_figure(
    name: str,
    looks: Looks,
    strip: Text,
    whole: Text,
    width: float = 85.0,
    *,
    speaker: Speaker,
) -> Figure:
    """One strip before, three joined after, with the measures `strip` and `whole` in words."""
    each, high, top = (width - 24) / 6.5, 15.0, 1.0
    fold = each / 6  # an allowance of 1/4 in beside a strip of 1 1/2 in
    items: list[Item] = []
    look = max(looks.values(), key=lambda fill: lightness(fill.colour), default=wrong_side())
    cut = each + fold
    items.append(Area(rectangle(1, top, cut, high), look, Ink.PATCH))
    items += _measure(1, 1 + cut, top + high + 4, speaker.say(strip))
    left = cut + 22
    for place in range(3):
        start = left + place * each + (fold / 2 if place else 0)
        end = left + (place + 1) * each + (fold if place == 2 else fold / 2)
        items.append(Area(rectangle(start, top, end - start, high), look, Ink.PATCH))
    for seam in (1, 2):
        x = left + seam * each + fold / 2
        items.append(Line(points=((x, top), (x, top + high)), ink=Ink.MACHINE))
    items += _measure(left, left + 3 * each + fold, top + high + 4, speaker.say(whole))
    middle = top + high / 2
    items.append(
        Line(points=((cut + 6, middle), (left - 5, middle)), ink=Ink.ARROW, end_arrow=True)
    )
    alt = phrase(
        "At the left one strip, {strip} wide. At the right three such strips sewn side by side: "
        "they measure {whole} from raw edge to raw edge.",
        strip=strip,
        whole=whole,
    )
    title = phrase("The test of the allowance")
    scene = Scene.of(name, (width, top + high + 11), items, title, alt)
    caption = phrase(
        "Three strips of {strip} must measure {whole} from raw edge to raw edge.",
        strip=strip,
        whole=whole,
    )
    return figure(scene, caption)


def _measure(start: float, end: float, y: float, text: str) -> list[Item]:
    """A measure with arrows at both ends and its figure below."""
    line = Line(points=((start, y), (end, y)), ink=Ink.GRAIN, start_arrow=True, end_arrow=True)
    return [line, Label(at=((start + end) / 2, y + 4.2), text=text, bold=True)]
