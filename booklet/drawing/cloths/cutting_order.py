"""Floor 10: how the cloth is cut: strips in order across it, cross-cuts, what is left over."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from functools import partial

from booklet.crafts.rotary.wedges import Diagonal
from booklet.cutting.cutting_plan import FabricPlan, Placed, Strip, StripUse
from booklet.drawing.cloths.cut_names import CutNames, Shape, cuts_on, drawn, widest_gap
from booklet.drawing.cloths.stock import Look, look_of, stock_items, stock_kinds
from booklet.drawing.ink.fills import Looks, tinted
from booklet.drawing.ink.svg import figure
from booklet.drawing.lettering.text_widths import text_width
from booklet.drawing.scene import Area, Figure, Fill, Ink, Item, Label, Line, Scene
from booklet.kit.measure import Length, Printed, UnitSystem, printed
from booklet.kit.outlines.near import DRAWN, ONE_POINT
from booklet.kit.outlines.plane import Point, box_of, rectangle
from booklet.kit.records import Record
from booklet.kit.trade import LEAST_SCRAP
from booklet.kit.words import (
    Digits,
    Phrase,
    Text,
    at_least,
    in_units,
    listing,
    phrase,
    plural_phrase,
    with_unit,
    words_of,
)
from booklet.plan import SizePlan
from booklet.plan.cuts.cut_words import how_cut

LEFT, RIGHT = 21.0, 12.0  # mm for the measures and the counts beside the cloth
LEAST = 5.5  # mm: a strip is drawn at least so high, so that its letter can be read
MOST = 24.0  # mm: a wider strip is drawn with a break
HIGHEST = 62.0  # mm: a wider strip with cuts below each other is drawn flatter
TRUE = (
    0.75,
    1.5,
)  # of the picture's width: fussy cuts stay true up to this height; mm an inch, at least
UNCUT = 6.0  # mm, at most, for what is left of the length bought
SELVEDGE = phrase("selvedge", context="picture")
SHORT = 3  # lines of a cutting table, at most, beside which the picture stands
BRIEF = 160  # letters about how they are cut, at most, in so narrow a table
BREAK = 2.6  # mm left open where cloth is left out


class StripRow(Record, kw_only=True):
    """Alike strips drawn once: the kind of strip, how many, one of their layouts and where it starts;
    `cuts` are the cuts of all of them."""

    strip: Strip
    count: int
    layout: tuple[Placed, ...]
    start: float
    cuts: tuple[Placed, ...] = ()

    @property
    def is_deep(self) -> bool:
        """Whether cuts lie below each other in it, or along the selvedge."""
        tops = {round(min(y for _, y in placed.outline) - self.start, 4) for placed in self.layout}
        return self.strip.lengthwise or len(tops) > 1


def strip_rows(plan: FabricPlan) -> list[StripRow]:
    """The strips in cutting order, those with the same cuts taken together; of pieces of stock that are
    cut alike, the strips of one."""
    if plan.stock is not None:
        return [
            StripRow(
                strip=strip,
                count=len(kind.numbers),
                layout=layout,
                start=start,
                cuts=layout * len(kind.numbers),
            )
            for kind in stock_kinds(plan)
            for strip in kind.strips
            for layout, start in zip(strip.layouts, strip.starts, strict=True)
        ]
    rows: list[StripRow] = []
    for strip in plan.strips:
        kinds: dict[Look, list[int]] = {}
        for i, layout in enumerate(strip.layouts):
            kinds.setdefault(look_of(layout), []).append(i)
        if not strip.layouts:
            rows.append(
                StripRow(
                    strip=strip,
                    count=strip.count,
                    layout=(),
                    start=strip.starts[0] if strip.starts else 0.0,
                )
            )
        for found in kinds.values():
            first = found[0]
            start = strip.starts[first] if first < len(strip.starts) else 0.0
            cuts = tuple(cut for i in found for cut in strip.layouts[i])
            rows.append(
                StripRow(
                    strip=strip,
                    count=len(found),
                    layout=strip.layouts[first],
                    start=start,
                    cuts=cuts,
                )
            )
    return sorted(rows, key=lambda row: row.start)


def is_short(size: SizePlan, plan: FabricPlan) -> bool:
    """Whether the cutting table of a cloth has so few lines and words that it stands beside the picture, for which figures
    in two units have no room."""
    if plan.stock is not None or size.pattern.both_units:
        return False
    lines = sum(len({cut.name for cut in row.cuts}) or 1 for row in strip_rows(plan))
    direction = size.size.fabrics[plan.fabric].direction
    patches = {patch.name: patch for patch in size.cutting.patches if patch.fabric == plan.fabric}
    words = sum(len(said) for p in patches.values() for said in how_cut(p, (), direction, str))
    return lines <= SHORT and words <= BRIEF


def cloth_figure(size: SizePlan, plan: FabricPlan, looks: Looks, width: float = 170.0) -> Figure:
    """The cloth of one fabric with its strips in order, `width` mm wide."""
    wide = float(plan.width)
    look = tinted(looks[plan.fabric])
    items: list[Item] = []
    y = 9.0
    rows = strip_rows(plan)
    names = CutNames(_part_letters(size))
    fussy = [row for row in rows if any(cut.method.fussy for cut in row.layout)]
    scale = _scale(fussy, (width - LEFT - RIGHT) / wide, width)
    if plan.stock is not None:
        say_size = partial(_size_text, size)
        speaker = words_of(size.pattern.tongue)
        laid, high = stock_items(plan, look, names, width, say_size, speaker=speaker)
        return _finished(size, plan, names, laid, high, width)
    items += _fold(size, plan, scale)
    for number, row in enumerate(rows, 1):
        most = TRUE[0] * width if row in fussy else HIGHEST if row.is_deep else MOST
        high = min(max(float(row.strip.width) * scale, LEAST), most)
        items += _row(size, row, number, (LEFT, y, wide * scale, high), scale, look, names)
        y += high
        if row.count > 1:
            items += _torn((LEFT, y, wide * scale))
            y += BREAK
    if not rows:
        y += 8.0
    if plan.uncut >= LEAST_SCRAP:
        high = min(float(plan.uncut) * scale, UNCUT)
        below = rectangle(LEFT, y, wide * scale, high)
        items.append(Area(below, Fill("#ffffff", 1, tint=True), Ink.LEFTOVER))
        text = _size_text(size, wide, float(plan.uncut))
        items += names.left_over((LEFT, LEFT + wide * scale), y, high, text)
        y += high
    items += _selvedges(size, plan, (9.0, y), wide * scale)
    return _finished(size, plan, names, items, y + 3.0, width)


def _scale(fussy: Sequence[StripRow], usual: float, width: float) -> float:
    """Millimetres an inch: smaller than usual where fussy cuts are many, so that a square stays square and
    the repeat can be seen."""
    if not fussy:
        return usual
    high = max(float(row.strip.width) for row in fussy)
    return min(usual, max(TRUE[0] * width / high, TRUE[1]))


def _finished(
    size: SizePlan,
    plan: FabricPlan,
    names: CutNames,
    items: list[Item],
    height: float,
    width: float,
) -> Figure:
    """The figure of a cloth, its marks drawn, and under it the numerals that stand for longer words."""
    left = 0.5 if plan.stock is not None else LEFT
    explained, more = names.explained(left, height, width - left, words_of(size.pattern.tongue))
    items, height = [*items, *explained], height + more
    name = f"{size.size.id}-cloth-{plan.fabric}"
    fabric = size.fabric(plan.fabric).name
    title = phrase("Cutting {fabric}", fabric=fabric)
    scene = Scene.of(name, (width, height), items, title, told_cutting(size, plan))
    count = sum(row.count for row in strip_rows(plan))
    caption = plural_phrase(
        "{fabric}: {n} strip, cut in the order of the numbers.",
        "{fabric}: {n} strips, cut in the order of the numbers.",
        count,
        fabric=fabric,
    )
    return figure(scene, caption)


def _fold(size: SizePlan, plan: FabricPlan, scale: float) -> list[Item]:
    """The usable width on top, with the fold's middle line named."""
    right = LEFT + float(plan.width) * scale
    say = words_of(size.pattern.tongue).say
    text = say(_usable(size, plan))
    y = 6.5
    line = Line(points=((LEFT, y), (right, y)), ink=Ink.RULE, start_arrow=True, end_arrow=True)
    middle = (LEFT + right) / 2
    return [
        line,
        Label(at=(middle, 2.6), text=text, size=8.0),
        *(_ends(say, 2.6, right) if _has_room(say, text, right - LEFT) else ()),
    ]


