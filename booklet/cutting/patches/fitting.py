"""Floor 7: the fit. Both sides of every seam must be as long as each other, as cut and sewn by the printed figures.

Triangles cut from squares are rounded up to a mark of the ruler, so their sides grow. What has grown is
followed through the steps of every block. In a rectangle that is trimmed to its exact size it is gone from
then on; there it may stand out at the rim, a little of any piece (`STANDS_OUT`), and more of half squares,
geese and all units of triangles alone. Where it would meet the side of another piece more than `FIT` apart, first a
rectangle on the way is trimmed; where there is none, the letter is cut more finely: on the half mark, at
last by template.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Iterator, Mapping
from itertools import pairwise

from booklet.crafts.rotary.marks import FIT, HAIR, Grade, Grown
from booklet.crafts.rotary.ruler import Ruler
from booklet.cutting.demand import Want, wants_of
from booklet.cutting.patches.cut_outlines import cut_outline, inner_angle
from booklet.cutting.patches.rims import lies_on_rim
from booklet.cutting.patches.rotary import rotary
from booklet.geometry.tiling import PlacedPiece, Seam, Side, Tiling
from booklet.kit.outlines.near import NOISE, SAME_LENGTH
from booklet.kit.outlines.plane import Point, off_line
from booklet.kit.records import Record, replace
from booklet.quilt.sized import SizedQuilt
from booklet.sewing.assembly import Assembled, Run, Step

STANDS_OUT = 3 / 64
"""So much may stand out at the rim of any unit that is trimmed, inches: a charted quarter square (+ 1 1/4 in
for 1.207) is 0.043 in too long in the long side."""


"""What has grown of which piece, by block and piece."""


class Misfit(Record):
    """A seam whose sides differ, or a side on the rim that is too long: the block, and the pieces whose sides have
    grown there."""

    block: str
    grown: tuple[str, ...]


class Fitted(Record):
    """How finely each letter is cut (in `ruler`), and the steps after which the unit is trimmed, by block."""

    ruler: Ruler
    trims: Mapping[str, frozenset[int]]


def fitted(
    pattern: Assembled, quilt: SizedQuilt, ruler: Ruler, without: frozenset[tuple[str, str]]
) -> Fitted:
    """The easiest way to cut with which every seam of the blocks of a size fits; `without` are the pieces
    (block, piece) of units that are made together and trimmed."""
    wants, blocks = wants_of(pattern, quilt, without), sewn_blocks(pattern, quilt)
    while True:
        grown = grown_pieces(wants, ruler)
        trims: dict[str, frozenset[int]] = {}
        amiss: Misfit | None = None
        for block in blocks:
            trims[block.tiling.block], found = block.trimmed(grown.get(block.tiling.block, {}))
            amiss = amiss or found
        if amiss is None:
            return Fitted(ruler, trims)
        tiling = next(b.tiling for b in blocks if b.tiling.block == amiss.block)
        letter = _most_grown(tiling, amiss, grown[amiss.block])
        finer = Grade(min(ruler.grade(letter) + 1, Grade.TEMPLATE))
        ruler = replace(ruler, grades={**ruler.grades, letter: finer})


def _most_grown(tiling: Tiling, amiss: Misfit, grown: Mapping[str, Grown]) -> str:
    """The letter of the piece that is most too long."""
    piece = max(amiss.grown, key=lambda id: max(more for _, more in grown[id]))
    return tiling.piece(piece).patch


def grown_pieces(wants: Iterable[Want], ruler: Ruler) -> dict[str, dict[str, Grown]]:
    """How much the pieces of every block have grown, those that have at all."""
    found: dict[str, dict[str, Grown]] = {}
    for want in wants:
        of_patches = ruler.of_patches
        made = rotary(want, cut_outline(want.patch.outline, of_patches.allowance), of_patches)
        if any(abs(more) > float(HAIR) for _, more in made.grown):
            for tiling, piece in want.members:
                found.setdefault(tiling.block, {})[piece.id] = made.grown
    return found


def sewn_blocks(pattern: Assembled, quilt: SizedQuilt) -> tuple[SewnBlock, ...]:
    """The blocks of a size that the quilt has, with their steps."""
    found = []
    for tiling in pattern.of_size(quilt.size):
        if quilt.blocks.get(tiling.block, 0):
            assembly = pattern.assemblies.get((quilt.size.id, tiling.block))
            steps = assembly.steps if assembly else ()
            found.append(SewnBlock(tiling, steps, quilt.finished is not None))
    return tuple(found)


class SewnBlock(Record):
    """A block and the steps that sew it; whether it is joined to others."""

    tiling: Tiling
    steps: tuple[Step, ...]
    joined: bool

    def trimmed(self, grown: Mapping[str, Grown]) -> tuple[frozenset[int], Misfit | None]:
        """The steps after which the unit is trimmed, so that as little as can be does not fit, and the
        first seam that still does not."""
        asked = self._at_once(grown)
        while True:
            amiss = next(self.misfits(grown, asked), None)
            more = self._next_to_trim(amiss, asked) if amiss else None
            if more is None:
                return frozenset(self._that_trim(grown, asked)), amiss
            asked |= {more}

    def _at_once(self, grown: Mapping[str, Grown]) -> frozenset[int]:
        """The rectangles that are trimmed anyway: the block, and those with pieces that are cut large."""
        large = {id for id, sides in grown.items() if max(more for _, more in sides) > FIT}
        found = {self.steps[-1].n} if self.steps and self.steps[-1].rectangle else set()
        for step in self.steps:
            if step.rectangle and large & set(step.pieces):
                found.add(step.n)
                large -= set(step.pieces)
        return frozenset(found)

    def _next_to_trim(self, amiss: Misfit, asked: frozenset[int]) -> int | None:
        """The first rectangle not yet trimmed that holds a piece which is too long."""
        pieces = set(amiss.grown)
        steps = (s for s in self.steps if s.rectangle and pieces & set(s.pieces))
        return next((step.n for step in steps if step.n not in asked), None)

    def _that_trim(self, grown: Mapping[str, Grown], asked: frozenset[int]) -> Iterator[int]:
        """Those of the steps asked for that have something to trim."""
        loose = set(grown)
        for step in self.steps:
            if step.n in asked and loose & set(step.pieces):
                loose -= set(step.pieces)
                yield step.n

    def misfits(self, grown: Mapping[str, Grown], trims: frozenset[int]) -> Iterator[Misfit]:
        """Every seam whose sides are more than `FIT` apart, in the order of sewing; then the sides on the
        rim that are too long, unless the block is trimmed."""
        if not grown:
            return
        loose = dict(grown)
        around = _Around(self.tiling)
        for step in self.steps:
            unit = next((set(s.pieces) for s in self._from(step) if s.n in trims), set[str]())
            for run in step.runs:
                for seams in _lines(self.tiling, run):
                    ends = around.ending_on_rim(seams, unit) if unit else ()
                    free = {seam.id for seam in ends if self._hangs_over(seam, unit, loose)}
                    inner = tuple(seam for seam in seams if seam.id not in free)
                    yield from self._line(inner, run, loose)
            if step.n in trims:
                loose = {id: sides for id, sides in loose.items() if id not in step.pieces}
        if self.joined:
            yield from self._rim(loose)

    def _hangs_over(self, seam: Seam, unit: Collection[str], loose: Mapping[str, Grown]) -> bool:
        """Whether what is too long may stand out at the rim of a unit that is trimmed: a hair that fits
        anyway, or more in a unit of nothing but triangles that are cut large, where it is seen to."""
        sides = (side_along(self.tiling.piece(id), seam) for id in seam.between)
        grown = (loose.get(id, ()) for id in seam.between)
        more = (_more(g, length) for g, length in zip(grown, sides, strict=True) if g and length)
        return max(more, default=0.0) <= STANDS_OUT + NOISE or all(id in loose for id in unit)

    def _from(self, step: Step) -> Iterator[Step]:
        """The rectangles of this step or a later one that hold all of its pieces."""
        pieces = set(step.pieces)
        return (s for s in self.steps if s.n >= step.n and s.rectangle and pieces <= set(s.pieces))

    def _line(
        self, seams: tuple[Seam, ...], run: Run, loose: Mapping[str, Grown]
    ) -> Iterator[Misfit]:
        """The misfit of seams in one line, if it is one."""
        lengths, ids = [0.0, 0.0], []
        for seam in seams:
            for id in seam.between:
                more = along(self.tiling.piece(id), seam, loose.get(id, ()))
                lengths[0 if id in run.sides[0] else 1] += seam.length + more
                ids += [id] if more else []
        if abs(lengths[0] - lengths[1]) > FIT + NOISE:
            yield Misfit(self.tiling.block, tuple(ids))

    def _rim(self, loose: Mapping[str, Grown]) -> Iterator[Misfit]:
        """The sides on the rim of the block that are too long and are not trimmed."""
        for id, grown in loose.items():
            for side in self.tiling.piece(id).outline.sides:
                length = math.dist(side.start, side.end)
                more = _more(grown, length)
                if more > FIT + NOISE and lies_on_rim(side.start, side.end, self.tiling.outline):
                    yield Misfit(self.tiling.block, (id,))


def along(piece: PlacedPiece, seam: Seam, grown: Grown) -> float:
    """How much longer a piece is along a seam, inches: the seam's share of what its side has grown."""
    length = side_along(piece, seam) if grown else 0.0
    return _more(grown, length) * seam.length / length if length else 0.0


