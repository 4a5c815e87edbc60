"""Floor 10: templates in millimetres, as they are turned and laid on a page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from booklet.drawing.lettering import text_width
from booklet.drawing.plane import Box, box_of, depth, roomiest, turned
from booklet.drawing.scene import Point

SPACE = 6.0  # mm between templates


HEAD = 12.0  # mm for the line of text on top of a page
SQUARES = 29.0  # mm at the foot for the test squares
WORDS = 7.5  # points, the words on a template


@dataclass(frozen=True, slots=True)
class Template:
    """One template in mm: its lines, as turned for the page, from the top left of its box."""

    letter: str
    name: str
    lines: tuple[str, ...]  # what is printed on it
    seam: tuple[Point, ...]
    cut: tuple[Point, ...]
    points: tuple[Point, ...]
    grain: float  # degrees clockwise from up
    motif: bool
    strokes: tuple[tuple[Point, ...], ...] = ()  # of the marks along its curves

    @property
    def words_inside(self) -> bool:
        """Whether all its words have room inside the seam line; a window is left open."""
        if self.motif:
            return False
        at, _ = roomiest(self.seam)
        return all(depth(corner, self.seam) > 0.8 for corner in _corners(self.words_box(at)))

    def words_box(self, at: Point) -> Box:
        """The box of letter and words about a point."""
        wide = max(text_width(line, WORDS) for line in self.lines)
        tall = 6.5 + 3.5 * len(self.lines)
        return at[0] - wide / 2, at[1] - tall / 2, at[0] + wide / 2, at[1] + tall / 2

    @property
    def width(self) -> float:
        """The width of the cutting line, or of the words below it."""
        below = 0.0 if self.words_inside else max(text_width(line, WORDS) for line in self.lines)
        return max(box_of(self.cut)[2], below)

    @property
    def height(self) -> float:
        """The height of the cutting line, and of the words below it."""
        below = 0.0 if self.words_inside else 3.5 * len(self.lines) + 1.5
        return box_of(self.cut)[3] + below

    def turned(self) -> Template:
        """The same template a quarter turn clockwise, its grain with it."""
        return placed(self, [turned(p, 90) for p in self.seam], [turned(p, 90) for p in self.cut],
                       [turned(p, 90) for p in self.points], self.grain + 90,
                       [[turned(p, 90) for p in stroke] for stroke in self.strokes])  # fmt: skip


def placed(
    like: Template,
    seam: Sequence[Point],
    cut: Sequence[Point],
    points: Sequence[Point],
    grain: float,
    strokes: Sequence[Sequence[Point]] = (),
) -> Template:
    """The template with other lines, moved to the top left."""
    left, top, _, _ = box_of(cut)

    def moved(some: Sequence[Point]) -> tuple[Point, ...]:
        return tuple((x - left, y - top) for x, y in some)

    return Template(
        like.letter,
        like.name,
        like.lines,
        moved(seam),
        moved(cut),
        moved(points),
        grain % 360,
        like.motif,
        tuple(moved(stroke) for stroke in strokes),
    )


@dataclass(frozen=True, slots=True)
class Spot:
    """A template and its top left on a page, mm."""

    template: Template
    at: Point


def _corners(box: Box) -> tuple[Point, ...]:
    return (box[0], box[1]), (box[2], box[1]), (box[2], box[3]), (box[0], box[3])
