"""Floor 6: which way the seams are pressed that join blocks, sashes, triangles and borders to a top.

What lies side by side is sewn to a row, then the rows are sewn to each other. A seam of a row that ends
where one of the next row ends faces it, and they lock if they lie opposite ways: those are the equations,
solved as they are inside a block. A seam that ends at plain cloth has none. Of what is left free a seam
lies on the plain strip beside it, else like the seam before it in its row, and the first one to the left.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from enum import Enum
from itertools import pairwise

from booklet.kit.outlines.near import DRAWN
from booklet.kit.outlines.plane import Point, box_of, turn_point
from booklet.kit.records import Record
from booklet.pressing.equations.model import Model, Term
from booklet.pressing.equations.solve import solve

Outline = tuple[Point, ...]


class RowPartKind(Enum):
    """What lies in a row."""

    BLOCK = "block"
    TRIANGLE = "triangle"
    SASH = "sash"
    STONE = "cornerstone"
    TOP = "top"
    BORDER = "border"
    SQUARE = "corner square"


PLAIN = (RowPartKind.SASH, RowPartKind.BORDER)  # strips that a seam beside them rather lies on


class RowPart(Record, kw_only=True):
    """Something of a top: the upright rectangle about it, in inches, where rows run to the right. `number`
    is its own in some list of the caller's."""

    kind: RowPartKind
    left: float
    top: float
    right: float
    bottom: float
    number: int = 0


class PressedRow(Record):
    """A row from left to right: what lies in it, and of each seam whether it is pressed to the right.
    `locks` and `clashes` count the joints with the next row where two seams face each other."""

    kinds: tuple[RowPartKind, ...]
    right: tuple[bool, ...]
    locks: int
    clashes: int

    def toward(self, kind: RowPartKind) -> bool:
        """Whether every seam of the row lies on the side of that kind of cloth."""
        pairs = zip(pairwise(self.kinds), self.right, strict=True)
        return all(pair[right] is kind for pair, right in pairs)


class _Seam(Record):
    """A seam of a row: where it stands, from where to where it runs down, what lies on either side."""

    at: float
    top: float
    bottom: float
    sides: tuple[RowPartKind, RowPartKind]

    @property
    def plain(self) -> int:
        """Which side a plain strip lies on: -1 left, 1 right, 0 on neither or on both."""
        return (self.sides[1] in PLAIN) - (self.sides[0] in PLAIN)


def cloth_of(
    kind: RowPartKind, outline: Outline, *, slanted: bool = False, number: int = 0
) -> RowPart:
    """A part of the top; with `slanted` rows, which run from the lower left to the upper right, the top
    is first turned an eighth, so that they run to the right and the first lies at the top left."""
    points = [turn_point(p, 45) for p in outline] if slanted else outline
    left, top, right, bottom = box_of(points)
    return RowPart(kind=kind, left=left, top=top, right=right, bottom=bottom, number=number)


def press_rows(cloths: Iterable[RowPart]) -> tuple[PressedRow, ...] | None:
    """The rows of a top from the first to the last, pressed; None where cloths are not in rows."""
    rows = in_rows(cloths)
    if rows is None:
        return None
    seams = [list(_seams(row)) for row in rows]
    first = [0]
    for row_seams in seams:
        first.append(first[-1] + len(row_seams))
    facing = [
        [(first[k] + i, first[k + 1] + j) for i, j in _facing(one, other)]
        for k, (one, other) in enumerate(pairwise(seams))
    ]
    values = _solved(seams, [pair for pairs in facing for pair in pairs])
    return tuple(
        PressedRow(
            tuple(cloth.kind for cloth in row),
            values[first[k] : first[k + 1]],
            sum(values[a] != values[b] for a, b in pairs),
            sum(values[a] == values[b] for a, b in pairs),
        )
        for k, (row, pairs) in enumerate(zip(rows, [*facing, []], strict=True))
    )


def in_rows(cloths: Iterable[RowPart]) -> list[list[RowPart]] | None:
    """The cloths by rows, each from left to right; None where they do not lie in rows."""
    rows: list[list[RowPart]] = []
    for cloth in sorted(cloths, key=lambda c: (c.top, -c.bottom, c.left)):
        row = rows[-1] if rows else None
        if row is None or cloth.top > row[0].bottom - DRAWN:
            rows.append([cloth])
        elif cloth.bottom <= row[0].bottom + DRAWN:
            row.append(cloth)
        else:
            return None
    rows = [sorted(row, key=lambda cloth: cloth.left) for row in rows]
    beside = [pair for row in rows for pair in pairwise(row)]
    return rows if all(abs(b.left - a.right) <= DRAWN for a, b in beside) else None


def _seams(row: Sequence[RowPart]) -> Iterable[_Seam]:
    """The seams of a row, from left to right."""
    for one, other in pairwise(row):
        top, bottom = max(one.top, other.top), min(one.bottom, other.bottom)
        yield _Seam(other.left, top, bottom, (one.kind, other.kind))


def _facing(one: Sequence[_Seam], other: Sequence[_Seam]) -> Iterable[tuple[int, int]]:
    """The seams of a row and of the next, by number, that end at the same place."""
    there: dict[int, list[int]] = {}
    for j, seam in enumerate(other):
        there.setdefault(round(seam.at / DRAWN), []).append(j)
    for i, seam in enumerate(one):
        cell = round(seam.at / DRAWN)
        for j in sorted(j for c in (cell - 1, cell, cell + 1) for j in there.get(c, ())):
            if abs(other[j].top - seam.bottom) <= DRAWN:
                yield i, j


def _solved(rows: Sequence[Sequence[_Seam]], facing: Sequence[tuple[int, int]]) -> tuple[bool, ...]:
    """Of every seam, row by row, whether it is pressed to the right."""
    seams = [seam for row in rows for seam in row]
    prefer = [(max(seam.plain, 0), max(-seam.plain, 0)) for seam in seams]
    alike, first = list[Term](), 0
    for row in rows:
        for k, (one, other) in enumerate(pairwise(row), first):
            if not one.plain and not other.plain:
                alike.append(Term(((k, True), (k + 1, True)), 1))
        first += len(row)
    if seams and not seams[0].plain:
        prefer[0] = (0, 1)
    weight = 1 + len(seams) + len(alike)  # to lock comes before all that is only wished
    lock = [Term(((a, True), (b, False)), weight) for a, b in facing]
    return solve(Model(tuple(prefer), (*lock, *alike))).values
