"""Floor 10: templates in millimetres, and how several are laid on shelves, page by page."""

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

    @property
    def words_inside(self) -> bool:
        """Whether all its words have room inside the seam line."""
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
                       [turned(p, 90) for p in self.points], self.grain + 90)  # fmt: skip


def placed(
    like: Template,
    seam: Sequence[Point],
    cut: Sequence[Point],
    points: Sequence[Point],
    grain: float,
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
    )


@dataclass(frozen=True, slots=True)
class Spot:
    """A template and its top left on a page, mm."""

    template: Template
    at: Point


def lay_templates(
    templates: Sequence[Template], width: float, height: float
) -> tuple[tuple[tuple[Spot, ...], ...], tuple[Template, ...]]:
    """Templates on shelves, page by page, in a room of `width` x `height` mm; and those too large.

    The tallest come first; one is turned a quarter where it lies lower so, or fits only so.
    """
    fitting, large = [], []
    for template in templates:
        upright = template.width <= width and template.height <= height
        quarter = template.height <= width and template.width <= height
        if not upright and not quarter:
            large.append(template)
        elif not upright or (quarter and template.height > template.width):
            fitting.append(template.turned())
        else:
            fitting.append(template)
    pages: list[list[Spot]] = []
    shelves: list[list[list[float]]] = []  # per page: [x, y, height]
    for template in sorted(fitting, key=lambda t: (-round(t.height, 3), t.letter)):
        _put(template, pages, shelves, width, height)
    return tuple(tuple(page) for page in pages), tuple(large)


def _put(
    template: Template,
    pages: list[list[Spot]],
    shelves: list[list[list[float]]],
    width: float,
    height: float,
) -> None:
    """Put a template on the first shelf with room, else on a new shelf, else on a new page."""
    for page, rows in zip(pages, shelves, strict=True):
        for row in rows:
            if row[0] + template.width <= width + 1e-6 and template.height <= row[2] + 1e-6:
                page.append(Spot(template, (row[0], row[1])))
                row[0] += template.width + SPACE
                return
        y = rows[-1][1] + rows[-1][2] + SPACE
        if y + template.height <= height + 1e-6:
            page.append(Spot(template, (0.0, y)))
            rows.append([template.width + SPACE, y, template.height])
            return
    pages.append([Spot(template, (0.0, 0.0))])
    shelves.append([[template.width + SPACE, 0.0, template.height]])


def _corners(box: Box) -> tuple[Point, ...]:
    return (box[0], box[1]), (box[2], box[1]), (box[2], box[3]), (box[0], box[3])
