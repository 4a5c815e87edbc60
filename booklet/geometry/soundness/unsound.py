"""Floor 3: the blocks whose pieces do not cover them exactly once, as they lie, for whoever draws their faults."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.geometry.layout import border_of, check_block
from booklet.geometry.placing.placing import LaidPiece, place_pieces
from booklet.geometry.soundness.sites import Fault
from booklet.geometry.tiling import Outline
from booklet.kit.measure import UnitSystem
from booklet.kit.records import Record
from booklet.kit.remembered.memory import Ask
from booklet.pattern import Block, Pattern, Size
from booklet.pattern.reads import drawn


class Unsound(Record, kw_only=True):
    """A block with its faults in the first size that shows them: its pieces as they lie, in inches."""

    block: Block
    size: Size
    units: UnitSystem
    pieces: tuple[LaidPiece, ...]
    border: Outline | None
    faults: tuple[Fault, ...]


def unsound_blocks(pattern: Pattern, ask: Ask) -> Iterator[Unsound]:
    """The blocks with faults, in the order of the source."""
    for block in pattern.blocks:
        for size in pattern.sizes:
            made, faults = ask(check_block, drawn(block), size.unit, pattern.units)
            if made is None and faults:
                laid, _ = place_pieces(block, size.unit, pattern.units)
                yield Unsound(
                    block=block,
                    size=size,
                    units=pattern.units,
                    pieces=laid,
                    border=border_of(block, size.unit),
                    faults=faults,
                )
                break