def _usable(size: SizePlan, plan: FabricPlan) -> Phrase:
    """The usable width of a cloth in words."""
    return phrase("usable width {width}", width=at_least(plan.width, size.pattern.units))


def _has_room(say: Callable[[Text], str], text: str, wide: float) -> bool:
    """Whether both selvedges can be named beside the usable width, in `wide` mm."""
    named = text_width(say(SELVEDGE), 7.0)
    return text_width(text, 8.0) + 2 * named + 6.0 < wide


def _ends(say: Callable[[Text], str], y: float, right: float) -> tuple[Label, Label]:
    """The names of the selvedges at height `y`, above or below both ends of the cloth."""
    text = say(SELVEDGE)
    return (
        Label(at=(LEFT, y), text=text, size=7.0, anchor="start", muted=True),
        Label(at=(right, y), text=text, size=7.0, anchor="end", muted=True),
    )


def _selvedges(
    size: SizePlan, plan: FabricPlan, rows: tuple[float, float], wide: float
) -> list[Item]:
    """Dotted selvedges at both sides from the first of `rows` to the second, named where they were not above, and
    the fold in the middle."""
    say, (top, bottom) = words_of(size.pattern.tongue).say, rows
    fold = say(phrase("fold", context="picture"))
    named = _has_room(say, say(_usable(size, plan)), wide)
    return [
        *(() if named else _ends(say, bottom + 1.6, LEFT + wide)),
        Line(points=((LEFT - 0.5, top), (LEFT - 0.5, bottom)), ink=Ink.SELVEDGE),
        Line(points=((LEFT + wide + 0.5, top), (LEFT + wide + 0.5, bottom)), ink=Ink.SELVEDGE),
        Line(points=((LEFT + wide / 2, bottom), (LEFT + wide / 2, bottom + 2.2)), ink=Ink.FOLD),
        Label(
            at=(LEFT + wide / 2 + 1.2, bottom + 1.6),
            text=fold,
            size=7.0,
            anchor="start",
            muted=True,
        ),
    ]


