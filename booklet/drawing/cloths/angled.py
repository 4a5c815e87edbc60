"""Floor 10: how patches are cut across a strip at an angle: where the ruler lies, and what is measured."""

from __future__ import annotations

import math

from booklet.crafts.method import Family
from booklet.crafts.rotary.marks import CutBy
from booklet.cutting.cutting_plan import CutPatch, FabricPlan
from booklet.drawing.ink.fills import Looks, tinted
from booklet.drawing.ink.svg import figure
from booklet.drawing.lettering.labels import letter_in
from booklet.drawing.lettering.text_widths import text_width
from booklet.drawing.scene import Area, Figure, Ink, Item, Label, Line, Place, Scene, moved
from booklet.kit.measure import Printed, angle_text
from booklet.kit.outlines.plane import Point, box_of, plus
from booklet.kit.words import Digits, listing, phrase, with_unit, words_of
from booklet.plan import SizePlan
from booklet.plan.cuts.cut_words import leans_right

MOST = 12.0  # mm: the strip is drawn no higher, and the pieces no wider
OVER = 8.0  # mm that the ruler reaches beyond the strip
RULER = 1.5  # widths of a piece: that of the ruler
ARC = 7.0  # mm: radius of the arc that marks the angle


def angled_figure(
    size: SizePlan, cloth: FabricPlan, patch: CutPatch, looks: Looks, width: float = 81.0
) -> Figure | None:
    """A strip with one end cut slanted, and the ruler on it for the first piece, at most `width` mm wide;
    None for a patch that is cut in another way, as round its template."""
    if (
        patch.method.family is not Family.SLANTED
        or patch.angle is None
        or patch.by is CutBy.TEMPLATE
    ):
        return None
    units = size.pattern.units
    high, wide = (float(side) for side in patch.cut)
    leans, scale = _leans_right(cloth, patch.name), min(MOST / high, MOST / wide)
    drawn = _Strip(high * scale, wide * scale, patch.angle, leans)
    if (beyond := drawn.reach / (width - 2)) > 1:
        drawn = _Strip(high * scale / beyond, wide * scale / beyond, patch.angle, leans)
    step = with_unit(wide, units, Printed.CUT)
    say, angle = words_of(size.pattern.tongue).say, Digits(angle_text(patch.angle))
    items = drawn.items(looks, patch, say(step), f"{say(angle)}°")
    left, top, right, bottom = box_of([p for item in items for p in _points(item)])
    laid = [moved(item, (1.0 - left, 1.0 - top)) for item in items]
    title = phrase("Cutting {patch} across the strip", patch=patch.title)
    caption = phrase(
        "{patch}: the line of the ruler for {step} lies on the slanted edge; cut along the ruler.",
        patch=patch.title,
        step=step,
    )
    told = listing(
        (
            phrase("A strip with one end cut at {angle} degrees.", angle=angle),
            phrase("The ruler lies along that edge; {step} is measured square to it.", step=step),
        ),
        "sentences",
    )
    name = f"{size.size.id}-angle-{cloth.fabric}-{patch.name}"
    scene = Scene.of(name, (right - left + 2, bottom - top + 2), laid, title, told)
    return figure(scene, caption)


class _Strip:
    """The strip from (0, 0) at the lower end of its first cut; y grows downward."""

    def __init__(self, high: float, wide: float, angle: float, right: bool) -> None:
        turn = math.radians(angle)
        lean = 1.0 if right else -1.0
        self.high, self.wide, self.angle, self.lean = high, wide, angle, lean
        self.up: Point = (lean * math.cos(turn), -math.sin(turn))  # along the cut
        self.across: Point = (math.sin(turn), lean * math.cos(turn))  # square to it
        self.apart = wide / math.sin(turn)  # along the strip
        next_cut = self.apart * self.up[0]  # where it begins, along the cut
        self.low, self.top = (
            min(0.0, next_cut) - OVER,
            max(0.0, next_cut) + high / math.sin(turn) + OVER,
        )  # the ends of the ruler

    @property
    def reach(self) -> float:
        """How wide the strip and the ruler on it are."""
        return 2 * self.apart + self.wide + abs(self.up[0]) * (self.top - self.low) / 2

    def on(self, across: float, up: float) -> Point:
        """A point so far square to the first cut and along it."""
        return plus(plus((0.0, 0.0), self.across, across), self.up, up)

    def items(self, looks: Looks, patch: CutPatch, step: str, degrees: str) -> list[Item]:
        """The strip, its first piece in full colour, the ruler, and what is measured."""
        look = looks[patch.fabric]
        shift = self.lean * self.high / math.tan(math.radians(self.angle))
        first: tuple[Point, ...] = (
            (0.0, 0.0), (shift, -self.high), (shift + self.apart, -self.high), (self.apart, 0.0),
        )  # fmt: skip
        end = max(first[2][0], first[3][0]) + self.apart
        strip = (first[0], first[1], (end, -self.high), (end, 0.0))
        letter = letter_in(first, patch.name, 9.5)
        return [
            Area(strip, tinted(look), Ink.PATCH),
            Area(first, look, Ink.PATCH),
            *([letter] if letter is not None else []),
            *self.ruler(),
            *self.measured(step),
            *self.marked_angle(degrees),
        ]

    def ruler(self) -> list[Item]:
        """Its outline, its cutting edge on the next cut, and its line on the last one."""
        back, low, top = self.wide * (1 - RULER), self.low, self.top
        edge = (self.on(self.wide, low), self.on(self.wide, top))
        outline = (edge[0], edge[1], self.on(back, top), self.on(back, low))
        return [
            Area(outline, None, Ink.RULE),
            Line(points=(self.on(0.0, low), self.on(0.0, top)), ink=Ink.GUIDE, halo=True),
            Line(points=edge, ink=Ink.CUT, halo=True),
        ]

    def measured(self, step: str) -> list[Item]:
        """The arrow square to the cut, beyond the strip, and its figure."""
        up = self.top - OVER * 0.55
        ends = (self.on(0.0, up), self.on(self.wide, up))
        label = self.on(self.wide / 2, self.top + 4.0)
        return [
            Line(points=ends, ink=Ink.ARROW, start_arrow=True, end_arrow=True, halo=True),
            Label(at=label, text=step, size=8.5, bold=True, halo=True),
        ]

    def marked_angle(self, degrees: str) -> list[Item]:
        """The arc between the lower edge of the strip and the next cut, and the degrees."""
        at, first = (self.apart, 0.0), 0.0 if self.lean > 0 else math.pi
        last = math.atan2(-self.up[1], self.up[0])
        turns = (first + (last - first) * k / 12 for k in range(13))
        arc = tuple(plus(at, (math.cos(a), -math.sin(a)), ARC) for a in turns)
        label = (at[0] + self.lean * ARC, 3.4)
        return [
            Line(points=arc, ink=Ink.FINE, halo=True),
            Label(at=label, text=degrees, size=8.5, halo=True),
        ]


def _leans_right(cloth: FabricPlan, name: str) -> bool:
    """Whether the first piece laid on the cloth leans to the right."""
    placed = (p for s in cloth.strips for row in s.layouts for p in row if p.name == name)
    first = next(placed, None)
    return first is None or leans_right(first.outline)


def _points(item: Item) -> tuple[Point, ...]:
    """The points of a mark, with some room about a label."""
    if isinstance(item, Area | Line | Place):
        return item.points
    x, y = item.at
    room = text_width(item.text, item.size) / 2 if isinstance(item, Label) else 0.0
    return ((x - room, y - 2.0), (x + room, y + 2.0))
