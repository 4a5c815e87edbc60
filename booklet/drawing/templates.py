"""Floor 10: templates at true size, laid on pages with test squares; large ones in tiles.

One millimetre of the scene is one millimetre on paper; nothing here is ever scaled.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from booklet.cutting.cutting_plan import CutOutline, CutPatch
from booklet.drawing.labels import label_box, letter_in
from booklet.drawing.lettering import text_width
from booklet.drawing.plane import Box, box_of, centroid, depth, plus, roomiest, turned, vector
from booklet.drawing.scales import MM_PER_INCH
from booklet.drawing.scene import Area, Figure, Ink, Item, Label, Line, Mark, Point, Scene, Sign
from booklet.drawing.svg import figure
from booklet.plan import SizePlan
from booklet.plan.words import listed

SPACE = 6.0  # mm between templates
OVERLAP = 12.0  # mm that the tiles of a large template share
HEAD = 12.0  # mm for the line of text on top of a page
WORDS = 7.5  # points, the words on a template
SQUARES = 29.0  # mm at the foot for the test squares


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
        return _placed(self, [turned(p, 90) for p in self.seam], [turned(p, 90) for p in self.cut],
                       [turned(p, 90) for p in self.points], self.grain + 90)  # fmt: skip


def _placed(
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


def templates_of(size: SizePlan) -> tuple[Template, ...]:
    """A template for every patch letter of a size, in the order of letters."""
    found: dict[str, list[CutPatch]] = {}
    for patch in size.cutting.patches:
        if patch.outline is not None:
            found.setdefault(patch.name, []).append(patch)
    order = {letter: i for i, letter in enumerate(size.letters)}
    names = sorted(found, key=lambda letter: (order.get(letter, len(order)), letter))
    return tuple(_template(size, found[name]) for name in names)


def _template(size: SizePlan, patches: list[CutPatch]) -> Template:
    """The template of one patch letter with what it says."""
    patch = patches[0]
    outline = patch.outline
    assert isinstance(outline, CutOutline)
    per_block: dict[str, int] = {}
    for entry in patches:
        for block, count in entry.per_block:
            per_block[block] = per_block.get(block, 0) + count
    counts = [
        f"cut {n} for one {size.pattern.block(block).title.lower()}"
        for block, n in per_block.items()
    ]
    reversed_too = any(entry.reversed for entry in patches)
    motif = any(p.motif and p.letter == patch.name for b in size.blocks for p in b.tiling.patches)
    lines = (
        patch.title if patch.title.startswith(patch.name) else f"{patch.name} {patch.title}",
        *counts,
        *(("turn over for reversed",) if reversed_too else ()),
        *(("fussy cut: motif on the cross",) if motif else ()),
        f"{size.size.title}, version {size.pattern.version}",
    )

    def mm(points: Sequence[Point]) -> tuple[Point, ...]:
        return tuple((x * MM_PER_INCH, y * MM_PER_INCH) for x, y in points)

    raw = Template(patch.name, patch.title, lines, (), (), (), patch.grain, motif)
    return _placed(raw, mm(outline.seam.points), mm(outline.cut), mm(outline.points), patch.grain)


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


def template_figures(size: SizePlan, width: float, height: float) -> tuple[Figure, ...]:
    """Pages of templates, each `width` x `height` mm, true to size."""
    pages, large = lay_templates(templates_of(size), width - 1, height - HEAD - SQUARES)
    figures: list[Figure] = []
    for spots in pages:
        items: list[Item] = []
        for spot in sorted(spots, key=lambda s: (s.at[1], s.at[0])):
            items += _drawn(spot.template, (spot.at[0] + 0.5, spot.at[1] + HEAD))
        names = [spot.template.letter for spot in spots]
        figures.append(_page(size, len(figures) + 1, items, sorted(names), width, height))
    for template in large:
        for tile, items in _tiles(template, width, height):
            figures.append(
                _page(size, len(figures) + 1, items, [template.letter], width, height, tile)
            )
    return tuple(figures)


def _page(
    size: SizePlan,
    number: int,
    items: list[Item],
    letters: list[str],
    width: float,
    height: float,
    tile: str = "",
) -> Figure:
    """One page: a head line, the templates, the test squares."""
    title = f"Templates {listed(letters)}{tile}"
    head = f"{size.pattern.title}, {size.size.title}, version {size.pattern.version}"
    extra: list[Item] = [
        Label((0.5, 2.5), title, 11.0, "start", bold=True),
        Label((0.5, 7.2), head, 8.0, "start", muted=True),
        *_test_squares(width, height),
    ]
    told = (
        f"{title} for {size.size.title}, true to size: solid line to cut, dashed line to sew, dots at the matching points, "
        "an arrow along the straight grain. Test squares of 1 inch and 2 centimetres at the foot."
    )
    scene = Scene(
        f"{size.size.id}-templates-{number}", width, height, (*extra, *items), title, told
    )
    return figure(scene, "Print at 100 percent and measure the squares first.", true_size=True)


def _test_squares(width: float, height: float) -> list[Item]:
    """A 1 in and a 2 cm square at the foot, and what to do with them."""
    y = height - 0.5
    items: list[Item] = []
    x = 0.5
    for side, text in ((MM_PER_INCH, "1 in"), (20.0, "2 cm")):
        corners = ((x, y - side), (x + side, y - side), (x + side, y), (x, y))
        items.append(Area(corners, None, Ink.RULE))
        items.append(Label((x + side / 2, y - side / 2), text, 8.0))
        x += side + 4
    for i, text in enumerate(
        ("Print at 100 %, not “fit to page”.", "Measure both squares before you cut cloth.")
    ):
        items.append(Label((x + 1, y - 6.2 + 4.2 * i), text, 8.0, "start"))
    return items


def _drawn(template: Template, corner: Point) -> list[Item]:
    """The lines, points, grain and words of a template with its top left at `corner`."""

    def put(points: Sequence[Point]) -> tuple[Point, ...]:
        return tuple(plus(p, corner) for p in points)

    seam = put(template.seam)
    items: list[Item] = [Area(put(template.cut), None, Ink.CUT), Area(seam, None, Ink.SEAM_LINE)]
    items += _words(template, seam, plus(corner, (0.0, box_of(template.cut)[3])))
    items += [Sign(p, Mark.POINT) for p in put(template.points)]
    return items


def _words(template: Template, seam: tuple[Point, ...], foot: Point) -> list[Item]:
    """Letter, words and grain arrow: inside the seam line, or the words from `foot` down."""
    at, _ = roomiest(seam)
    items: list[Item] = []
    if template.motif:
        items += _cross_hairs(seam)
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
    return items


def _grain(template: Template, seam: tuple[Point, ...], taken: Box) -> list[Item]:
    """The grain arrow: as long as fits inside the seam line clear of `taken`, near the middle."""
    way = vector(template.grain)
    left, top, right, bottom = box_of(seam)
    centre = ((left + right) / 2, (top + bottom) / 2)
    best: tuple[float, Point, float] | None = None
    for i in range(1, 24):
        for j in range(1, 24):
            at = (left + (right - left) * i / 24, top + (bottom - top) * j / 24)
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


def _corners(box: Box) -> tuple[Point, ...]:
    return (box[0], box[1]), (box[2], box[1]), (box[2], box[3]), (box[0], box[3])


def _cross_hairs(seam: tuple[Point, ...]) -> list[Item]:
    """Thin lines through the middle of the patch, where the motif's middle belongs."""
    middle = centroid(seam)
    left, top, right, bottom = box_of(seam)
    return [
        Line(((left, middle[1]), (right, middle[1])), Ink.GUIDE),
        Line(((middle[0], top), (middle[0], bottom)), Ink.GUIDE),
        Sign(middle, Mark.POINT),
    ]