def side_along(piece: PlacedPiece, seam: Seam) -> float:
    """How long the straight side of a piece is on which a seam lies; 0 for a curve."""
    for side in piece.outline.sides:
        if not side.via and all(_lies_on(point, side) for point in seam.path):
            return math.dist(side.start, side.end)
    return 0.0


def _more(grown: Grown, length: float) -> float:
    """What a side so long has grown."""
    return min(grown, key=lambda side: abs(side[0] - length))[1]


def _lies_on(point: Point, side: Side) -> bool:
    between = math.dist(point, side.start) + math.dist(point, side.end)
    straight = math.dist(side.start, side.end)
    return off_line(point, side.start, side.end) < SAME_LENGTH and between < straight + SAME_LENGTH


def _lines(tiling: Tiling, run: Run) -> Iterator[tuple[Seam, ...]]:
    """The seams of a run that lie in one line, from turn to turn."""
    seams = [tiling.seam(id) for id in run.seams]
    starts = [0, *(turn for turn in run.turns if 0 < turn < len(seams)), len(seams)]
    for first, last in pairwise(starts):
        if first < last:
            yield tuple(seams[first:last])


class _Around:
    """The corners of pieces at every point of a block."""

    def __init__(self, tiling: Tiling) -> None:
        self.corners: dict[Point, list[tuple[str, float]]] = {}
        for id, points in tiling.noded.items():
            for k, point in enumerate(points):
                turn = inner_angle(points[k - 1], point, points[(k + 1) % len(points)])
                self.corners.setdefault(point, []).append((id, turn))

    def ending_on_rim(self, seams: Iterable[Seam], unit: set[str]) -> tuple[Seam, ...]:
        """The seams that end on the rim of a unit."""
        return tuple(s for s in seams if self._on_rim(s.start, unit) or self._on_rim(s.end, unit))

    def _on_rim(self, point: Point, unit: set[str]) -> bool:
        """Whether pieces of the unit do not lie all round a point."""
        return sum(turn for id, turn in self.corners.get(point, ()) if id in unit) < 359.0
