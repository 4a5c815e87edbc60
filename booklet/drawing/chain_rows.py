"""Floor 10: rows of units under the needle, one row for each seam of a unit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from booklet.drawing.chain_laid import (
    ABOVE,
    NEEDLE,
    PLATE,
    Laid,
    Pass,
    laid,
    laid_unit,
    passes,
    plate,
)
from booklet.drawing.fills import Looks
from booklet.drawing.scene import Ink, Item, Label, Line, Mark, Sign
from booklet.plan import BlockPlan, StepCard
from booklet.words import Text, phrase

MOST = 4  # units drawn before the row breaks off
COUNT_ROOM = 13.0  # mm at the right, for the count of all


@dataclass(frozen=True, slots=True)
class Rows:
    """What is drawn, how high in mm, what it shows in words, and how the parts lie."""

    items: tuple[Item, ...]
    high: float
    told: Text
    lies: Text


def under_needle(block: BlockPlan, card: StepCard, looks: Looks, width: float) -> Rows:
    """Units in a row under the needle, each with its parts right sides together; a row for each seam of
    theirs, since one seam of all is sewn before the next. `width` in mm."""
    rows = passes(block, card.step)
    units = [laid(block, row) for row in rows]
    room = (width - PLATE[1] - 12) / MOST
    scale = min(_fitting(unit, room) for unit in units)
    items: list[Item] = []
    down = 0.0
    for unit in units:
        row, high = _row(block, card, unit, looks, (width, room, scale), down)
        items += row
        down += high
    return Rows(tuple(items), down, *_rows_told(card, rows))


def _fitting(unit: Laid, room: float) -> float:
    """The scale in mm to the inch at which a unit fits its place in a row."""
    left, upper, right, lower = unit.box
    return min((room - 5) / (right - left), 26.0 / (lower - min(upper, 0.0)), 25.4 / 2)


def _row(
    block: BlockPlan,
    card: StepCard,
    unit: Laid,
    looks: Looks,
    measures: tuple[float, float, float],
    down: float,
) -> tuple[list[Item], float]:
    """One row under the needle from `down` mm, and its height; `measures` are the width of the picture,
    the room for a unit, and the scale."""
    width, room, scale = measures
    left, upper, right, lower = unit.box
    shown = min(card.total, MOST)
    base = down + ABOVE - min(upper, 0.0) * scale
    foot = base + lower * scale
    items: list[Item] = plate(down, max(foot - down, ABOVE + 8) + 1.0)
    x = PLATE[1] + 4
    end = width - COUNT_ROOM if card.total > MOST else x + room * (shown - 1)
    items.append(Line(((NEEDLE, base), (end, base)), Ink.THREAD))
    for place in range(1, shown + 1):
        items += laid_unit(block, unit, looks, scale, (x - left * scale, base))
        at = (x + (right - left) * scale / 2, foot + 3.4)
        items.append(Label(at, str(place), 8.0, bold=True, accent=True))
        x += room
    items.append(Sign((NEEDLE, base), Mark.DOT))
    if card.total > MOST:
        items.append(Label((width - 0.5, base), f"… {card.total}", 9.0, "end", bold=True))
    return items, foot - down + 6.5


def _rows_told(card: StepCard, rows: Sequence[Pass]) -> tuple[Text, Text]:
    """What rows under the needle show, for those who cannot see them and for the caption."""
    first, second = card.parts[:2]
    parts = (
        {"top": first, "below": second} if rows[0].first_on_top else {"top": second, "below": first}
    )
    if len(rows) == 1:
        alt = phrase(
            "A row of units under the needle, {top} on {below} in each, right sides together, their "
            "seams on one line.",
            **parts,
        )
        if first == second:
            return alt, phrase("Either lies on the other; the thread is not cut between them.")
        lies = phrase(
            "On top lies {top}, wrong side up, on {below}; the thread is not cut between them.",
            **parts,
        )
        return alt, lies
    alt = phrase(
        "{n} rows of units under the needle, one for each seam: in the first {top} lies on {below}, right "
        "sides together; in the next the part that follows lies on them.",
        n=len(rows),
        **parts,
    )
    lies = phrase(
        "One row for each seam: sew the first seam of all of them, {top} on {below}, then the next. The "
        "smaller part lies on top, wrong side up; the thread is not cut between them.",
        **parts,
    )
    return alt, lies
