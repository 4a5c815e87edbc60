"""Floor 10: what is written on a strip of cloth: the letters of its cuts, and the size of what is left over."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence

from booklet.cutting.cutting_plan import Placed
from booklet.drawing.lettering.labels import label_box, letter_in, plate_radius
from booklet.drawing.lettering.text_widths import NO_BREAK, text_width, wrapped
from booklet.drawing.quilts.patchwork import together
from booklet.drawing.scene import Area, Fill, Ink, Item, Label
from booklet.kit.outlines.near import ONE_POINT
from booklet.kit.outlines.plane import Box, Point, box_of, overlap
from booklet.kit.outlines.polygon import area_of, roomiest
from booklet.kit.records import Record
from booklet.kit.words import Speaker, listing

SMALL = 7.0  # points
KEY = 7.5  # points, under the picture
LINE = 3.0  # mm that a line of small letters takes

Shape = tuple[str, tuple[Point, ...]]


class DrawnCut(Record):
    """A cut in mm: its name, its outline, and the patches it gives; what else it holds is waste."""

    name: str
    outline: tuple[Point, ...]
    patches: tuple[tuple[Point, ...], ...]

    @property
    def whole(self) -> Shape:
        """Its name and outline."""
        return self.name, self.outline


def drawn(cut: Placed, put: Callable[[Point], Point]) -> DrawnCut:
    """A cut of the plan where `put` moves its points."""
    outline, *patches = (
        tuple(put(point) for point in points) for points in (cut.outline, *cut.shapes)
    )
    return DrawnCut(cut.name, outline, tuple(patches))


def cuts_on(cuts: Iterable[DrawnCut], look: Fill) -> list[Area]:
    """The cuts on their cloth: what is waste of them hatched as left over, the patches upon it."""
    waste, patches, edges = list[Area](), list[Area](), list[Area]()
    for cut in cuts:
        if sum(abs(area_of(p)) for p in cut.patches) < abs(area_of(cut.outline)) * 0.999:
            waste.append(Area(cut.outline, Fill("#ffffff", 1, tint=True), Ink.LEFTOVER))
            edges.append(Area(cut.outline, None, Ink.FINE))
        patches += [Area(points, look, Ink.FINE) for points in cut.patches]
    return [*together(waste), *together(patches), *together(edges)]


ROMAN = ((10, "x"), (9, "ix"), (5, "v"), (4, "iv"), (1, "i"))


def roman(number: int) -> str:
    """A number as small Roman numerals, which are taken for no patch and no count."""
    signs = ""
    for value, sign in ROMAN:
        while number >= value:
            signs, number = signs + sign, number - value
    return signs


class CutNames:
    """What is written on the cuts of one cloth: upright and clear of each other. Words that do not fit where
    they belong get a small numeral, which a line under the picture explains."""

    def __init__(self, letters: Mapping[str, str]) -> None:
        self.letters = letters  # what is written on a cut, by its name
        self.taken: list[Box] = []
        self.numerals: dict[str, str] = {}

    def on_cuts(self, cuts: Sequence[DrawnCut]) -> list[Item]:
        """The letter of every cut, in its first patch, where it fits; of those too small for it one letter
        for all, with the number of patches."""
        items: list[Item] = []
        bare: dict[str, list[DrawnCut]] = {}
        for cut in cuts:
            label = _fitting(cut.patches[0], self._text(cut.name))
            if label is None or self._is_taken(label):
                bare.setdefault(cut.name, []).append(cut)
            else:
                items.append(self._put(label))
        written = {item.text for item in items if isinstance(item, Label)}
        for name, alike in bare.items():
            if self._text(name) not in written or len(alike) >= 3:
                items += self._for_all(self._text(name), alike)
        return items

    def left_over(self, gap: tuple[float, float], top: float, high: float, size: str) -> list[Item]:
        """The size of what is left over, in its middle, if it has room there."""
        wide = gap[1] - gap[0]
        middle = ((gap[0] + gap[1]) / 2, top + high / 2)
        if high < LINE or wide < LINE:
            return []
        return self._clear(middle, size, "", wide - 2.0, left_over=True)

    def explained(
        self, left: float, top: float, width: float, speaker: Speaker
    ) -> tuple[list[Item], float]:
        """The numerals with their words, under the picture, and the height they take in mm."""
        if not self.numerals:
            return [], 0.0
        told = (
            f"{sign}{NO_BREAK}={NO_BREAK}{text.replace(' ', NO_BREAK)}"
            for text, sign in self.numerals.items()
        )
        words = speaker.say(listing(told, "semicolons"))
        lines = wrapped(words, KEY, width)
        items: list[Item] = [
            Label(at=(left, top + LINE * (i + 0.6)), text=line, size=KEY, anchor="start")
            for i, line in enumerate(lines)
        ]
        return items, LINE * (len(lines) + 0.3)

    def _text(self, name: str) -> str:
        return self.letters.get(name, name)

    def _for_all(self, text: str, alike: Sequence[DrawnCut]) -> list[Item]:
        """One name for all of these cuts in their middle, with their number."""
        left, top, right, bottom = box_of([point for cut in alike for point in cut.outline])
        count = sum(len(cut.patches) for cut in alike)
        times = "" if count == 1 else f" × {count}"
        middle = ((left + right) / 2, (top + bottom) / 2)
        return self._clear(middle, text, times, right - left)

    def _clear(
        self, at: Point, text: str, times: str, room: float, left_over: bool = False
    ) -> list[Item]:
        """A text and its number at a place, as its numeral where it is wider than `room` mm; nothing where
        it would lie on another."""
        sign = text
        if text_width(text + times, SMALL) > room:
            sign = self.numerals.get(text, roman(len(self.numerals) + 1))
        label = Label(
            at=at, text=sign + times, size=SMALL, bold=not left_over, halo=True, muted=left_over
        )
        if self._is_taken(label):
            return []
        if sign != text:
            self.numerals[text] = sign
        return [self._put(label)]

    def _is_taken(self, label: Label) -> bool:
        return any(overlap(label_box(label), other) for other in self.taken)

    def _put(self, label: Label) -> Label:
        self.taken.append(label_box(label))
        return label


def _fitting(points: tuple[Point, ...], text: str) -> Label | None:
    """A cut's letter or name upright in it; None where there is no room."""
    label = letter_in(points, text, 8.0, room=0.1)
    at, room = roomiest(points)
    left, top, right, bottom = box_of(points)
    if label is not None and plate_radius(text, label.size) <= room:
        return Label(at=at, text=text, size=label.size, bold=True)
    if right - left >= text_width(text, SMALL) + 0.8 and bottom - top >= LINE:
        return Label(at=at, text=text, size=SMALL, bold=True)
    return None


def widest_gap(shapes: Sequence[Shape], left: float, right: float) -> tuple[float, float]:
    """The widest stretch from left to right that no cut lies in."""
    end, best = left, (right, right)
    for start, stop in sorted((box_of(s)[0], box_of(s)[2]) for _, s in shapes):
        if start - end > best[1] - best[0] + ONE_POINT:
            best = (end, start)
        end = max(end, stop)
    return (end, right) if right - end > best[1] - best[0] - ONE_POINT else best
