"""Floor 10: letter, words and grain arrow of a template, clear of each other."""

from __future__ import annotations

import math

from booklet.drawing.labels import label_box, letter_in
from booklet.drawing.plane import Box, box_of, centroid, depth, plus, roomiest, vector
from booklet.drawing.scene import Ink, Item, Label, Line, Point
from booklet.drawing.template_layout import WORDS, Template


def words_on(template: Template, seam: tuple[Point, ...], foot: Point) -> list[Item]:
    """Letter, words and grain arrow: inside the seam line, or the words from `foot` down."""
    at, _ = roomiest(seam)
    items: list[Item] = []
    if template.words_inside:
        taken = template.words_box(at)
        items.append(Label((at[0], taken[1] + 2.8), template.letter, 16.0, bold=True, halo=True))
        top, x, anchor = taken[1] + 7.4, at[0], "middle"
    else:
        size = (letter_in(seam, template.letter, 14.0, room=0.2) or Label(at, "", 8.0)).size
        taken = label_box(Label(at, template.letter, size, bold=True))
        items.append(Label(at, template.letter, size, bold=True, halo=True))
        top, x, anchor = foot[1] + 2.6, foot[0], "start"
    for i, text in enumerate(template.lines):
        place = (x, top + 3.5 * i)
        items.append(Label(place, text, WORDS, anchor, bold=i == 0, halo=template.motif))
    items += _grain(template, seam, taken)
    return [*_cross_hairs(seam, taken), *items] if template.motif else items


def _grain(template: Template, seam: tuple[Point, ...], taken: Box) -> list[Item]:
    """The grain arrow: as long as fits inside the seam line clear of `taken`, near the middle."""
    way = vector(template.grain)
    left, top, right, bottom = box_of(seam)
    centre = ((left + right) / 2, (top + bottom) / 2)
    best: tuple[float, Point, float] | None = None
    for i in range(1, 16):
        for j in range(1, 16):
            at = (left + (right - left) * i / 16, top + (bottom - top) * j / 16)
            half = _arrow_room(at, way, seam, taken)
            score = half - 0.04 * math.dist(at, centre)
            if half >= 2.4 and (best is None or score > best[0] + 1e-9):
                best = (score, at, half)
    if best is None:
        return []
    _, at, half = best
    return [Line((plus(at, way, half), plus(at, way, -half)), Ink.GRAIN, True, True)]


def _arrow_room(at: Point, way: Point, seam: tuple[Point, ...], taken: Box) -> float:
    """Half the length an arrow may have at a point, at most 12 mm."""
    half = 0.0
    if depth(at, seam) < 1.2 or _in_box(at, taken, 1.6):
        return half
    while half < 12.0:
        ends = (plus(at, way, half + 0.5), plus(at, way, -half - 0.5))
        if any(depth(end, seam) < 1.2 or _in_box(end, taken, 1.6) for end in ends):
            break
        half += 0.5
    return half


def _in_box(p: Point, box: Box, by: float) -> bool:
    """Whether a point lies in a box widened by `by`."""
    return box[0] - by < p[0] < box[2] + by and box[1] - by < p[1] < box[3] + by


def _cross_hairs(seam: tuple[Point, ...], taken: Box) -> list[Item]:
    """Thin lines toward the middle of the patch, where the motif's middle belongs; none in `taken`."""
    middle = centroid(seam)
    left, top, right, bottom = box_of(seam)
    ends = ((left, middle[1]), (right, middle[1]), (middle[0], top), (middle[0], bottom))
    return [
        Line((end, stop), Ink.GUIDE)
        for end in ends
        if math.dist(end, stop := _before(end, middle, taken)) > 2
    ]


def _before(end: Point, middle: Point, taken: Box) -> Point:
    """Where a line from `end` to `middle`, upright or level, comes within 1 mm of a box."""
    left, top, right, bottom = taken[0] - 1, taken[1] - 1, taken[2] + 1, taken[3] + 1
    if end[0] == middle[0]:
        if not left < end[0] < right:
            return middle
        return end[0], min(top, middle[1]) if end[1] < middle[1] else max(bottom, middle[1])
    if not top < end[1] < bottom:
        return middle
    return (min(left, middle[0]) if end[0] < middle[0] else max(right, middle[0])), end[1]
