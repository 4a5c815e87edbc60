"""Floor 10: letter, words and grain arrow of a template, clear of each other."""

from __future__ import annotations

import math

from booklet.drawing.lettering.labels import label_box, letter_in
from booklet.drawing.lettering.text_widths import text_width
from booklet.drawing.scene import Anchoring, Ink, Item, Label, Line
from booklet.drawing.templates.template_layout import WORDS, FoundationCell, Template
from booklet.drawing.templates.template_ups import rows_of
from booklet.kit.outlines.near import NO_LENGTH, NOISE, NOTHING
from booklet.kit.outlines.plane import Box, Point, box_of, corners, cross, minus, plus, vector
from booklet.kit.outlines.polygon import best_place, centroid, depth, edges, half_plane, roomiest

CROSS = 4.0  # mm each way from the middle of a window
SHORTEST, LONGEST = 2.4, 12.0  # mm: half of a grain arrow
TICK = 4.5  # mm of the marks on its frame


def words_on(template: Template, seam: tuple[Point, ...], foot: Point) -> list[Item]:
    """Letter, words and grain arrow: inside the seam line, or the words from `foot` down."""
    items: list[Item] = []
    if template.cells:
        return [*cells_on(template, minus(seam[0], template.seam[0])), *_foot(template, foot)]
    at, _ = roomiest(seam)
    if template.motif:
        return _window(template, seam, foot)
    anchor: Anchoring = "middle" if template.words_inside else "start"
    if template.words_inside:
        taken = template.words_box(at)
        items.append(
            Label(at=(at[0], taken[1] + 2.8), text=template.letter, size=16.0, bold=True, halo=True)
        )
        top, x = taken[1] + 7.4, at[0]
    else:
        size = (
            letter_in(seam, template.letter, 14.0, room=0.2) or Label(at=at, text="", size=8.0)
        ).size
        taken = label_box(Label(at=at, text=template.letter, size=size, bold=True))
        items.append(Label(at=at, text=template.letter, size=size, bold=True, halo=True))
        top, x = foot[1] + 2.6, foot[0]
    for i, text in enumerate(template.lines):
        place = (x, top + 3.5 * i)
        items.append(Label(at=place, text=text, size=WORDS, anchor=anchor, bold=i == 0))
    below = top + 3.5 * len(template.lines) - 1.8
    items += rows_of(template.ups, below, x, template.words_inside)
    return [*items, *_grain(template, seam, taken)]


def _foot(template: Template, foot: Point) -> list[Item]:
    """The words below a template."""
    return [
        Label(
            at=plus(foot, (0.0, 2.6 + 3.5 * i)), text=text, size=WORDS, anchor="start", bold=i == 0
        )
        for i, text in enumerate(template.lines)
    ]


def cells_on(template: Template, corner: Point, box: Box | None = None) -> list[Item]:
    """The number of each piece of a foundation, with its cloth where there is room, and what is joined at its edges;
    in a tile (`box`) what its middle holds."""
    items: list[Item] = []
    for cell in template.cells:
        outline = tuple(cell.points) if box is None else _in_tile(cell.points, box)
        if outline:
            items += _cell(cell, tuple(plus(p, corner) for p in outline))
    for side in template.sides:
        (at,) = side.points
        if box is None or _in_box(at, box, -1.0):
            items.append(
                Label(at=plus(at, corner), text=side.text, size=7.0, muted=True, halo=True)
            )
    return items


def _in_tile(points: tuple[Point, ...], box: Box) -> tuple[Point, ...]:
    """The part of a piece in a tile; nothing where little of it lies there."""
    left, top, right, low = box
    for at, inward in (
        ((left, top), (1.0, 0.0)),
        ((left, top), (0.0, 1.0)),
        ((right, low), (-1.0, 0.0)),
        ((right, low), (0.0, -1.0)),
    ):
        points = half_plane(points, at, inward)
        if len(points) < 3:
            return ()
    return points


def _cell(cell: FoundationCell, outline: tuple[Point, ...]) -> list[Item]:
    """Number and cloth of one piece, as large as they have room; the number alone where that is little."""
    at, _ = roomiest(outline)
    for size, small in ((12.0, 7.5), (10.0, 7.0), (9.0, 7.0)):
        wide = max(text_width(cell.text, size), text_width(cell.below, small)) / 2 + 0.6
        high = (size + small) * 0.19 + 0.6
        if _holds(outline, at, wide, high):
            up = small * 0.19
            return [
                Label(at=plus(at, (0.0, -up)), text=cell.text, size=size, bold=True),
                Label(at=plus(at, (0.0, size * 0.19 + 0.4)), text=cell.below, size=small),
            ]
    sizes = (9.0, 8.0, 7.0)
    size = next(
        (s for s in sizes if _holds(outline, at, text_width(cell.text, s) / 2 + 0.3, s * 0.18)), 7.0
    )
    return [Label(at=at, text=cell.text, size=size, bold=True, halo=True)]


