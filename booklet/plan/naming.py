"""Floor 9: what the parts of a block are called on its cards."""

from __future__ import annotations

from collections.abc import Iterable

from booklet.geometry.tiling import PlacedPiece
from booklet.kit.records import Record
from booklet.kit.words import Text, large, phrase, worded
from booklet.plan.words import UNIT_WORDS, numbered, several, spoken, the
from booklet.sewing.assembly import Assembly, Step

NO_NAME = " with "  # in the name of a unit to which the author gave none
US = "en"


class Naming(Record, kw_only=True):
    """How the parts of one block are named for its reader."""

    assembly: Assembly
    fabric_names: dict[str, str]
    fabrics_of: dict[str, set[str]]  # patch letter -> fabrics it is cut from in this block
    made_in: dict[str, Step]  # unit name -> the step that makes it
    shared: frozenset[Text]  # the spoken names of units that differ
    language: str = US

    @classmethod
    def of(
        cls,
        assembly: Assembly,
        fabric_names: dict[str, str],
        blocks: Iterable[str] = (),
        language: str = US,
    ) -> Naming:
        """The naming for a block's assembly; `blocks` are the names and titles of all blocks, which no
        unit may seem to be, `language` that in which titles of units are wanted."""
        fabrics_of: dict[str, set[str]] = {}
        for piece in assembly.tiling.pieces:
            fabrics_of.setdefault(piece.patch, set()).add(piece.fabric)
        pieces = {
            piece.id for piece in assembly.tiling.pieces
        }  # a block may have a piece of its name
        made_in = {step.make: step for step in assembly.steps if step.make not in pieces}
        cards: dict[Text, set[int]] = {}
        for step in made_in.values():
            cards.setdefault(_unit(step, assembly, language), set()).add(step.card)
        blocks = {name.casefold() for name in blocks}
        shared = frozenset(
            unit for unit, there in cards.items() if len(there) > 1 or unit.casefold() in blocks
        )
        return cls(
            assembly=assembly,
            fabric_names=fabric_names,
            fabrics_of=fabrics_of,
            made_in=made_in,
            shared=shared,
            language=language,
        )

    def piece(self, id: str) -> Text:
        """A piece by its letter, with its fabric where the letter comes in more than one."""
        piece = self.assembly.tiling.piece(id)
        return self.clothed(id) if len(self.fabrics_of[piece.patch]) > 1 else _letter(piece)

    def clothed(self, id: str) -> Text:
        """A piece by its letter and its fabric: "A (white)"."""
        piece = self.assembly.tiling.piece(id)
        fabric = self.fabric_names[piece.fabric]
        return phrase("{piece} ({fabric})", piece=_letter(piece), fabric=fabric)

    def part(self, name: str) -> Text:
        """A part of a step: a piece by its letter, or a unit by its spoken name."""
        step = self.made_in.get(name)
        if step is None:
            return self.piece(name)
        unit = self.unit(step)
        if unit == UNIT_WORDS["unit"]:
            return phrase("the unit of step {step}", step=step.card)
        if unit in self.shared:
            return phrase("{part} of step {step}", part=the(unit), step=step.card)
        return numbered(unit) if is_marked(unit) else the(unit)

    def unit(self, step: Step) -> Text:
        """The spoken name of what a step makes."""
        return _unit(step, self.assembly, self.language)

    def made(self, step: Step) -> Text:
        """What a step makes, as it is named under its picture: "Pair", "Unit of step 3", "The block"."""
        if step.finish:
            return ""
        if _is_block(step, self.assembly):
            return phrase("The block")
        unit = self.unit(step)
        if unit == UNIT_WORDS["unit"]:
            return phrase("Unit of step {step}", step=step.card)
        return large(unit)

    def taken(self, names: Iterable[str], by: Step | None = None) -> tuple[Text, ...]:
        """Parts in order with their number, and where units come from: "2 A", "the wing (step 1)",
        "2 sides (step 2)", "row 1 (step 3)". Of patches "A" is one, but "1 B" beside "2 A". A unit that
        several steps make, as one that closes a seam of it, is that of the last step before `by`."""
        found: dict[tuple[Text, int], int] = {}
        for name in names:
            step = self._made_before(name, by)
            key = (self.piece(name), 0) if step is None else (self.unit(step), step.card)
            found[key] = found.get(key, 0) + 1
        counted = any(n > 1 for n in found.values())
        return tuple(_taken(part, card, n, counted) for (part, card), n in found.items())

    def _made_before(self, name: str, by: Step | None) -> Step | None:
        """The last step before another that makes a unit; None for a patch."""
        last = self.made_in.get(name)
        if last is None or by is None or last.n < by.n:
            return last
        earlier = [s for s in self.assembly.steps if s.make == name and s.n < by.n]
        return earlier[-1] if earlier else last


def _unit(step: Step, assembly: Assembly, language: str) -> Text:
    """The spoken name of what a step of a block makes: its title, or a usual word; the plain "unit" where
    the reader cannot be told a name, since the author gave none but a short one for the steps."""
    if _is_block(step, assembly):
        return UNIT_WORDS["block"]
    if title := worded(step.titles, language):
        return title
    if step.section:
        return phrase("section {letter}", letter=step.section)
    usual = None if NO_NAME in step.make else spoken(step.make, alike=step.times > 1)
    return UNIT_WORDS["unit"] if usual is None or usual == UNIT_WORDS["block"] else usual


def _is_block(step: Step, assembly: Assembly) -> bool:
    """Whether a step makes the whole block, if perhaps with a seam still open."""
    return len(step.pieces) == len(assembly.tiling.pieces)


def is_marked(unit: Text) -> bool:
    """Whether a unit's name ends in a number or a letter, "row 1", "pair b": it takes no English article."""
    last = unit.rpartition(" ")[2]
    return last[-1].isdigit() or len(last) == 1 or last.isupper()


def _letter(piece: PlacedPiece) -> Text:
    """A piece by its letter alone."""
    return reversed_letter(piece.patch) if piece.reversed else piece.patch


def reversed_letter(letter: str) -> Text:
    """A patch turned over, by its letter."""
    return phrase("{letter} reversed", letter=letter)


def _taken(part: Text, card: int, n: int, counted: bool) -> Text:
    """Some alike parts: patches by their letter; units in the plural, or a single one as "the wing"."""
    if not card:
        return phrase("{n} {piece}", n=n, piece=part) if n > 1 or counted else part
    if n > 1:
        return several(n, part, card)
    return phrase(
        "{unit} (step {step})", unit=numbered(part) if is_marked(part) else the(part), step=card
    )
