"""Floor 10: what is written on a strip of cloth: the letters of its cuts, and the size of what is left over."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from booklet.cutting.cutting_plan import Method
from booklet.drawing.labels import letter_in, plate_radius
from booklet.drawing.lettering import text_width
from booklet.drawing.plane import box_of, roomiest
from booklet.drawing.scene import Item, Label, Point

SMALL = 7.0  # points
LINE = 3.0  # mm that a line of small letters takes

Shape = tuple[str, tuple[Point, ...]]


def names_on(
    shapes: Sequence[Shape], letters: Mapping[str, str], methods: Mapping[str, Method]
) -> list[Item]:
    """The letter of every cut where it fits; of cuts too small for it one letter for all, with their number."""
    items: list[Item] = []
    bare: dict[str, list[tuple[Point, ...]]] = {}
    for name, whole in shapes:
        points = first_triangle(methods.get(name), whole)
        text = letters.get(name, name)
        label = _label(points, text)
        if label is None:
            bare.setdefault(name, []).append(points)
        else:
            items.append(label)
    written = {item.text for item in items if isinstance(item, Label)}
    for name, outlines in bare.items():
        text = letters.get(name, name)
        if len(outlines) == 2 or (text in written and len(outlines) < 3):
            continue
        left, top, right, bottom = box_of([point for outline in outlines for point in outline])
        words = text if len(outlines) == 1 else f"{text} × {len(outlines)}"
        middle = ((left + right) / 2, (top + bottom) / 2)
        long = text_width(words, SMALL)
        if long <= right - left:
            items.append(Label(middle, words, SMALL, bold=True, halo=True))
        elif long <= bottom - top:
            items.append(Label(middle, words, SMALL, bold=True, halo=True, turn=-90.0))
    return items


def _label(points: tuple[Point, ...], text: str) -> Label | None:
    """A cut's letter or name in it, upright along a narrow cut; None where there is no room."""
    label = letter_in(points, text, 8.0, room=0.1)
    at, room = roomiest(points)
    left, top, right, bottom = box_of(points)
    if label is not None and label.size >= SMALL and plate_radius(text, label.size) <= room:
        return Label(at, text, label.size, bold=True)
    wide = 2 * plate_radius(text, SMALL)
    if right - left > wide and bottom - top >= LINE:
        return Label(at, text, SMALL, bold=True)
    if bottom - top > wide and right - left >= LINE:
        return Label(((left + right) / 2, (top + bottom) / 2), text, SMALL, bold=True, turn=-90.0)
    return None


def first_triangle(method: Method | None, points: tuple[Point, ...]) -> tuple[Point, ...]:
    """Where the letter of a cut goes: the whole of it, or the triangle it is cut into."""
    left, top, right, bottom = box_of(points)
    if method is Method.HALF_SQUARE:
        return (left, top), (right, top), (left, bottom)
    if method is Method.QUARTER_SQUARE:
        return (left, top), (right, top), ((left + right) / 2, (top + bottom) / 2)
    return points


def widest_gap(shapes: Sequence[Shape], left: float, right: float) -> tuple[float, float]:
    """The widest stretch from left to right that no cut lies in."""
    end, best = left, (right, right)
    for start, stop in sorted((box_of(s)[0], box_of(s)[2]) for _, s in shapes):
        if start - end > best[1] - best[0] + 1e-6:
            best = (end, start)
        end = max(end, stop)
    return (end, right) if right - end > best[1] - best[0] - 1e-6 else best


def leftover_label(gap: tuple[float, float], top: float, high: float, size: str) -> list[Item]:
    """The size of what is left over, in its middle, if it has room there."""
    wide = gap[1] - gap[0]
    middle = ((gap[0] + gap[1]) / 2, top + high / 2)
    if high >= LINE and text_width(size, SMALL) + 2.0 <= wide:
        return [Label(middle, size, SMALL, muted=True, halo=True)]
    if wide >= LINE and text_width(size, SMALL) + 2.0 <= high:
        return [Label(middle, size, SMALL, muted=True, halo=True, turn=-90.0)]
    return []
