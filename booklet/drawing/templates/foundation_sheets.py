"""Floor 10: foundations on sheets, true to size, and how often each sheet is printed.

The papers of one block lie together, so that a set of sheets is printed once for each block; of small blocks a set holds
several, where that takes less paper.
"""

from __future__ import annotations

import math

from booklet.drawing.scene import Figure
from booklet.drawing.templates.foundations import foundations_of
from booklet.drawing.templates.template_layout import HEAD, SQUARES, Template, TemplateSpot
from booklet.drawing.templates.template_lines import sheet_words
from booklet.drawing.templates.template_nest import nested
from booklet.drawing.templates.template_pages import SheetWords, spots_drawn, true_sheet
from booklet.drawing.templates.template_parts import tiles
from booklet.kit.measure import exact_text
from booklet.kit.records import Record
from booklet.kit.words import Digits, Phrase, Text, in_units, phrase, plural_phrase
from booklet.plan import BlockPlan, SizePlan

TOGETHER = (1, 2, 3, 4, 6, 8, 12)
"""How many blocks a set of sheets may hold the papers of."""
MOST_NESTED = 24  # papers that are laid on sheets together


class PaperSet(Record):
    """The sheets for some blocks alike: the papers on each, those larger than a sheet, and how often the sheets are
    printed."""

    pages: tuple[tuple[TemplateSpot, ...], ...]
    large: tuple[Template, ...]
    times: int


def paper_set(size: SizePlan, block: BlockPlan, width: float, height: float) -> PaperSet:
    """The set of sheets of `width` x `height` mm that takes least paper for all blocks."""
    papers, wanted = foundations_of(size, block), max(1, block.count)
    best: PaperSet | None = None
    for blocks in TOGETHER:
        if best is not None and (
            blocks > wanted or blocks * len(papers) > MOST_NESTED or best.large
        ):
            break
        pages, large = nested(papers * blocks, width - 1, height - HEAD - SQUARES)
        made = PaperSet(pages, large, math.ceil(wanted / blocks))
        if best is None or made.times * len(pages) < best.times * len(best.pages):
            best = made
    assert best is not None
    return best


def sheets_wanted(size: SizePlan, width: float, height: float) -> int:
    """How many sheets of paper all foundations of a size take."""
    return sum(
        made.times * (len(made.pages) + sum(len(tiles(t, width, height)) for t in made.large))
        for block in size.blocks
        if block.assembly.papers
        for made in [paper_set(size, block, width, height)]
    )


def foundation_figures(size: SizePlan, width: float, height: float) -> tuple[Figure, ...]:
    """The sheets of all blocks that are sewn on printed paper, each `width` x `height` mm."""
    figures: list[Figure] = []
    for block in size.blocks:
        if not block.assembly.papers:
            continue
        made = paper_set(size, block, width, height)
        alike: dict[tuple[str, ...], list[tuple[TemplateSpot, ...]]] = {}
        for spots in made.pages:  # pages that hold the same papers are printed from one
            names = tuple(sorted(spot.template.letter for spot in spots))
            alike.setdefault(names, []).append(spots)
        for names, (spots, *more) in alike.items():
            letters = tuple(dict.fromkeys(names))
            title = plural_phrase(
                "Foundation {letters}, printed mirrored",
                "Foundations {letters}, printed mirrored",
                len(letters),
                letters=letters,
            )
            words = _words(
                size, len(figures) + 1, title, _often(block, made.times * (1 + len(more)))
            )
            figures.append(true_sheet(size, words, spots_drawn(spots), (width, height), False))
        for template in {t.letter: t for t in made.large}.values():
            often = _often(block, made.times * made.large.count(template))
            for part, of, items in tiles(template, width, height):
                title = phrase(
                    "Foundation {letter}, printed mirrored, part {part} of {of}",
                    letter=template.letter, part=part, of=of,
                )  # fmt: skip
                words = _words(size, len(figures) + 1, title, often)
                figures.append(true_sheet(size, words, items, (width, height), True))
    return tuple(figures)


def _often(block: BlockPlan, times: int) -> Phrase:
    """How often a sheet is printed, and for how many blocks."""
    return plural_phrase(
        "Print it once, for {blocks} × “{block}”",
        "Print it {n} times, for {blocks} × “{block}”",
        times,
        blocks=max(1, block.count),
        block=block.block.title,
    )


def _words(size: SizePlan, number: int, title: Phrase, often: Phrase) -> SheetWords:
    """What stands on a sheet, and what is told of it."""
    units = size.pattern.units
    allowance = in_units(Digits(exact_text(size.pattern.allowance, units)), units)
    told = phrase(
        "{title}, for {size}, true to size, as the wrong side of the cloth lies: solid lines to sew on, a dashed line to "
        "trim on, {allowance} beyond; short strokes are marks to match. Test squares of 1 inch and 2 centimeters at the foot.",
        title=title,
        size=size.size.title,
        allowance=allowance,
    )
    head: Text = phrase("{often}; {sheet}", often=often, sheet=sheet_words(size))
    return SheetWords(f"{size.size.id}-foundations-{number}", title, head, told)
