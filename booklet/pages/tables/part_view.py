"""Floor 11, parts: how a part of a pattern stands among the others, for the page `parts`."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from booklet.cutting.cutting_plan import InParts, KeptForLater
from booklet.kit.records import Record
from booklet.kit.words import Text, at_least, listing, phrase, plural_phrase
from booklet.pattern import Fabric, Pattern
from booklet.plan import SizePlan


class PartRow(Record, kw_only=True):
    """A line of the list of parts: its number, its title, what is sewn in it; `own` marks the part that is printed."""

    number: int
    title: str
    sewn: Text
    own: bool


class KeptRow(Record):
    """A line of what is kept: of which cloth (None: units made together), how many, and for which part."""

    title: Text
    fabric: Fabric | None
    count: int
    until: int


class ClothLeft(Record):
    """How much of a cloth later parts cut."""

    fabric: Fabric
    amount: Text


class PartView(Record, kw_only=True):
    """A part among the others; of the whole `number` is 0, and nothing is kept."""

    number: int
    rows: tuple[PartRow, ...]
    ready: tuple[KeptRow, ...] = ()
    kept: tuple[KeptRow, ...] = ()
    cloth: tuple[ClothLeft, ...] = ()
    joins: bool = False  # whether the quilt is joined of blocks from earlier parts


def part_view(plan: SizePlan) -> PartView | None:
    """What the page of the parts shows of a size; None of a pattern that comes in one."""
    stands = plan.cutting.in_parts
    number = stands.number if stands is not None else 0
    quilted = stands.quilted if stands else any(s.quilt is not None for s in plan.pattern.sizes)
    rows = tuple(_rows(plan.pattern, number, quilted))
    if not rows or stands is None:
        return PartView(number=0, rows=rows) if rows else None
    return PartView(
        number=number,
        rows=rows,
        ready=_kept(plan, stands.ready),
        kept=_kept(plan, stands.kept),
        cloth=tuple(_cloth(plan, stands)),
        joins=any(block.is_ready for block in plan.blocks),
    )


def _rows(pattern: Pattern, own: int, quilted: bool) -> Iterator[PartRow]:
    """The parts with their blocks; the last has the joining, too, where a size has a quilt."""
    parts = pattern.booklet.parts
    for number, part in enumerate(parts, 1):
        sewn: list[Text] = [
            phrase("block “{block}”", block=block.title)
            for block in pattern.blocks
            if block.part is None and pattern.part_of(block) == number
            if any(size.uses(block.id) for size in pattern.sizes) or own
        ]
        if number == len(parts) and quilted:
            sewn.append(phrase("joining and finishing the quilt"))
        yield PartRow(
            number=number, title=part.title, sewn=listing(sewn, "commas"), own=number == own
        )


def _kept(plan: SizePlan, kept: Iterable[KeptForLater]) -> tuple[KeptRow, ...]:
    return tuple(
        KeptRow(
            one.title if one.fabric else phrase("unit {name}, made together", name=one.name),
            plan.fabric(one.fabric) if one.fabric else None,
            one.count,
            one.until,
        )
        for one in kept
    )


def _cloth(plan: SizePlan, stands: InParts) -> Iterator[ClothLeft]:
    """The cloth that later parts cut, of what is bought by then."""
    units = plan.pattern.units
    for fabric, length in stands.cloth_left.items():
        wide = at_least(length, units)
        amount = phrase("at least {length}, over the whole width", length=wide)
        yield ClothLeft(plan.fabric(fabric), amount)
    for fabric, count in stands.pieces_left.items():
        told = plural_phrase("{n} whole piece, bought then", "{n} whole pieces, bought then", count)
        yield ClothLeft(plan.fabric(fabric), told)
