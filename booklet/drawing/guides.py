"""Floor 10: placement guides: a block at full size with the outlines of what is laid on it, on sheets or in tiles.

It is drawn as the right side lies, so that it is laid under the block, or over it on something clear.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from booklet.cutting.patches.cut_outlines import mitred
from booklet.drawing.laid_on import seen_of
from booklet.drawing.scene import Figure
from booklet.drawing.templates.template_layout import (
    HEAD,
    SQUARES,
    FoundationCell,
    Template,
    in_mm,
    placed,
)
from booklet.drawing.templates.template_lines import sheet_words
from booklet.drawing.templates.template_nest import nested
from booklet.drawing.templates.template_pages import SheetWords, spots_drawn, true_sheet
from booklet.drawing.templates.template_parts import tiles
from booklet.kit.outlines.plane import Point, direction, length_of, plus
from booklet.kit.words import Phrase, phrase, words_of
from booklet.plan import BlockPlan, SizePlan
from booklet.plan.cards.laid_on import letter_of

DASH, GAP = 2.0, 1.6  # mm


def guide_figures(size: SizePlan, width: float, height: float) -> tuple[Figure, ...]:
    """The guides of all blocks on which shapes are laid, each page `width` x `height` mm."""
    figures: list[Figure] = []
    for block in size.blocks:
        if not block.layers:
            continue
        template = guide_of(size, block)
        pages, large = nested((template,), width - 1, height - HEAD - SQUARES)
        for spots in pages:
            title = phrase("Placement guide for “{block}”", block=block.block.title)
            words = _words(size, block, len(figures) + 1, title)
            figures.append(true_sheet(size, words, spots_drawn(spots), (width, height), False))
        for part, of, items in (each for t in large for each in tiles(t, width, height)):
            title = phrase(
                "Placement guide for “{block}”, part {part} of {of}",
                block=block.block.title, part=part, of=of,
            )  # fmt: skip
            words = _words(size, block, len(figures) + 1, title)
            figures.append(true_sheet(size, words, items, (width, height), True))
    return tuple(figures)


def guide_of(size: SizePlan, block: BlockPlan) -> Template:
    """The guide of one block as a template: the raw edge of the block and its seam line, the edges of the shapes, dashed
    where they lie under others, and their letters."""
    tiling, say = block.tiling, words_of(size.pattern.tongue).say
    laid = [shape.piece.outline.points for shape in tiling.applied]
    cells = tuple(
        FoundationCell(
            letter_of(shape),
            size.fabric(shape.piece.fabric).name,
            in_mm(seen_of(laid[n], laid[n + 1 :])),
        )
        for n, shape in enumerate(tiling.applied)
    )
    raw = Template(
        letter=block.block.title,
        lines=(say(phrase("Placement guide for “{block}”", block=block.block.title)),),
        cells=cells,
    )
    seen = [in_mm(path) for shape in tiling.applied for path in shape.seen]
    under = [
        dash for shape in tiling.applied for path in shape.covered for dash in _dashed(in_mm(path))
    ]
    edge = tiling.outline.points
    cut = mitred(edge, float(size.pattern.allowance))
    return placed(raw, in_mm(edge), in_mm(cut), (), 0.0, [*seen, *under])


def _dashed(path: Sequence[Point]) -> Iterator[tuple[Point, ...]]:
    """A line in dashes, each as the points along it."""
    whole, at = length_of(path), GAP / 2
    while at < whole:
        yield _stretch(path, at, min(at + DASH, whole))
        at += DASH + GAP


def _stretch(path: Sequence[Point], start: float, end: float) -> tuple[Point, ...]:
    """The part of a line between two lengths along it."""
    made: list[Point] = []
    gone = 0.0
    for a, b in pairwise(path):
        long = length_of((a, b))
        if long > 0 and gone + long >= start and gone <= end:
            way = direction(a, b)
            made += [plus(a, way, max(start - gone, 0.0))] if not made else []
            made.append(plus(a, way, min(end - gone, long)))
        gone += long
    return tuple(made)


def _words(size: SizePlan, block: BlockPlan, number: int, title: Phrase) -> SheetWords:
    """What stands on a sheet, and what is told of it."""
    told = phrase(
        "{title}, for {size}, true to size, as the right side lies: outer line the raw edge of the block, dashed its seam "
        "line; the edges of all shapes, dashed where they lie under others. Test squares of 1 inch and 2 centimeters at the "
        "foot.",
        title=title,
        size=size.size.title,
    )
    return SheetWords(f"{size.size.id}-guides-{number}", title, sheet_words(size), told)