def _row(
    size: SizePlan,
    row: StripRow,
    number: int,
    box: tuple[float, float, float, float],
    scale: float,
    look: Fill,
    names: CutNames,
) -> list[Item]:
    """One strip: leftover behind, the cuts upon it, its number and width at the left, its count."""
    x, y, wide, high = box
    items: list[Item] = [
        Area(rectangle(x, y, wide, high), Fill("#ffffff", 1, tint=True), Ink.LEFTOVER)
    ]
    stretch = high / max(float(row.strip.width), ONE_POINT)

    def put(point: Point) -> Point:
        return x + point[0] * scale, y + (point[1] - row.start) * stretch

    cuts = [drawn(cut, put) for cut in row.layout]
    cuts.sort(key=lambda cut: box_of(cut.outline)[0])
    items += cuts_on(cuts, look)
    if float(row.strip.width) * scale > MOST and not row.is_deep:
        items += _torn((x, y + high * 0.72, wide), "#ffffff")
    items += names.on_cuts(cuts)
    items += _left_over(size, names, [cut.whole for cut in cuts], box, (scale, stretch))
    if row.strip.folded:
        items.append(Line(points=((x + wide / 2, y), (x + wide / 2, y + high)), ink=Ink.FOLD))
    items.append(Area(rectangle(x, y, wide, high), None, Ink.CUT))
    middle = y + high / 2
    items.append(Label(at=(4.0, middle), text=str(number), size=8.0, bold=True, plate=True))
    items.append(
        Label(
            at=(LEFT - 2.0, middle),
            text=words_of(size.pattern.tongue).say(
                with_unit(float(row.strip.width), size.pattern.units, Printed.CUT)
            ),
            size=8.0,
            anchor="end",
            bold=True,
        )
    )
    if row.count > 1:
        items.append(
            Label(
                at=(x + wide + 2.2, middle),
                text=f"× {row.count}",
                size=9.0,
                anchor="start",
                bold=True,
            )
        )
    return items


