"""Floor 7: fussy cuts. How many pieces a print's repeat gives, and how much cloth that takes."""

from __future__ import annotations

import math
from dataclasses import dataclass

from booklet.measure import Length


@dataclass(frozen=True, slots=True)
class FussyRows:
    """Rows of fussy cuts: pieces in a row, rows, the pitch across and along, the cloth's length; inches.

    `length` holds one more repeat, since the cloth may be cut anywhere in its repeat.
    """

    per_row: int
    rows: int
    across: float
    along: float
    length: float


def fussy_rows(
    pieces: int,
    size: tuple[float, float],
    repeat: tuple[Length, Length],
    width: Length,
    sure: bool = True,
) -> FussyRows:
    """The rows for so many pieces that take `size` (width, height) of cloth each.

    A piece every ⌈w / rx⌉ repeats across and a row every ⌈h / ry⌉ repeats along (own formula). With
    `sure` the motif may stand anywhere across the cloth, so that up to one repeat of its width is lost;
    without, the first motif stands where the first piece just fits.
    """
    rx, ry = float(repeat[0]), float(repeat[1])
    across, along = rx * _cover(size[0], rx), ry * _cover(size[1], ry)
    room = float(width) - size[0] - (rx if sure else 0.0)
    per_row = max(1, math.floor(room / across + 1e-9) + 1)
    rows = math.ceil(pieces / per_row)
    length = (rows - 1) * along + size[1] + (ry if sure else 0.0)
    return FussyRows(per_row, rows, across, along, length)


def least_length(
    pieces: int, size: tuple[float, float], repeat: tuple[Length, Length], width: Length
) -> float:
    """The length of cloth, inches, below which no way of cutting gives so many fussy pieces.

    Each piece needs a motif of its own, and the motif stands in one place of the piece. So the motifs
    lie in a stretch of width - w, which holds at most ⌊(width - w) / rx⌋ + 1 columns of them, and
    likewise along the cloth (own proof).
    """
    columns = max(1, math.floor((float(width) - size[0]) / float(repeat[0]) + 1e-9) + 1)
    rows = math.ceil(pieces / columns)
    return size[1] + (rows - 1) * float(repeat[1])


def _cover(size: float, repeat: float) -> int:
    return max(1, math.ceil(size / repeat - 1e-9))
