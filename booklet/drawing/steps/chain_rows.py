"""Floor 10: rows of units under the needle, one row for each seam of a unit."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.drawing.ink.fills import Looks
from booklet.drawing.scene import Ink, Item, Label, Line, Mark, Sign
from booklet.drawing.steps.chain_laid import (
    ABOVE,
    NEEDLE,
    PLATE,
    LaidUnit,
    Pass,
    laid,
    laid_unit,
    passes,
    plate,
)
from booklet.kit.measure import INCH_MM
from booklet.kit.records import Record
from booklet.kit.words import Speaker, Text, phrase
from booklet.plan import BlockPlan, StepCard
from booklet.quilt.assembling.joining import TOP

MOST = 4  # units drawn before the row breaks off
MOST_BESIDE = 2  # where two rows stand side by side
BESIDE = 130.0  # mm: from this width on they do
BETWEEN = 6.0  # mm between two rows side by side
TALL = 18.0  # mm: the most of a unit below the seam
COUNT_ROOM = 13.0  # mm at the right, for the count of all


class Rows(Record):
    """What is drawn, how high in mm, what it shows in words, and how the parts lie."""

    items: tuple[Item, ...]
    high: float
    told: Text
    lies: Text


class _Row(Record, kw_only=True):
    """Where a row lies and how it is drawn, all in mm but the scale, which is in mm to the inch."""

    left: float
    down: float
    width: float
    room: float  # for a unit
    most: int
    scale: float

    def high(self, unit: LaidUnit) -> float:
        """How high the row is."""
        return ABOVE + (unit.box[3] - min(unit.box[1], 0.0)) * self.scale + 6.5


def under_needle(
    block: BlockPlan, card: StepCard, looks: Looks, width: float, *, speaker: Speaker
) -> Rows:
    """Units in a row under the needle, each with its parts right sides together; a row for each seam of
    theirs, since one seam of all is sewn before the next. Rows of one chain stand two by two, in reading
    order, where there is room. `width` in mm."""
    rows = passes(block, card.step)
    units = [laid(block, row) for row in rows]
    columns = 2 if len(units) > 1 and width >= BESIDE else 1
    most = MOST_BESIDE if columns > 1 else MOST
    wide = (width - BETWEEN * (columns - 1)) / columns
    room = (wide - PLATE[1] - 12) / most
    scale = min(_fitting(unit, room, TALL) for unit in units)
    items: list[Item] = []
    down = 0.0
    for start in range(0, len(units), columns):
        beside = units[start : start + columns]
        for column, unit in enumerate(beside):
            row = _Row(
                left=column * (wide + BETWEEN),
                down=down,
                width=wide,
                room=room,
                most=most,
                scale=scale,
            )
            items += _row(block, card, unit, looks, row)
            if len(units) > 1:
                items.append(_which(start + column, len(units), row, speaker))
        down += max(row.high(unit) for unit in beside)
    return Rows(tuple(items), down, *_rows_told(card, rows, block.tiling.block == TOP))


def _fitting(unit: LaidUnit, room: float, tall: float) -> float:
    """The scale in mm to the inch at which a unit fits its place in a row."""
    left, upper, right, lower = unit.box
    return min((room - 5) / (right - left), tall / (lower - min(upper, 0.0)), INCH_MM / 2)


def _which(n: int, many: int, row: _Row, speaker: Speaker) -> Label:
    """Which seam of the step a row is, on the plate, below the foot."""
    words = (phrase("first", context="seam"), phrase("then", context="seam"), phrase("last", context="seam"))  # fmt: skip
    word = words[0] if n == 0 else words[2] if n == many - 1 else words[1]
    at = (row.left + sum(PLATE) / 2, row.down + ABOVE + 6.4)
    return Label(at=at, text=speaker.say(word), size=8.0, bold=True, accent=True)


def _row(block: BlockPlan, card: StepCard, unit: LaidUnit, looks: Looks, row: _Row) -> list[Item]:
    """One row under the needle."""
    left, upper, right, lower = unit.box
    shown = min(card.total, row.most)
    base = row.down + ABOVE - min(upper, 0.0) * row.scale
    foot = base + lower * row.scale
    needle, end = row.left + NEEDLE, row.left + row.width
    items: list[Item] = plate(row.down, max(foot - row.down, ABOVE + 8) + 1.0, row.left)
    x = row.left + PLATE[1] + 4
    last = end - COUNT_ROOM if card.total > row.most else x + row.room * (shown - 1)
    items.append(Line(points=((needle, base), (last, base)), ink=Ink.THREAD))
    for place in range(1, shown + 1):
        items += laid_unit(block, unit, looks, row.scale, (x - left * row.scale, base))
        at = (x + (right - left) * row.scale / 2, foot + 3.4)
        items.append(Label(at=at, text=str(place), size=8.0, bold=True, accent=True))
        x += row.room
    items.append(Sign((needle, base), Mark.DOT))
    if card.total > row.most:
        items.append(
            Label(at=(end - 0.5, base), text=f"… {card.total}", size=9.0, anchor="end", bold=True)
        )
    return items


def _rows_told(card: StepCard, rows: Sequence[Pass], is_top: bool) -> tuple[Text, Text]:
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
    if (
        first == second or is_top
    ):  # one name for both, or numbers of blocks that the picture of the quilt holds
        alt = phrase(
            "{n} rows of units under the needle, one for each seam: in the first two parts lie right sides together; in "
            "the next the part that follows lies on them.",
            n=len(rows),
        )
        return alt, phrase(
            "One row for each seam: sew the first seam of all of them, then the next. The smaller part lies on top, wrong "
            "side up; the thread is not cut between them."
        )
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