def _left_over(
    size: SizePlan,
    names: CutNames,
    shapes: Sequence[Shape],
    box: tuple[float, float, float, float],
    scales: tuple[float, float],
) -> list[Item]:
    """The sizes of what is left over of a strip: at an end (or by the fold), and below what is lower."""
    x, y, wide, high = box
    ends = [(widest_gap(shapes, x, x + wide), y)]
    low = [shape for shape in shapes if box_of(shape[1])[3] < y + high - DRAWN]
    if low:
        left = min(box_of(points)[0] for _, points in low)
        start = max((r for _, p in shapes if (r := box_of(p)[2]) <= left + DRAWN), default=x)
        beside = [points for _, points in shapes if box_of(points)[2] > start + DRAWN]
        right = x + wide if not _full_right(beside, start, y + high) else start
        ends.append(((start, right), max(box_of(points)[3] for points in beside)))
    items: list[Item] = []
    for gap, top in ends:
        across, along = (gap[1] - gap[0]) / scales[0], (y + high - top) / scales[1]
        if min(across, along) >= float(LEAST_SCRAP):
            text = _size_text(size, across, along)
            items += names.left_over(gap, top, y + high - top, text)
    return items


def _size_text(size: SizePlan, across: float, along: float) -> str:
    """The size of what is left over: "7 1/2 × 6 in"."""
    units = size.pattern.units
    words = phrase(
        "{width} × {height}",
        width=Digits(left_text(across, units)),
        height=in_units(left_text(along, units), units),
    )
    return words_of(size.pattern.tongue).say(words)


def _full_right(beside: Sequence[tuple[Point, ...]], start: float, bottom: float) -> bool:
    """Whether a cut right of `start` reaches the bottom, so that nothing is left below the others."""
    return any(box_of(points)[3] > bottom - DRAWN for points in beside)


def left_text(value: float, units: UnitSystem) -> str:
    """The length of what is left over without its unit, never rounded up."""
    return printed(Length.of(value + ONE_POINT), units, Printed.LEFT)


def _part_letters(size: SizePlan) -> dict[str, str]:
    """What is printed on a cut: patch letters as they are, parts by their title."""
    say = words_of(size.pattern.tongue).say
    return {
        patch.name: patch.name if patch.name in size.letters else say(patch.title)
        for patch in size.cutting.patches
    }


def _torn(place: tuple[float, float, float], blank: str | None = None) -> list[Item]:
    """A broken edge where cloth or alike strips are left out."""
    x, y, wide = place
    upper = [(x + wide * i / 40, y + (0.4 if i % 2 else BREAK - 1.0)) for i in range(41)]
    if blank is None:
        return [Line(points=tuple(upper), ink=Ink.LEADER)]
    lower = tuple((px, py + 1.4) for px, py in reversed(upper))
    edges = [Line(points=tuple(upper), ink=Ink.CUT), Line(points=lower, ink=Ink.CUT)]
    return [Area((*upper, *lower), Fill(blank), None), *edges]


def _told_use(use: StripUse, strip: Strip, part: Text) -> Text:
    """What a kind of strip gives of one part, and how many of the cuts are cut again in which way where
    both occur."""
    cuts = plural_phrase("{n} cut for {part}", "{n} cuts for {part}", use.cuts, part=part)
    placed = [cut for layout in strip.layouts for cut in layout if cut.name == use.name]
    ways = Counter(cut.diagonal for cut in placed)
    if not (ways[Diagonal.RISING] and ways[Diagonal.FALLING]):
        return cuts
    return phrase(
        "{cuts} ({rising} from bottom left to top right, {falling} from top left to bottom right)",
        cuts=cuts,
        rising=ways[Diagonal.RISING],
        falling=ways[Diagonal.FALLING],
    )


def told_cutting(size: SizePlan, plan: FabricPlan) -> Text:
    """The cutting of a fabric in words, strip by strip."""
    units = size.pattern.units
    letters = {p.name: p.name if p.name in size.letters else p.title for p in size.cutting.patches}
    lines = []
    for number, strip in enumerate(plan.strips, 1):
        uses = [_told_use(use, strip, letters.get(use.name, use.name)) for use in strip.uses]
        strips = plural_phrase(
            "{number}: {n} strip {width} wide",
            "{number}: {n} strips {width} wide",
            strip.count,
            number=number,
            width=with_unit(float(strip.width), units, Printed.CUT),
        )
        if uses:
            strips = phrase("{strips}, giving {uses}", strips=strips, uses=listing(uses))
        lines.append(strips)
    cloth = phrase(
        "Cloth with {width} of usable width, selvedges left and right.",
        width=at_least(plan.width, units),
    )
    if not lines:
        return cloth
    across = phrase("Across it, from the top: {strips}.", strips=listing(lines, "semicolons"))
    return listing((cloth, across), "sentences")
