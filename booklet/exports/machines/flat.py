"""Floor 11, flat templates: the templates of one size, or its foundations, laid on one sheet, for files that machines cut by.

Millimetres, x to the right and y down, true to size. Three layers: `cut` (cutting lines), `seam` (seam
lines) and `marks` (matching points, marks of curves, grain, words, the middle of a motif).
"""

from __future__ import annotations

from booklet.drawing.scene import Ink, Label, Line
from booklet.drawing.templates.foundations import foundations_of
from booklet.drawing.templates.template_layout import SPACE, Template, TemplateSpot
from booklet.drawing.templates.template_lines import sheet_words
from booklet.drawing.templates.template_nest import nested
from booklet.drawing.templates.template_pages import templates_of
from booklet.drawing.templates.template_words import cells_on, words_on
from booklet.exports.machines.smooth import smooth
from booklet.kit.outlines.near import DRAWN
from booklet.kit.outlines.plane import Point, box_of, direction, plus, right_of, shifted
from booklet.kit.outlines.polygon import depth
from booklet.kit.records import Record, replace
from booklet.kit.words import words_of
from booklet.plan import SizePlan
from booklet.source.values.names import file_part

WIDTH = 290.0  # mm: a mat of 12 in with a little to spare; a larger template widens the sheet
HEIGHT = 600.0  # mm: more templates follow below
EDGE = 5.0  # mm of free sheet all round
DOT = 0.5  # mm, the radius of a matching point
LAYERS = ("cut", "seam", "marks")


class FlatTemplate(Record, kw_only=True):
    """One template in its place on the sheet."""

    letter: str
    cut: tuple[Point, ...]
    seam: tuple[Point, ...]
    inner: tuple[tuple[Point, Point], ...]  # the lines to sew on within a foundation
    points: tuple[Point, ...]
    lines: tuple[tuple[Point, Point], ...]  # marks of curves; the grain; the cross of a motif
    words: tuple[Label, ...]


class FlatSheet(Record):
    """The templates of one size on a sheet of `width` x `height` mm."""

    title: str
    width: float
    height: float
    templates: tuple[FlatTemplate, ...]


def flat_sheet(size: SizePlan) -> FlatSheet:
    """All templates of a size on one sheet, in the order of letters where they stand."""
    return _laid(size, templates_of(size, smooth))


def foundation_sheet(size: SizePlan) -> FlatSheet:
    """The papers of the blocks of a size that are sewn on paper, as they are printed (mirrored): one of each kind."""
    blocks = [block for block in size.blocks if block.assembly.papers]
    papers = {
        (block.block.id, paper.letter): paper
        for block in blocks
        for paper in foundations_of(size, block)
    }
    named = (
        replace(paper, letter=f"{file_part(block)}-{letter}")
        for (block, letter), paper in papers.items()
    )
    return _laid(size, tuple(named))


def _laid(size: SizePlan, made: tuple[Template, ...]) -> FlatSheet:
    """Templates on one sheet."""
    wide = max([WIDTH, *(t.width for t in made)])
    tall = max([HEIGHT, *(t.height for t in made)])
    pages, _ = nested(made, wide, tall)
    spots: list[TemplateSpot] = []
    low = 0.0
    for page in pages:  # one below the other
        spots += [TemplateSpot(s.template, plus(s.at, (0.0, low))) for s in page]
        low = max(s.at[1] + s.template.height for s in spots) + SPACE
    spots.sort(key=lambda s: s.template.letter)
    placed = tuple(_flat(s.template, plus(s.at, (EDGE, EDGE))) for s in spots)
    right = max((s.at[0] + s.template.width for s in spots), default=0.0)
    low = max(low - SPACE, 0.0)
    said = words_of(size.pattern.tongue).say(sheet_words(size))
    return FlatSheet(said, right + 2 * EDGE, low + 2 * EDGE, placed)


def _flat(template: Template, corner: Point) -> FlatTemplate:
    """A template moved to its place, with its marks."""
    seam = shifted(template.seam, corner)
    items = words_on(template, seam, plus(corner, (0.0, box_of(template.cut)[3])))
    items += cells_on(template, corner)
    strokes = [(plus(a, corner), plus(b, corner)) for a, b in template.strokes]
    inner = tuple(s for s in strokes if template.cells and all(depth(p, seam) > -DRAWN for p in s))
    lines = [stroke for stroke in strokes if stroke not in inner]
    for item in items:
        if isinstance(item, Line) and item.ink is Ink.GRAIN:
            lines += _arrow(item)
        elif isinstance(item, Line):  # the cross of a motif, and where it meets the frame
            lines.append((item.points[0], item.points[-1]))
    words = tuple(item for item in items if isinstance(item, Label) and item.text)
    return FlatTemplate(
        letter=template.letter,
        cut=shifted(template.cut, corner),
        seam=seam if template.seam != template.cut else (),  # one line of a fused shape is both
        inner=inner,
        points=shifted(template.points, corner),
        lines=tuple(lines),
        words=words,
    )


def _arrow(line: Line) -> list[tuple[Point, Point]]:
    """A line with a small open head at each end that has one: the grain runs both ways, the top of a print one."""
    a, b = line.points[0], line.points[-1]
    along = direction(a, b)
    across = right_of(along)
    made = [(a, b)]
    for tip, way, has in ((a, 1.0, line.start_arrow), (b, -1.0, line.end_arrow)):
        foot = plus(tip, along, 1.8 * way)
        made += [(plus(foot, across, side), tip) for side in (0.8, -0.8) if has]
    return made