def _holds(outline: tuple[Point, ...], at: Point, wide: float, high: float) -> bool:
    """Whether a box about a point lies inside an outline."""
    box = corners((at[0] - wide, at[1] - high, at[0] + wide, at[1] + high))
    return all(depth(corner, outline) > 0.3 for corner in box)


def _grain(template: Template, seam: tuple[Point, ...], taken: Box) -> list[Item]:
    """The grain arrow: as long as fits inside the seam line clear of `taken`, near the middle."""
    way = vector(template.grain)
    left, top, right, bottom = box_of(seam)
    centre = ((left + right) / 2, (top + bottom) / 2)

    def most(at: Point) -> float:
        (x, y), (across, down) = at, way
        rooms = [(x - left, across), (right - x, across), (y - top, down), (bottom - y, down)]
        fits = min(room / max(abs(part), NO_LENGTH) for room, part in rooms)
        return min(fits, LONGEST) - 0.04 * math.dist(at, centre)

    def worth(at: Point, least: float) -> float:
        half = _arrow_room(at, way, seam, taken)
        return half - 0.04 * math.dist(at, centre) if half >= SHORTEST else -math.inf

    at, _ = best_place((left, top, right, bottom), 16, most, worth)
    half = _arrow_room(at, way, seam, taken)
    if half < SHORTEST:
        return []
    return [
        Line(
            points=(plus(at, way, half), plus(at, way, -half)),
            ink=Ink.GRAIN,
            start_arrow=True,
            end_arrow=True,
        )
    ]


def _arrow_room(at: Point, way: Point, seam: tuple[Point, ...], taken: Box) -> float:
    """Half the length an arrow may have at a point, at most LONGEST mm."""
    half = 0.0
    if depth(at, seam) < 1.2 or _in_box(at, taken, 1.6):
        return half
    while half < LONGEST:
        ends = (plus(at, way, half + 0.5), plus(at, way, -half - 0.5))
        if any(depth(end, seam) < 1.2 or _in_box(end, taken, 1.6) for end in ends):
            break
        half += 0.5
    return half


def _in_box(p: Point, box: Box, by: float) -> bool:
    """Whether a point lies in a box widened by `by`."""
    return box[0] - by < p[0] < box[2] + by and box[1] - by < p[1] < box[3] + by


def _window(template: Template, seam: tuple[Point, ...], foot: Point) -> list[Item]:
    """A window template: a cross at the motif's middle, its ends marked on the frame, which stays when the
    window is cut out; the words below."""
    middle = centroid(seam)
    box = (middle[0] - CROSS, middle[1] - CROSS, middle[0] + CROSS, middle[1] + CROSS)
    items: list[Item] = []
    for way in ((1.0, 0.0), (0.0, 1.0)):
        items.append(
            Line(points=(plus(middle, way, -CROSS), plus(middle, way, CROSS)), ink=Ink.GUIDE)
        )
        for sign in (1.0, -1.0):
            edge = _edge(middle, (way[0] * sign, way[1] * sign), seam)
            out = plus(edge, way, sign * TICK)
            items.append(Line(points=(edge, out), ink=Ink.CUT))
    for i, text in enumerate(template.lines):
        place = (foot[0], foot[1] + 2.6 + 3.5 * i)
        items.append(Label(at=place, text=text, size=WORDS, anchor="start", bold=i == 0))
    items += rows_of(template.ups, foot[1] + 0.8 + 3.5 * len(template.lines), foot[0], False)
    return [*items, *_grain(template, seam, box)]


def _edge(middle: Point, way: Point, seam: tuple[Point, ...]) -> Point:
    """Where a ray from the middle of the window last leaves it."""
    found = 0.0
    for a, b in edges(seam):
        side, off = minus(b, a), minus(a, middle)
        fall = cross(way, side)
        if abs(fall) < NOTHING:
            continue
        far, share = cross(off, side) / fall, cross(off, way) / fall
        if -NOISE <= share <= 1 + NOISE:
            found = max(found, far)
    return plus(middle, way, found)
