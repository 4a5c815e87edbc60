"""Floor 1, the pattern as a whole."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from types import MappingProxyType

from booklet.kit.diagnostic import Span
from booklet.kit.measure import Length, UnitSystem
from booklet.kit.records import Record, field, replace
from booklet.kit.words import FAMILIAR
from booklet.pattern.blocks import Block, Shape
from booklet.pattern.booklets import Address, Booklet, OwnFont, Voice
from booklet.pattern.sizes import BETWEEN, Alternative, Size


class Pattern(Record, kw_only=True):
    """The whole pattern as meant; `texts`, `pictures` and the author's own page `templates` are the
    loaded files by their path."""

    title: str
    designer: str
    version: str
    date: date | None
    language: str
    units: UnitSystem
    allowance: Length
    summary: str
    sizes: tuple[Size, ...]
    shapes: tuple[Shape, ...]
    blocks: tuple[Block, ...]
    booklet: Booklet
    span: Span
    texts: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    templates: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    style: str = ""  # a style sheet of the author's own
    pictures: Mapping[str, bytes] = field(default_factory=lambda: MappingProxyType({}))
    fonts: Mapping[str, OwnFont] = field(default_factory=lambda: MappingProxyType({}))
    complete: bool = True  # whether nothing had to be left out of it for a fault
    both_units: bool = False  # whether figures of cutting stand in the other units, too
    address: Address = Address.FORMAL
    files_title: str = ""  # what files are named after, where the title is that of another language
    alternatives: tuple[Alternative, ...] = ()
    alternative: str = ""  # as which of them it is taken; "" as it is

    def taken_as(self, alternative: Alternative) -> Pattern:
        """The pattern in an alternative: with its sizes, and with a photograph on the cover only if that shows it."""
        cover = replace(self.booklet.cover, picture=alternative.picture)
        booklet = replace(self.booklet, cover=cover)
        return replace(
            self,
            sizes=alternative.sizes,
            booklet=booklet,
            alternative=alternative.id,
            alternatives=self.told_alternatives,
        )

    @property
    def told_alternatives(self) -> tuple[Alternative, ...]:
        """The alternatives by name and title alone."""
        return tuple(replace(one, sizes=()) for one in self.alternatives)

    def alternative_name(self, id: str) -> str:
        """The same name without what is the pattern as it is, "" where nothing else is named. KeyError if there is none."""
        found = self.alternative_of(id)
        return "" if found is None else found.id

    def alternative_of(self, id: str) -> Alternative | None:
        """The alternative of that name, or of the two names of a colourway and a layout; None for the pattern as it is.
        KeyError if there is none."""
        there = {one.id: one for one in self.alternatives}
        named = [there[name] for name in id.split(BETWEEN)] if id else []
        others = [one for one in named if not one.is_own]
        if len(others) < 2:
            return others[0] if others else None
        return there[id]

    def alternatives_in(self, id: str) -> tuple[Alternative, ...]:
        """The colourway and the layout of that name, or of these two names, as far as they are there."""
        names = id.split(BETWEEN) if id else ()
        return tuple(one for one in self.alternatives if one.id in names)

    @property
    def voice(self) -> Voice:
        """In which language and units it speaks."""
        return Voice(self.language, self.units, self.both_units, self.address)

    @property
    def tongue(self) -> str:
        """The language in which its words are said (`words_of`)."""
        return self.language + (FAMILIAR if self.address is Address.FAMILIAR else "")

    def sizes_of_class(self) -> tuple[Size, ...]:
        """The sizes of which the class has its booklets."""
        own, makes = [e for e in self.booklet.editions if e.of_class], self.booklet.lesson.makes
        return tuple(
            size
            for size in self.sizes
            if any(not edition.sizes or size.id in edition.sizes for edition in own)
            and (makes is None or makes.size in (None, size.id))
        )

    def made_in_class(self, size: Size) -> tuple[tuple[str, int], ...]:
        """The blocks of a size that each student makes, with how many; none where it is the whole size."""
        makes = self.booklet.lesson.makes
        if makes is None or makes.size is not None:
            return ()
        return makes.blocks or tuple((block.id, 1) for block in self.sewn_blocks(size))

    def part_of(self, block: Block) -> int:
        """The part (from 1) in which a block is sewn; 0 where there are none. A part block goes with the block it is
        cut from, and what no part names with the last."""
        parts, name = self.booklet.parts, block.part.block if block.part else block.id
        named = (n for n, part in enumerate(parts, 1) if name in part.blocks)
        return next(named, len(parts))

    def sewn_blocks(self, size: Size) -> tuple[Block, ...]:
        """The blocks of a size that are sewn from pieces: none that is whole when it is cut, and no part of another."""
        return tuple(
            block
            for block in self.blocks
            if block.part is None and size.uses(block.id) and len(block.all_members()) > 1
        )

    def block(self, id: str) -> Block:
        """The block of that id; KeyError if there is none."""
        for block in self.blocks:
            if block.id == id:
                return block
        raise KeyError(id)

    def size(self, id: str) -> Size:
        """The size of that id; KeyError if there is none."""
        for size in self.sizes:
            if size.id == id:
                return size
        raise KeyError(id)
