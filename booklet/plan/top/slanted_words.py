"""Floor 9: the rows of a set on point in words, corner to corner as they are sewn."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.kit.records import Record
from booklet.kit.words import Phrase, Text, listing, phrase, plural_phrase
from booklet.plan.records import SizePlan
from booklet.quilt.assembling.row_pressing import RowPartKind
from booklet.quilt.assembling.slanted import InRow, SlantedRow, SlantedSet, slanted_set

TOPS = {
    45: phrase("its top to the upper right"),
    135: phrase("its top to the lower right"),
    225: phrase("its top to the lower left"),
    315: phrase("its top to the upper left"),
}
"""Where the top of a block looks, by the degrees it is turned clockwise in the quilt."""

_LAST = phrase("(corner triangle, last of all)")


class RowLine(Record):
    """One row, or alike ones, in words: their name and what lies in them from the lower left."""

    name: Phrase
    words: Text


def slanted_of(size: SizePlan) -> SlantedSet | None:
    """The rows of a size that is set on point, else None."""
    return slanted_set(size.quilt, {block.block.id: block.tiling for block in size.blocks})


def slanted_lines(size: SizePlan, found: SlantedSet) -> tuple[RowLine, ...]:
    """The rows from the upper left, alike ones once: rows of blocks, and rows of sashes by their own
    numbers."""
    several = {block for block, turns in _turns(size).items() if len(turns) > 1}
    alike: dict[tuple[bool, Text], list[int]] = {}
    for row in found.rows:
        key = (row.has_blocks, listing(_told(size, row, several), "commas"))
        alike.setdefault(key, []).append(row.number)
    return tuple(
        RowLine(_name(blocks, numbers), words) for (blocks, words), numbers in alike.items()
    )


def tops_told(size: SizePlan) -> tuple[Text, ...]:
    """Where the tops of blocks look that always lie the same way; others are told in their rows."""
    turns = _turns(size)
    if len(set().union(*turns.values())) == 1:
        top = TOPS.get(next(iter(set().union(*turns.values()))))
        return (phrase("Every block lies with {top}.", top=top),) if top is not None else ()
    return tuple(
        phrase("{title} always lies with {top}.", title=block.block.title, top=TOPS[turn])
        for block in size.blocks
        if len(turns.get(block.block.id, ())) == 1 and (turn := min(turns[block.block.id])) in TOPS
    )


def _turns(size: SizePlan) -> dict[str, set[int]]:
    """In which ways each kind of block lies."""
    found: dict[str, set[int]] = {}
    for placed in size.quilt.placed:
        found.setdefault(placed.block, set()).add(placed.turn)
    return found


def _name(blocks: bool, numbers: list[int]) -> Phrase:
    """The name of alike rows: "Rows 1 and 4", "Row 2 of sashes"."""
    if blocks:
        return plural_phrase("Row {rows}", "Rows {rows}", len(numbers), rows=tuple(numbers))
    return plural_phrase(
        "Row {rows} of sashes", "Rows {rows} of sashes", len(numbers), rows=tuple(numbers)
    )


def _told(size: SizePlan, row: SlantedRow, several: set[str]) -> list[Text]:
    """What lies in a row, from its lower left end; what follows itself is counted."""
    parts = counted([_item(size, item, several) for item in row.items])
    return [*([_LAST] if row.start else []), *parts, *([_LAST] if row.end else [])]


def _item(size: SizePlan, item: InRow, several: set[str]) -> Text:
    """A block by its title, and where blocks lie in several ways by its top; a part by its own."""
    if item.placed is None:
        if item.kind is RowPartKind.TRIANGLE:
            return phrase("side triangle")
        return next(part.title for part in size.quilt.parts if part.name == item.name)
    title = next(b.block.title for b in size.blocks if b.block.id == item.name)
    if item.name not in several:
        return title
    if item.placed.turn in TOPS:
        return phrase("{title} ({top})", title=title, top=TOPS[item.placed.turn])
    return phrase("{title} (turned {turn} degrees clockwise)", title=title, turn=item.placed.turn)


def counted(items: Sequence[Text]) -> list[Text]:
    """Things in a row with repeats counted, of one thing or of two by turns: "3 × Nine",
    "2 × (sash, cornerstone)"."""
    found: list[Text] = []
    at = 0
    while at < len(items):
        single, double = _repeats(items, at, 1), _repeats(items, at, 2)
        if double > 1 and 2 * double > single:
            pair = listing(items[at : at + 2], "commas")
            found.append(phrase("{n} × ({parts})", n=double, parts=pair))
            at += 2 * double
        else:
            one = items[at]
            found.append(phrase("{n} × {title}", n=single, title=one) if single > 1 else one)
            at += single
    return found


def _repeats(items: Sequence[Text], at: int, length: int) -> int:
    """How often the next `length` things come one after the other."""
    first, count = list(items[at : at + length]), 1
    while list(items[at + count * length : at + (count + 1) * length]) == first:
        count += 1
    return count
