"""Floor 10: which way is up on a template for prints that may not be turned: an arrow for each way its patches
lie on the cloth, with their number."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from booklet.cutting.cutting_plan import CutPatch
from booklet.drawing.lettering.text_widths import text_width
from booklet.drawing.scene import Ink, Item, Label, Line
from booklet.kit.outlines.plane import Point, plus, vector
from booklet.kit.records import Record, replace
from booklet.kit.words import Text, phrase, words_of
from booklet.pattern import Direction
from booklet.plan import SizePlan

HIGH = 8.0  # mm for a row of arrows
SPACE = 1.5  # mm between words and arrows, twice that after a count
LONG = 6.5  # mm, an arrow
IN_A_ROW = 4  # arrows side by side


class Ups(Record):
    """A row of arrows: what they are, and for each its direction (degrees clockwise from up on the template)
    and how many patches lie so. `both` ways up are the same for stripes."""

    words: str
    ways: tuple[tuple[float, str], ...]
    both: bool
    size: float  # points

    @property
    def width(self) -> float:
        """How wide the row is, mm."""
        counts = sum(LONG + 4 * SPACE + text_width(count, self.size) for _, count in self.ways)
        return text_width(self.words, self.size) + counts

    def turned(self) -> Ups:
        """The row on the template turned clockwise by a quarter."""
        return replace(self, ways=tuple(((way + 90) % 360, count) for way, count in self.ways))

    def mirrored(self) -> Ups:
        """The row on the template mirrored left to right."""
        return replace(self, ways=tuple((-way % 360, count) for way, count in self.ways))

    def items(self, left: Point) -> Iterator[Item]:
        """The row, `left` the middle of its left edge."""
        x, y = left
        yield Label(at=(x, y), text=self.words, size=self.size, anchor="start")
        x += text_width(self.words, self.size)
        for way, count in self.ways:
            middle, up = (x + SPACE + LONG / 2, y), vector(way)
            ends = plus(middle, up, -LONG / 2), plus(middle, up, LONG / 2)
            yield Line(points=ends, ink=Ink.GRAIN, start_arrow=self.both, end_arrow=True)
            x += LONG + 2 * SPACE
            yield Label(at=(x, y), text=count, size=self.size, anchor="start")
            x += text_width(count, self.size) + 2 * SPACE


def ups_of(size: SizePlan, patches: Sequence[CutPatch], points: float) -> tuple[Ups, ...]:
    """The rows of a template for each cloth whose print may not be turned; none for squares and rectangles cut
    into triangles, whose places the cutting list tells. Words are `points` large."""
    say = words_of(size.pattern.tongue).say
    found: list[Ups] = []
    for fabric in dict.fromkeys(patch.fabric for patch in patches):
        cloth = size.size.fabrics[fabric]
        if cloth.direction is Direction.ANY:
            continue
        lie = [p for p in patches if p.fabric == fabric and not p.gives]
        ways = [(p.grain % 360, say(_count(p))) for p in lie]
        stripes = cloth.direction is Direction.STRIPE
        head = phrase("stripes of {cloth}:", cloth=size.fabric(fabric).name)
        if not stripes:
            head = phrase("top of {cloth}:", cloth=size.fabric(fabric).name)
        for first in range(0, len(ways), IN_A_ROW):
            words = say(head) if first == 0 else ""
            found.append(Ups(words, tuple(ways[first : first + IN_A_ROW]), stripes, points))
    return tuple(found)


def _count(patch: CutPatch) -> Text:
    if patch.reversed:
        return phrase("× {n} turned over", n=patch.pieces)
    return phrase("× {n}", n=patch.pieces)


def rows_of(ups: Iterable[Ups], top: float, x: float, centred: bool) -> Iterator[Item]:
    """The rows below each other from `top` down; `x` is their left edge, or their middle if `centred`."""
    for number, row in enumerate(ups):
        left = x - row.width / 2 if centred else x
        yield from row.items((left, top + HIGH * (number + 0.5)))
