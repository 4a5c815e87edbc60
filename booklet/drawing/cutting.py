"""Floor 10: how the cloth is cut: strips in order across it, cross-cuts, what is left over."""

from __future__ import annotations

from dataclasses import dataclass

from booklet.cutting.cutting_plan import FabricPlan, Method, Placed, Strip
from booklet.drawing.cuts import box_at, cut_text, diagonals
from booklet.drawing.fills import Looks, tinted
from booklet.drawing.labels import letter_in, plate_radius
from booklet.drawing.patchwork import together
from booklet.drawing.plane import box_of, roomiest
from booklet.drawing.scene import (
    Area,
    Figure,
    Fill,
    Ink,
    Item,
    Label,
    Line,
    Point,
    Scene,
)
from booklet.drawing.svg import figure
from booklet.plan import SizePlan
from booklet.plan.words import listed, plural

LEFT, RIGHT = 25.0, 16.0  # mm for the measures and the counts beside the cloth
LEAST = 5.5  # mm: a strip is drawn at least so high, so that its letter can be read
MOST = 24.0  # mm: a wider strip is drawn with a break
BREAK = 2.6  # mm left open where cloth is left out


@dataclass(frozen=True, slots=True)
class StripRow:
    """Alike strips drawn once: cut width in inches, how many, and one of their layouts."""

    strip: Strip
    count: int
    layout: tuple[Placed, ...]
    start: float


def strip_rows(plan: FabricPlan) -> list[StripRow]:
    """The strips in cutting order, those with the same cuts taken together."""
    rows: list[StripRow] = []
    for strip in plan.strips:
        kinds: dict[tuple[tuple[str, int], ...], list[int]] = {}
        for i, layout in enumerate(strip.layouts):
            kinds.setdefault(tuple(_counted(layout)), []).append(i)
        if not strip.layouts:
            rows.append(StripRow(strip, strip.count, (), strip.starts[0] if strip.starts else 0.0))
        for found in kinds.values():
            first = found[0]
            start = strip.starts[first] if first < len(strip.starts) else 0.0
            rows.append(StripRow(strip, len(found), strip.layouts[first], start))
    return sorted(rows, key=lambda row: row.start)


def _counted(layout: tuple[Placed, ...]) -> list[tuple[str, int]]:
    """The cuts of one strip by name and number."""
    names = [placed.name for placed in layout]
    return sorted((name, names.count(name)) for name in set(names))


def cloth_figure(size: SizePlan, plan: FabricPlan, looks: Looks, width: float = 170.0) -> Figure:
    """The cloth of one fabric with its strips in order, `width` mm wide."""
    wide = float(plan.width)
    scale = (width - LEFT - RIGHT) / wide
    look = tinted(looks[plan.fabric])
    items: list[Item] = []
    y = 9.0
    rows = strip_rows(plan)
    items += _fold(size, plan, scale)
    letters = _part_letters(size)
    methods = {p.name: p.method for p in size.cutting.patches if p.fabric == plan.fabric}
    for number, row in enumerate(rows, 1):
        high = min(max(float(row.strip.width) * scale, LEAST), MOST)
        items += _row(
            size, row, number, (LEFT, y, wide * scale, high), scale, look, letters, methods
        )
        y += high
        if row.count > 1:
            items += _torn((LEFT, y, wide * scale))
            y += BREAK
    if not rows:
        y += 8.0
    items += _selvedges(9.0, y, wide * scale)
    height = y + 3.0
    name = f"{size.size.id}-cloth-{plan.fabric}"
    title = f"Cutting {size.fabric(plan.fabric).name}"
    scene = Scene(name, width, height, tuple(items), title, told_cutting(size, plan))
    count = sum(row.count for row in rows)
    caption = f"{size.fabric(plan.fabric).name}: {plural(count, 'strip')}, cut in the order of the numbers."
    return figure(scene, caption)


def _fold(size: SizePlan, plan: FabricPlan, scale: float) -> list[Item]:
    """The usable width on top, with the fold's middle line named."""
    right = LEFT + float(plan.width) * scale
    text = f"usable width {cut_text(float(plan.width), size.pattern.units)}"
    y = 6.5
    line = Line(((LEFT, y), (right, y)), Ink.RULE, True, True)
    middle = (LEFT + right) / 2
    return [
        line,
        Label((middle, 2.6), text, 8.0),
        Label((LEFT, 2.6), "selvedge", 7.0, "start", muted=True),
        Label((right, 2.6), "selvedge", 7.0, "end", muted=True),
    ]


def _selvedges(top: float, bottom: float, wide: float) -> list[Item]:
    """Dotted selvedges at both sides, and the fold in the middle."""
    return [
        Line(((LEFT - 0.5, top), (LEFT - 0.5, bottom)), Ink.SELVEDGE),
        Line(((LEFT + wide + 0.5, top), (LEFT + wide + 0.5, bottom)), Ink.SELVEDGE),
        Line(((LEFT + wide / 2, bottom), (LEFT + wide / 2, bottom + 2.2)), Ink.FOLD),
        Label((LEFT + wide / 2 + 1.2, bottom + 1.6), "fold", 7.0, "start", muted=True),
    ]


