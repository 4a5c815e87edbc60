"""Floor 10: foundations: the papers on which sections of a block are sewn, as templates in millimetres.

The printed side of the paper is where the seams are sewn, and the cloth lies on the other: a section is drawn as its wrong
side is seen, mirrored left to right. Its lines are solid, the line on which it is trimmed is dashed.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from booklet.cutting.patches.cut_outlines import grown
from booklet.drawing.scene import Ink
from booklet.drawing.templates.template_layout import FoundationCell, Template, in_mm, placed
from booklet.geometry.patches.curve_marks import curve_marks
from booklet.geometry.tiling import Seam
from booklet.kit.outlines.near import DRAWN
from booklet.kit.outlines.plane import (
    Point,
    direction,
    midpoint,
    plus,
    right_of,
    same_place,
    to_segment,
)
from booklet.kit.outlines.polygon import edges
from booklet.kit.words import Text, listing, phrase, words_of
from booklet.plan import BlockPlan, SizePlan
from booklet.plan.cards.on_paper import section_outline, seen_from_back
from booklet.sewing.assembly import End, PaperSection

MARK = 0.25  # how far a mark goes into the section, as a share of the allowance


def foundations_of(size: SizePlan, block: BlockPlan) -> tuple[Template, ...]:
    """A template for each paper of a block, those of alike sections as often as the block needs them."""
    copies = Counter(section.letter for section in block.assembly.papers)
    first = [section for section in block.assembly.papers if section.is_first]
    made = (_foundation(size, block, section, copies[section.letter]) for section in first)
    return tuple(paper for paper in made for _ in range(copies[paper.letter]))


def _foundation(size: SizePlan, block: BlockPlan, section: PaperSection, copies: int) -> Template:
    """The paper of one section: its lines and marks, the number and the cloth of each piece."""
    tiling, allowance = block.tiling, float(size.pattern.allowance)
    outline = section_outline(tiling, section)
    seams = [seam for seam in tiling.seams if set(seam.between) <= set(section.pieces)]
    around = [seam for seam in tiling.seams if len(set(seam.between) & set(section.pieces)) == 1]
    say = words_of(size.pattern.tongue).say
    raw = Template(
        letter=section.letter,
        lines=tuple(say(line) for line in _lines(size, block, section, copies)),
        inks=(Ink.SEAM_LINE, Ink.CUT),
        cells=tuple(
            FoundationCell(
                f"{section.letter}{n}",
                size.fabric(tiling.piece(id).fabric).name,
                _back(tiling.piece(id).outline.points),
            )
            for n, id in enumerate(section.pieces, 1)
        ),
        sides=tuple(_sides(block, section, around, outline, allowance)) if copies == 1 else (),
    )
    curved = [point for seam in around for point in curve_marks(seam)]
    marks = [
        mark
        for p in (*_met(seams, around, outline), *curved)
        if (mark := _mark(p, outline, allowance)) is not None
    ]
    strokes = [(s.start, s.end) for s in seams] + marks
    cut = grown(outline, allowance)
    stops = _back(_stops(block, section))
    return placed(raw, _back(outline), _back(cut), stops, 0.0, [_back(s)[::-1] for s in strokes])


def _stops(block: BlockPlan, section: PaperSection) -> tuple[Point, ...]:
    """The ends of lines at which sewing stops, since a corner is set in there."""
    sewn, found = block.assembly.sewn, dict[Point, None]()
    for seam in block.tiling.seams:
        if set(seam.between) <= set(section.pieces):
            ends = zip((seam.start, seam.end), sewn[seam.id].ends, strict=True)
            found.update({at: None for at, end in ends if end is End.POINT})
    return tuple(found)


def _back(points: Sequence[Point]) -> tuple[Point, ...]:
    """Points in inches as seen from the back, in millimetres; clockwise as they were."""
    return in_mm(seen_from_back(points))


def _met(seams: Sequence[Seam], around: Sequence[Seam], outline: Sequence[Point]) -> list[Point]:
    """The points along the edge of a section at which seams end, its own or those of its neighbours; no corners."""
    ends = dict.fromkeys(p for seam in (*seams, *around) for p in (seam.start, seam.end))
    return [p for p in ends if not any(same_place(p, corner) for corner in outline)]


def _mark(at: Point, outline: Sequence[Point], allowance: float) -> tuple[Point, Point] | None:
    """The stroke of a mark across the allowance, square to the edge on which it lies; None inside the section."""
    for a, b in edges(outline):
        if to_segment(at, a, b) <= DRAWN:
            out = right_of(direction(b, a))  # outlines run clockwise: outside is on the left hand
            return plus(at, out, -MARK * allowance), plus(at, out, allowance)
    return None


def _sides(
    block: BlockPlan,
    section: PaperSection,
    around: Sequence[Seam],
    outline: Sequence[Point],
    allowance: float,
) -> Iterator[FoundationCell]:
    """The letter of the section that is joined at each edge, beside the longest seam they share there: clear of marks."""
    of = {id: other.letter for other in block.assembly.papers for id in other.pieces}
    for a, b in edges(outline):
        longest: dict[str, Seam] = {}
        for seam in sorted(around, key=lambda seam: -seam.length):
            (beside,) = (id for id in seam.between if id not in section.pieces)
            if beside in of and to_segment(midpoint(seam.start, seam.end), a, b) <= DRAWN:
                longest.setdefault(of[beside], seam)
        for letter, seam in longest.items():
            at = plus(midpoint(seam.start, seam.end), right_of(direction(b, a)), allowance / 2)
            yield FoundationCell(letter, "", _back((at,)))


def _lines(size: SizePlan, block: BlockPlan, section: PaperSection, copies: int) -> Iterator[Text]:
    """What stands below a paper: what it is, and which pieces are of which cloth."""
    title = block.block.title
    if len(section.pieces) == len(block.tiling.pieces):
        yield phrase("Foundation {letter}, the whole “{block}”", letter=section.letter, block=title)
    else:
        yield phrase(
            "Foundation {letter}, for one “{block}”: {n}",
            letter=section.letter,
            block=title,
            n=copies,
        )
    cloths: dict[str, list[str]] = {}
    for n, id in enumerate(section.pieces, 1):
        cloths.setdefault(block.tiling.piece(id).fabric, []).append(f"{section.letter}{n}")
    for fabric, numbers in cloths.items():
        yield phrase("{cloth}: {pieces}", cloth=size.fabric(fabric).name, pieces=listing(numbers))
