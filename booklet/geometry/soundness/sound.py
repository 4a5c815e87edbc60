"""Floor 3: a block that passed the test, before its patches have letters."""

from __future__ import annotations

from booklet.geometry.placing.placing import LaidPiece
from booklet.geometry.soundness.subdivision import Subdivision
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record
from booklet.pattern import Applied


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
