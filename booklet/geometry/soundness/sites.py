"""Floor 3: the block under test, and a fault found in it."""

from __future__ import annotations

from booklet.geometry.placing.placing import LaidPiece
from booklet.geometry.soundness.subdivision import Subdivision
from booklet.kit.diagnostic import Diagnostic
from booklet.kit.measure import Length, UnitSystem
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record
from booklet.pattern import Applied, Block

Points = tuple[Point, ...]


class Fault(Record, kw_only=True):
    """A diagnostic with a key that is the same for the same fault in another size, and for its picture, in
    inches: the areas that are wrong, the points, and the pieces where the hint would have them."""

    key: tuple[object, ...]
    diagnostic: Diagnostic
    about: frozenset[int] = frozenset()  # the pieces it lies in or beside
    areas: tuple[Points, ...] = ()
    spots: tuple[Point, ...] = ()
    mended: tuple[Points, ...] = ()


class Site(Record):
    """The block under test in one size."""

    block: Block
    unit: Length
    units: UnitSystem
    pieces: tuple[LaidPiece, ...]

    def name(self, index: int) -> str:
        """A piece's id in backticks."""
        return f"`{self.pieces[index].id}`"


class LaidApplied(Record, kw_only=True):
    """An applied shape in its place, before it has a letter: the entry of the source it is of, the stretches of its
    edge that are seen, and those that later shapes cover."""

    laid: LaidPiece
    written: Applied
    entry: int
    seen: tuple[tuple[Point, ...], ...]
    covered: tuple[tuple[Point, ...], ...]
    stem_width: float = 0.0
    stem_length: float = 0.0


class Sound(Record):
    """A block that passed the test in one size, before its patches have letters."""

    block: str
    pieces: tuple[LaidPiece, ...]
    parts: Subdivision
    applied: tuple[LaidApplied, ...] = ()
