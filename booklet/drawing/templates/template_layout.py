"""Floor 10: templates in millimetres, as they are turned and laid on a page."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.drawing.lettering.text_widths import text_width
from booklet.drawing.scene import Ink
from booklet.drawing.templates.template_ups import HIGH, Ups
from booklet.kit.measure import INCH_MM
from booklet.kit.outlines.plane import Box, Point, box_of, corners, shifted, turn_point
from booklet.kit.outlines.polygon import depth, roomiest
from booklet.kit.records import Record, replace

SPACE = 6.0  # mm between templates


HEAD = 12.0  # mm for the line of text on top of a page
SQUARES = 29.0  # mm at the foot for the test squares
WORDS = 7.5  # points, the words on a template


class FoundationCell(Record):
    """Something named on a foundation: a piece, its number and its cloth with its outline, or a neighbour with the point
    at which it is joined."""

    text: str
    below: str
    points: tuple[Point, ...]


class Template(Record, kw_only=True):
    """One template in mm: its lines, as turned for the page, from the top left of its box."""

    letter: str
    lines: tuple[str, ...]  # what is printed on it
    seam: tuple[Point, ...] = ()
    cut: tuple[Point, ...] = ()
    points: tuple[Point, ...] = ()
    grain: float = 0.0  # degrees clockwise from up
    motif: bool = False
    strokes: tuple[tuple[Point, ...], ...] = ()  # of the marks along its curves
    ups: tuple[Ups, ...] = ()  # which way is up on prints that may not be turned
    inks: tuple[Ink, Ink] = (Ink.CUT, Ink.SEAM_LINE)  # of its outer and its inner line
    cells: tuple[FoundationCell, ...] = ()  # of a foundation: its pieces, which bear the words
    sides: tuple[FoundationCell, ...] = ()  # of a foundation: what is joined at its edges

    @property
    def _said(self) -> tuple[float, float]:
        """The width and height of its words and of the rows of arrows below them."""
        widths = [text_width(line, WORDS) for line in self.lines] + [row.width for row in self.ups]
        return max(widths), 3.5 * len(self.lines) + HIGH * len(self.ups)

    @property
    def words_inside(self) -> bool:
        """Whether all its words have room inside the seam line; a window is left open."""
        if self.motif or self.cells:
            return False
        at, _ = roomiest(self.seam)
        return all(depth(corner, self.seam) > 0.8 for corner in corners(self.words_box(at)))

    def words_box(self, at: Point) -> Box:
        """The box of letter and words about a point."""
        wide, tall = self._said[0], 6.5 + self._said[1]
        return at[0] - wide / 2, at[1] - tall / 2, at[0] + wide / 2, at[1] + tall / 2

    @property
    def width(self) -> float:
        """The width of the cutting line, or of the words below it."""
        below = 0.0 if self.words_inside else self._said[0]
        return max(box_of(self.cut)[2], below)

    @property
    def height(self) -> float:
        """The height of the cutting line, and of the words below it."""
        below = 0.0 if self.words_inside else self._said[1] + 1.5
        return box_of(self.cut)[3] + below

    def turned(self) -> Template:
        """The same template a quarter turn clockwise, its grain with it."""
        like = replace(
            self,
            ups=tuple(row.turned() for row in self.ups),
            cells=tuple(_turned(cell) for cell in self.cells),
            sides=tuple(_turned(cell) for cell in self.sides),
        )
        return placed(like, [turn_point(p, 90) for p in self.seam], [turn_point(p, 90) for p in self.cut],
                       [turn_point(p, 90) for p in self.points], self.grain + 90,
                       [[turn_point(p, 90) for p in stroke] for stroke in self.strokes])  # fmt: skip


def _turned(cell: FoundationCell) -> FoundationCell:
    return replace(cell, points=tuple(turn_point(p, 90) for p in cell.points))


def in_mm(points: Sequence[Point]) -> tuple[Point, ...]:
    """Points in inches in millimetres."""
    return tuple((x * INCH_MM, y * INCH_MM) for x, y in points)


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
        return shifted(some, (-left, -top))

    return replace(
        like,
        seam=moved(seam),
        cut=moved(cut),
        points=moved(points),
        grain=grain % 360,
        strokes=tuple(moved(stroke) for stroke in strokes),
        cells=tuple(replace(cell, points=moved(cell.points)) for cell in like.cells),
        sides=tuple(replace(cell, points=moved(cell.points)) for cell in like.sides),
    )


class TemplateSpot(Record):
    """A template and its top left on a page, mm."""

    template: Template
    at: Point
