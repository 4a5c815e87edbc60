"""Floor 7: the repeat of a print. Where its motif stands again, and how densely pieces of one outline can be
cut with the motif in the same place of each."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from booklet.crafts.rotary.nesting import pitch
from booklet.kit.outlines.near import NOISE, ONE_POINT
from booklet.kit.outlines.plane import Point, extent
from booklet.kit.records import Record
from booklet.pattern import Fabric

MOST = 48
"""Repeats taken up by one piece, at most, up to which staggered ways of cutting are sought."""


class Repeat(Record):
    """Motifs stand every `across` in a row and every `along` in a column; each column of them lies `drop`
    lower than the one on its left (a half drop: half of `along`). Inches."""

    across: float
    along: float
    drop: float = 0.0

    @classmethod
    def of(cls, fabric: Fabric) -> Repeat | None:
        """The repeat of a fabric; None where it has none."""
        if fabric.repeat is None:
            return None
        across, along = fabric.repeat
        return cls(float(across), float(along), float(fabric.drop) % float(along))


class Motifs(Record):
    """Some of the motifs, regularly: every `columns`-th column, in it every `rows`-th motif, each column so
    used `shift` motifs lower than the one before it (beside what the print itself drops)."""

    repeat: Repeat
    columns: int
    rows: int
    shift: int

    @property
    def across(self) -> float:
        """From one column in use to the next."""
        return self.columns * self.repeat.across

    @property
    def along(self) -> float:
        """From one motif in use to the next in its column."""
        return self.rows * self.repeat.along

    def top(self, column: int) -> float:
        """Where the first motif of a column in use stands, from 0 to less than `along`."""
        step = self.columns * self.repeat.drop + self.shift * self.repeat.along
        top = column * step % self.along
        return 0.0 if self.along - top < NOISE else top

    def places(self, pieces: int, room: float) -> tuple[Point, ...]:
        """Places of so many motifs within `room` across, those that reach least far along; the first is the
        uppermost, at height 0.

        By height the motifs of all columns come round again after `along`, so the shortest stretch with so
        many of them begins at one of the first round.
        """
        count = math.floor(max(room, 0.0) / self.across + NOISE) + 1
        tops = sorted((round(self.top(c), 9), c) for c in range(count))

        def at(number: int) -> tuple[float, int]:
            round_, index = divmod(number, len(tops))
            top, column = tops[index]
            return top + round_ * self.along, column

        def reach(first: int) -> float:
            return round(at(first + pieces - 1)[0] - at(first)[0], 9)

        first = min(range(len(tops)), key=lambda number: (reach(number), number))
        chosen = [at(first + number) for number in range(pieces)]
        left = min(column for _, column in chosen)
        begin = chosen[0][0]
        return tuple(((column - left) * self.across, y - begin) for y, column in chosen)


def plain_motifs(size: tuple[float, float], repeat: Repeat) -> Motifs:
    """Motifs far enough apart for boxes of this size (width, height) in level rows, or staggered as the
    print drops: a column every ⌈w / across⌉ repeats, in it a piece every ⌈h / along⌉."""
    return Motifs(repeat, _cover(size[0], repeat.across), _cover(size[1], repeat.along), 0)


def motifs_for(outline: Sequence[Point], repeat: Repeat) -> Iterator[Motifs]:
    """Every regular choice of motifs on which pieces of this outline do not overlap, no sparser than the
    plain one.

    All sub-lattices are listed by their normal form (Hermite); two pieces are tested as polygons, one
    moved against the other by each vector of the sub-lattice.
    """
    size = extent(outline)
    plain = plain_motifs(size, repeat)
    yield plain
    most = plain.columns * plain.rows
    if most > MOST:
        return
    clash = _clashes(outline, size, repeat)
    for index in range(1, most + 1):
        for columns in range(1, index + 1):
            if index % columns:
                continue
            rows = index // columns
            for shift in range(rows):
                found = Motifs(repeat, columns, rows, shift)
                if found != plain and not any(_holds(found, c, m) for c, m in clash):
                    yield found


def _holds(motifs: Motifs, column: int, motif: int) -> bool:
    """Whether the vector (so many columns, so many motifs along) lies in the sub-lattice."""
    turns, rest = divmod(column, motifs.columns)
    return rest == 0 and (motif - turns * motifs.shift) % motifs.rows == 0


def _clashes(
    outline: Sequence[Point], size: tuple[float, float], repeat: Repeat
) -> tuple[tuple[int, int], ...]:
    """The vectors between motifs (columns >= 0, motifs along) at which two pieces overlap."""
    found = []
    for column in range(math.ceil(size[0] / repeat.across - NOISE)):
        dx, drop = column * repeat.across, column * repeat.drop
        lowest = math.floor((-size[1] - drop) / repeat.along)
        highest = math.ceil((size[1] - drop) / repeat.along)
        for motif in range(lowest, highest + 1):
            dy = drop + motif * repeat.along
            if (column, motif) != (0, 0) and overlap(outline, (dx, dy)):
                found.append((column, motif))
    return tuple(found)


def overlap(outline: Sequence[Point], by: Point) -> bool:
    """Whether a piece and the same moved by (x >= 0, y) share more than an edge.

    Level by level the outline counts as filled from its leftmost to its rightmost edge.
    """
    if abs(by[1]) > extent(outline)[1] - ONE_POINT:
        return False
    moved = tuple((x, y + by[1]) for x, y in outline)
    right = pitch(outline, moved)
    left = pitch(moved, outline)
    return by[0] < right - ONE_POINT and -by[0] < left - ONE_POINT


def _cover(size: float, repeat: float) -> int:
    return max(1, math.ceil(size / repeat - NOISE))