def _row(
    size: SizePlan,
    row: StripRow,
    number: int,
    box: tuple[float, float, float, float],
    scale: float,
    look: Fill,
    letters: dict[str, str],
    methods: dict[str, Method],
) -> list[Item]:
    """One strip: leftover behind, the cuts upon it, its number and width at the left, its count."""
    x, y, wide, high = box
    items: list[Item] = [
        Area(box_at(x, y, wide, high), Fill("#ffffff", 1, tint=True), Ink.LEFTOVER)
    ]
    stretch = high / max(float(row.strip.width), 1e-6)
    shapes = []
    for placed in row.layout:
        points = tuple(
            (x + px * scale, y + (py - row.start) * stretch) for px, py in placed.outline
        )
        shapes.append((placed.name, points))
    shapes.sort(key=lambda shape: box_of(shape[1])[0])
    items += together(Area(points, look, Ink.FINE) for _, points in shapes)
    items += [line for name, points in shapes for line in diagonals(methods.get(name), points)]
    if float(row.strip.width) * scale > MOST:
        items += _torn((x, y + high * 0.72, wide), "#ffffff")
    items += _names(shapes, letters, methods)
    items.append(Area(box_at(x, y, wide, high), None, Ink.CUT))
    middle = y + high / 2
    items.append(Label((4.0, middle), str(number), 8.0, bold=True, plate=True))
    items.append(
        Label(
            (LEFT - 2.0, middle),
            cut_text(float(row.strip.width), size.pattern.units),
            8.0,
            "end",
            bold=True,
        )
    )
    if row.count > 1:
        items.append(Label((x + wide + 2.2, middle), f"× {row.count}", 9.0, "start", bold=True))
    return items


def _names(
    shapes: list[tuple[str, tuple[Point, ...]]],
    letters: dict[str, str],
    methods: dict[str, Method],
) -> list[Item]:
    """The letter of every cut where it fits; of a run of alike cuts at least one, with their number."""
    items: list[Item] = []
    for name, whole in shapes:
        points = _first_triangle(methods.get(name), whole)
        text = letters.get(name, name)
        label = letter_in(points, text, 8.0, room=0.1)
        at, room = roomiest(points)
        left, _, right, _ = box_of(points)
        if label is not None and plate_radius(text, label.size) <= room:
            items.append(Label(at, text, label.size, bold=True))
        elif right - left > 2 * plate_radius(text, 7.0):
            items.append(Label(at, text, 7.0, bold=True))
    return items


def _first_triangle(method: Method | None, points: tuple[Point, ...]) -> tuple[Point, ...]:
    """Where the letter of a cut goes: the whole of it, or the triangle it is cut into."""
    left, top, right, bottom = box_of(points)
    if method is Method.HALF_SQUARE:
        return (left, top), (right, top), (left, bottom)
    if method is Method.QUARTER_SQUARE:
        return (left, top), (right, top), ((left + right) / 2, (top + bottom) / 2)
    return points


def _part_letters(size: SizePlan) -> dict[str, str]:
    """What is printed on a cut: patch letters as they are, parts by their title."""
    return {
        patch.name: patch.name if patch.name in size.letters else patch.title
        for patch in size.cutting.patches
    }


def _torn(place: tuple[float, float, float], blank: str | None = None) -> list[Item]:
    """A broken edge where cloth or alike strips are left out."""
    x, y, wide = place
    upper = [(x + wide * i / 40, y + (0.4 if i % 2 else BREAK - 1.0)) for i in range(41)]
    if blank is None:
        return [Line(tuple(upper), Ink.LEADER)]
    lower = tuple((px, py + 1.4) for px, py in reversed(upper))
    edges = [Line(tuple(upper), Ink.CUT), Line(lower, Ink.CUT)]
    return [Area((*upper, *lower), Fill(blank), None), *edges]


def told_cutting(size: SizePlan, plan: FabricPlan) -> str:
    """The cutting of a fabric in words, strip by strip."""
    units = size.pattern.units
    letters = _part_letters(size)
    lines = []
    for number, strip in enumerate(plan.strips, 1):
        uses = [f"{use.cuts} cuts for {letters.get(use.name, use.name)}" for use in strip.uses]
        what = f" give {listed(uses)}" if uses else ""
        lines.append(
            f"{number}: {plural(strip.count, 'strip')} {cut_text(float(strip.width), units)} wide{what}"
        )
    cloth = f"Cloth with {cut_text(float(plan.width), units)} of usable width, selvedges left and right."
    return f"{cloth} Across it, from the top: {'; '.join(lines)}." if lines else cloth