def _tiles(template: Template, width: float, height: float) -> list[tuple[str, list[Item]]]:
    """A large template in tiles that overlap, with marks to match them by."""
    step_x, step_y = width - OVERLAP - 1, height - HEAD - SQUARES - OVERLAP
    columns = max(1, math.ceil((template.width - OVERLAP) / step_x))
    rows = max(1, math.ceil((template.height - OVERLAP) / step_y))
    tiles = []
    for row in range(rows):
        for column in range(columns):
            frame = (
                column * step_x,
                row * step_y,
                column * step_x + step_x + OVERLAP,
                row * step_y + step_y + OVERLAP,
            )
            corner = (0.5 - frame[0], HEAD - frame[1])
            items: list[Item] = []
            for points, ink in ((template.cut, Ink.CUT), (template.seam, Ink.SEAM_LINE)):
                for a, b in zip(points, (*points[1:], points[0]), strict=True):
                    clipped = _clipped(a, b, frame)
                    if clipped is not None:
                        items.append(
                            Line((plus(clipped[0], corner), plus(clipped[1], corner)), ink)
                        )
            items += [
                Sign(plus(p, corner), Mark.POINT) for p in template.points
                if frame[0] <= p[0] <= frame[2] and frame[1] <= p[1] <= frame[3]
            ]  # fmt: skip
            items += _registration(template, frame, corner, (row, column), (rows, columns))
            tiles.append((f", part {row * columns + column + 1} of {rows * columns}", items))
    return tiles


def _registration(
    template: Template,
    frame: tuple[float, float, float, float],
    corner: Point,
    place: tuple[int, int],
    many: tuple[int, int],
) -> list[Item]:
    """Crosses where neighbouring tiles share paper, and the letter with the tile's place."""
    items: list[Item] = []
    half = OVERLAP / 2
    for x in (frame[0] + half, frame[2] - half):
        for y in (frame[1] + half, frame[3] - half):
            at = plus((x, y), corner)
            for d in ((3.0, 0.0), (0.0, 3.0)):
                items.append(Line((plus(at, d, -1), plus(at, d)), Ink.RULE))
    middle = plus(((frame[0] + frame[2]) / 2, (frame[1] + frame[3]) / 2), corner)
    items.append(Label(middle, template.letter, 24.0, bold=True))
    text = f"row {place[0] + 1} of {many[0]}, column {place[1] + 1} of {many[1]}: lay the crosses on each other"
    items.append(Label(plus(middle, (0.0, 9.0)), text, 8.0))
    grain = vector(template.grain)
    foot = plus(middle, (0.0, 26.0))
    items.append(Line((plus(foot, grain, 12), plus(foot, grain, -12)), Ink.GRAIN, True, True))
    return items


def _clipped(
    a: Point, b: Point, frame: tuple[float, float, float, float]
) -> tuple[Point, Point] | None:
    """The part of a segment inside a box, or None."""
    start, end = 0.0, 1.0
    d = (b[0] - a[0], b[1] - a[1])
    for p, q in (
        (-d[0], a[0] - frame[0]), (d[0], frame[2] - a[0]), (-d[1], a[1] - frame[1]), (d[1], frame[3] - a[1]),
    ):  # fmt: skip
        if abs(p) < 1e-12:
            if q < 0:
                return None
        elif p < 0:
            start = max(start, q / p)
        else:
            end = min(end, q / p)
    if start >= end:
        return None
    return plus(a, d, start), plus(a, d, end)
