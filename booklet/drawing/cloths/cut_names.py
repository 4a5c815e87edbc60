"""Floor 10: what is written on a strip of cloth: the letters of its cuts, and the size of what is left over."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from booklet.cutting.cutting_plan import Placed
from booklet.drawing.lettering.labels import letter_in, plate_radius
from booklet.drawing.lettering.text_widths import text_width
from booklet.drawing.quilts.patchwork import together
from booklet.drawing.scene import Area, Fill, Ink, Item, Label
from booklet.kit.near import ONE_POINT
from booklet.kit.plane import Point, box_of
from booklet.kit.polygon import area_of, roomiest

SMALL = 7.0  # points
LINE = 3.0  # mm that a line of small letters takes

Shape = tuple[str, tuple[Point, ...]]


@dataclass(frozen=True, slots=True)
class Drawn:
    """A cut in mm: its name, its outline, and the patches it gives; what else it holds is waste."""

    name: str
    outline: tuple[Point, ...]
    patches: tuple[tuple[Point, ...], ...]

    @property
    def whole(self) -> Shape:
        """Its name and outline."""
        return self.name, self.outline


def drawn(cut: Placed, put: Callable[[Point], Point]) -> Drawn:
    """A cut of the plan where `put` moves its points."""
    outline, *patches = (
        tuple(put(point) for point in points) for points in (cut.outline, *cut.shapes)
    )
    return Drawn(cut.name, outline, tuple(patches))


def cuts_on(cuts: Iterable[Drawn], look: Fill) -> list[Area]:
    """The cuts on their cloth: what is waste of them hatched as left over, the patches upon it."""
    waste, patches, edges = list[Area](), list[Area](), list[Area]()
    for cut in cuts:
        if sum(abs(area_of(p)) for p in cut.patches) < abs(area_of(cut.outline)) * 0.999:
            waste.append(Area(cut.outline, Fill("#ffffff", 1, tint=True), Ink.LEFTOVER))
            edges.append(Area(cut.outline, None, Ink.FINE))
        patches += [Area(points, look, Ink.FINE) for points in cut.patches]
    return [*together(waste), *together(patches), *together(edges)]


def names_on(cuts: Sequence[Drawn], letters: Mapping[str, str]) -> list[Item]:
    """The letter of every cut, in its first patch, where it fits; of those too small for it one letter for
    all, with the number of patches."""
    items: list[Item] = []
    bare: dict[str, list[Drawn]] = {}
    for cut in cuts:
        text = letters.get(cut.name, cut.name)
        label = _label(cut.patches[0], text)
        if label is None:
            bare.setdefault(cut.name, []).append(cut)
        else:
            items.append(label)
    written = {item.text for item in items if isinstance(item, Label)}
    for name, alike in bare.items():
        text = letters.get(name, name)
        if text in written and len(alike) < 3:
            continue
        left, top, right, bottom = box_of([point for cut in alike for point in cut.outline])
        count = sum(len(cut.patches) for cut in alike)
        words = text if count == 1 else f"{text} × {count}"
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


def widest_gap(shapes: Sequence[Shape], left: float, right: float) -> tuple[float, float]:
    """The widest stretch from left to right that no cut lies in."""
    end, best = left, (right, right)
    for start, stop in sorted((box_of(s)[0], box_of(s)[2]) for _, s in shapes):
        if start - end > best[1] - best[0] + ONE_POINT:
            best = (end, start)
        end = max(end, stop)
    return (end, right) if right - end > best[1] - best[0] - ONE_POINT else best


def leftover_label(gap: tuple[float, float], top: float, high: float, size: str) -> list[Item]:
    """The size of what is left over, in its middle, if it has room there."""
    wide = gap[1] - gap[0]
    middle = ((gap[0] + gap[1]) / 2, top + high / 2)
    if high >= LINE and text_width(size, SMALL) + 2.0 <= wide:
        return [Label(middle, size, SMALL, muted=True, halo=True)]
    if wide >= LINE and text_width(size, SMALL) + 2.0 <= high:
        return [Label(middle, size, SMALL, muted=True, halo=True, turn=-90.0)]
    return []
