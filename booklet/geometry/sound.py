"""Floor 3: a block that passed the test, before its patches have letters."""

from __future__ import annotations

from dataclasses import dataclass

from booklet.geometry.placing import LaidPiece
from booklet.geometry.subdivision import Subdivision


@dataclass(frozen=True, slots=True)
class Sound:
    """A block that passed the test in one size, before its patches have letters."""

    block: str
    pieces: tuple[LaidPiece, ...]
    parts: Subdivision
