"""Floor 13, reference: sketches of what a pattern says and no picture of a booklet shows: a bed, the sheets of an edition,
the day of a class, a look. In English, as all of the help is."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from booklet.drawing.ink.svg import figure
from booklet.drawing.lettering.text_widths import wrapped
from booklet.drawing.scene import Area, Figure, Fill, Ink, Item, Label, Line, Scene
from booklet.kit.outlines.plane import Point, rectangle
from booklet.pages.sections import PAGE_TITLES
from booklet.pattern import Bed, Edition, Lesson, Look

PAPER, CLOTH, PILLOW = Fill("#ffffff"), Fill("#e9dcc3"), Fill("#f6f1e6")
SHEET = (22.0, 29.0)  # mm: a page in little
GAP = 4.0
PER_HOUR = 34.0  # mm of a day


def bed_sketch(bed: Bed, width: float, length: float, drop: float, tuck: float) -> Figure:
    """A quilt on its bed, seen from above: the mattress dashed, `width` by `length` inches, the drop on three sides and
    what is tucked in under the pillow, each with its measure."""
    mm = 46.0 / (width + 2 * drop)
    left, top = 8.0, 7.0
    across, down = (width + 2 * drop) * mm, (length + drop + tuck) * mm
    inner = rectangle(left + drop * mm, top + tuck * mm, width * mm, length * mm)
    (x1, y1), (x2, y2) = inner[0], inner[2]
    half, low = left + across / 2, y2 + drop * mm / 2
    items: list[Item] = [
        Area(rectangle(left, top, across, down), CLOTH, Ink.RIM),
        Area(rectangle(x1 + 3, y1 + 2, x2 - x1 - 6, 7.0), PILLOW, Ink.CONTEXT),
        Line(points=(*inner, inner[0]), ink=Ink.SEAM_LINE),
        Label(at=(half, (y1 + y2) / 2), text=f"mattress: {bed.mattress}", size=8.5, halo=True),
        Label(at=(half, (y1 + y2) / 2 + 4.5), text=f"{width:g} × {length:g} in", size=8.0, halo=True),
        Label(at=(half, low), text=f"drop {drop:g} in", halo=True),
        Line(points=((x2, (y1 + y2) / 2 + 14), (left + across, (y1 + y2) / 2 + 14)), ink=Ink.LEADER, start_arrow=True, end_arrow=True),
        Label(at=((x2 + left + across) / 2, (y1 + y2) / 2 + 10.5), text="drop", size=7.5, halo=True),
        Label(at=(half, (top + y1) / 2), text=f"tuck {tuck:g} in", halo=True),
    ]  # fmt: skip
    title = "A quilt on a bed, from above: the mattress dashed, the drop at both sides and the foot, the tuck at the head"
    return _sketch("bed", items, (across + 2 * left, down + 2 * top), title)


def sheets_sketch(editions: Iterable[Edition]) -> Figure:
    """The pages of some editions in little, in order, a row for each edition."""
    items: list[Item] = []
    y, widest = 1.0, 0.0
    for edition in editions:
        items.append(
            Label(at=(1.0, y + 2.5), text=edition.called, size=9.0, anchor="start", bold=True)
        )
        y += 6.0
        rows = [edition.pages[n : n + 6] for n in range(0, len(edition.pages), 6)]
        for row in rows:
            for n, page in enumerate(row):
                x = 1.0 + n * (SHEET[0] + GAP)
                title = str(PAGE_TITLES.get(page.name, page.name.rpartition("/")[2]))
                items += _sheet((x, y), "Cover" if page.name == "cover" else title)
                widest = max(widest, x + SHEET[0])
            y += SHEET[1] + GAP
    return _sketch("sheets", items, (widest + 1, y), "The pages of an edition, in order")


def day_sketch(lesson: Lesson) -> Figure:
    """The stretches of a class along the clock, each as wide as it is long; breaks are left white."""
    x, y, items = 8.0, 8.0, list[Item]()
    start = lesson.start or 0
    for session in lesson.sessions:
        start = start if session.start is None else session.start
        wide = session.minutes / 60 * PER_HOUR
        fill = PAPER if session.is_break else CLOTH
        items.append(Area(rectangle(x, y, wide, 16.0), fill, Ink.PATCH))
        lines = wrapped(session.title, 8.0, wide - 2)
        items += [
            Label(at=(x + wide / 2, y + 8 + 3.6 * (n - (len(lines) - 1) / 2)), text=line, size=8.0)
            for n, line in enumerate(lines)
        ]
        items.append(_clock(x, y, start))
        start, x = start + session.minutes, x + wide
    items.append(_clock(x, y, start))
    return _sketch("day", items, (x + 8, y + 17), "A class along the clock; breaks are white")


def look_sketch(look: Look) -> Figure:
    """A sheet with a title, on the ground and in the colour that a look gives it."""
    ground = Fill(look.ground.colour) if look.ground else PAPER
    band = Fill(look.title_colour.colour) if look.title_colour else Fill("#222222")
    title = next(iter(look.titles.values()), "Title")
    wide, tall = 44.0, 34.0
    items: list[Item] = [
        Area(rectangle(1, 1, wide, tall), ground, Ink.RIM),
        Area(rectangle(5, 6, 3, 6), band, None),
        Label(at=(10, 9), text=title, size=13.0, anchor="start", bold=True),
        *_grey_lines((5, 17), wide - 8, 4),
    ]
    return _sketch(
        "look",
        items,
        (wide + 2, tall + 2),
        "A page: its ground, the colour and the words of its title",
    )


def _sheet(corner: Point, title: str) -> list[Item]:
    """A page in little: its title, and lines for what stands below it."""
    x, y = corner
    words = wrapped(title, 7.0, SHEET[0] - 3)
    items: list[Item] = [Area(rectangle(x, y, *SHEET), PAPER, Ink.CONTEXT)]
    items += [
        Label(at=(x + 1.5, y + 3.5 + 3.2 * n), text=line, size=7.0, anchor="start")
        for n, line in enumerate(words)
    ]
    top = y + 6 + 3.2 * len(words)
    return [*items, *_grey_lines((x + 1.5, top), SHEET[0] - 3, int((y + SHEET[1] - top) / 3))]


def _grey_lines(start: Point, wide: float, many: int) -> list[Item]:
    """Lines in place of words, the last one short."""
    x, y = start
    return [
        Line(points=((x, y + 3 * n), (x + (wide if n < many - 1 else wide / 2), y + 3 * n)), ink=Ink.CONTEXT)
        for n in range(many)
    ]  # fmt: skip


def _clock(x: float, y: float, minutes: int) -> Item:
    return Label(at=(x, y - 4), text=f"{minutes // 60}:{minutes % 60:02}", size=8.0)


def _sketch(name: str, items: Sequence[Item], room: tuple[float, float], title: str) -> Figure:
    scene = Scene.of(f"sketch-{name}", (room[0], room[1]), items, title, title)  # fmt: skip
    return figure(scene, title)
