"""Floor 11, joining: rows of blocks, borders and the back in words."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby

from markupsafe import Markup

from booklet.pages.quantities import quantities
from booklet.pages.values import area_text, with_unit
from booklet.pages.view import cut_markup, filled_in
from booklet.pages.words import Words
from booklet.pattern import Corners
from booklet.plan import SizePlan
from booklet.quilt.sized import BorderPlan

_CORNER_KEYS = {Corners.BUTTED: "butted", Corners.MITRED: "mitred", Corners.SQUARES: "squares"}


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
    alike: dict[str, list[int]] = {}
    for number, row in enumerate(sorted(by_row), 1):
        alike.setdefault(_row_words(plan, words, sorted(by_row[row])), []).append(number)
    return tuple(
        Named(_row_name(words, numbers, len(by_row)), quantities(line))
        for line, numbers in alike.items()
    )


def _row_name(words: Words, numbers: list[int], rows: int) -> Markup:
    """The name of alike rows: "Row 1", "Rows 1, 3 and 5", "Every row"."""
    if len(numbers) == rows > 1:
        return words.markup("quilt.every_row")
    return words.markup("quilt.row", n=len(numbers), rows=words.series([str(n) for n in numbers]))


def _row_words(plan: SizePlan, words: Words, row: list[tuple[int, str, int]]) -> str:
    """One row from left to right, repeats counted."""
    titles = {block.block.id: block.block.title for block in plan.blocks}
    parts = []
    for (block, turn), group in groupby((block, turn) for _, block, turn in row):
        key = "quilt.block_turned" if turn else "quilt.block"
        count = len(list(group))
        title = words.text(key, title=titles.get(block, block), turn=turn)
        parts.append(words.text("quilt.times", n=count, title=title) if count > 1 else title)
    return ", ".join(parts)


def border_words(plan: SizePlan, words: Words, border: BorderPlan) -> Named:
    """One border: what to cut, how to add it, what the top then measures."""
    units = plan.pattern.units
    fabric = plan.fabric(border.fabric).name
    ends, sides = (cut_markup(side, units) for side in (border.lengths[0], border.lengths[-1]))
    return Named(
        words.markup("quilt.border", n=border.number, fabric=fabric),
        filled_in(words, f"quilt.{_CORNER_KEYS[border.corners]}", ends=ends, sides=sides),
        words.markup("quilt.border_width", width=with_unit(border.width, units)),
        words.markup("quilt.after", size=area_text(border.outside, units)),
    )


def backing_words(plan: SizePlan, words: Words) -> Markup:
    """How the backing is cut or joined."""
    backing = plan.quilt.backing
    if backing is None:
        return Markup()
    return words.markup(
        "finishing.backing",
        n=backing.widths,
        seam=backing.seam,
        size=area_text(backing.size, plan.pattern.units),
    )
