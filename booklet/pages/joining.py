"""Floor 11, joining: rows of blocks, borders and the back in words."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby

from markupsafe import Markup

from booklet.pages.values import area_text, with_unit
from booklet.pages.view import cut_text
from booklet.pages.words import Words
from booklet.pattern import Corners
from booklet.plan import SizePlan
from booklet.quilt.sized import BorderPlan
from booklet.words import Phrase, Text, listing, phrase, plural_phrase


@dataclass(frozen=True, slots=True)
class Named:
    """A line with its name: a row of blocks, a border."""

    name: Markup
    words: Markup
    width: Markup | None = None
    after: Markup | None = None


def block_rows(plan: SizePlan, words: Words) -> tuple[Named, ...]:
    """The rows of blocks in words; alike rows are said once."""
    by_row: dict[int, list[tuple[int, str, int]]] = {}
    for placed in plan.quilt.placed:
        by_row.setdefault(placed.row, []).append((placed.column, placed.block, placed.turn))
    alike: dict[Text, list[int]] = {}
    for number, row in enumerate(sorted(by_row), 1):
        alike.setdefault(_row_words(plan, sorted(by_row[row])), []).append(number)
    return tuple(
        Named(words.markup(_row_name(numbers, len(by_row))), words.markup(line))
        for line, numbers in alike.items()
    )


def _row_name(numbers: list[int], rows: int) -> Text:
    """The name of alike rows: "Row 1", "Rows 1, 3 and 5", "Every row"."""
    if len(numbers) == rows > 1:
        return phrase("Every row")
    return plural_phrase("Row {rows}", "Rows {rows}", len(numbers), rows=tuple(numbers))


def _row_words(plan: SizePlan, row: list[tuple[int, str, int]]) -> Text:
    """One row from left to right, repeats counted."""
    titles = {block.block.id: block.block.title for block in plan.blocks}
    parts: list[Text] = []
    for (block, turn), group in groupby((block, turn) for _, block, turn in row):
        count = len(list(group))
        title: Text = titles.get(block, block)
        if turn:
            title = phrase("{title}, turned {turn} degrees clockwise", title=title, turn=turn)
        parts.append(phrase("{n} × {title}", n=count, title=title) if count > 1 else title)
    return listing(parts, "commas")


def border_words(plan: SizePlan, words: Words, border: BorderPlan) -> Named:
    """One border: what to cut, how to add it, what the top then measures."""
    units = plan.pattern.units
    fabric = plan.fabric(border.fabric).name
    ends, sides = (cut_text(side, units) for side in (border.lengths[0], border.lengths[-1]))
    return Named(
        words.phrase("Border {n}: {fabric}", n=border.number, fabric=fabric),
        words.markup(_corners(border.corners, sides, ends)),
        words.phrase("{width} wide finished", width=with_unit(border.width, units)),
        words.phrase("The top now measures {size}.", size=area_text(border.outside, units)),
    )


def _corners(corners: Corners, sides: Text, ends: Text) -> Phrase:
    """How the strips of a border are added."""
    if corners is Corners.MITRED:
        return phrase(
            "Center each strip on its side, sew from matching point to matching point, and sew each corner on the fold at 45 degrees. The strips are {sides} long for the sides, {ends} for top and bottom.",
            sides=sides,
            ends=ends,
        )
    if corners is Corners.SQUARES:
        return phrase(
            "Sew the two strips of {sides} to the sides. Sew a corner square to both ends of each strip of {ends}, then sew those to top and bottom.",
            sides=sides,
            ends=ends,
        )
    return phrase(
        "Measure the top through its middle. Cut two strips of {sides} and sew them to the sides. Press outward. Then sew the two strips of {ends} to top and bottom.",
        sides=sides,
        ends=ends,
    )


def _seam(way: str) -> Phrase:
    """Which way a seam of the back runs."""
    if way == "crosswise":
        return phrase("crosswise", context="a … seam")
    return phrase("lengthwise", context="a … seam")


def backing_words(plan: SizePlan, words: Words) -> Markup:
    """How the backing is cut or joined."""
    backing = plan.quilt.backing
    if backing is None:
        return Markup()
    return words.plural(
        "Cut the backing {size}.",
        "Join {n} widths of cloth for the backing, every seam {seam}, then trim it to {size}. Cut off the selvedges first.",
        backing.widths,
        seam=_seam(backing.seam),
        size=area_text(backing.size, plan.pattern.units),
    )
