"""Floor 4: straight (or smoothly curved) lines of seams that cut a region of pieces in two."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from booklet.geometry.tiling import Seam, Tiling
from booklet.kit.plane import Point
from booklet.sewing.order.headings import STRAIGHT_WITHIN, change, other_end, turns
from booklet.sewing.order.stretches import ends_of

Region = frozenset[str]


@dataclass(frozen=True, slots=True)
class Cut:
    """A line of seams without a turn, in order, and the two halves it parts."""

    seams: tuple[Seam, ...]
    halves: tuple[Region, Region]
    ends: tuple[Point, Point]

    @property
    def length(self) -> float:
        """The length in inches."""
        return sum(seam.length for seam in self.seams)

    def is_parallel(self, other: Cut) -> bool:
        """Whether both are straight and run the same way."""
        if any(len(seam.path) > 2 for seam in (*self.seams, *other.seams)):
            return self == other
        return abs(math.sin(_direction(self) - _direction(other))) < STRAIGHT_WITHIN


def inner_seams(tiling: Tiling, region: Region) -> tuple[Seam, ...]:
    """The seams that lie within a region."""
    return tuple(s for s in tiling.seams if s.between[0] in region and s.between[1] in region)


def connected(region: Region, seams: Iterable[Seam]) -> tuple[Region, ...]:
    """The parts of a region that the seams hold together, in the order of their first pieces."""
    home = {piece: {piece} for piece in region}
    for seam in seams:
        a, b = (home[piece] for piece in seam.between)
        if a is not b:
            a |= b
            for piece in b:
                home[piece] = a
    return tuple(sorted({frozenset(part) for part in home.values()}, key=lambda part: sorted(part)))


def through_cuts(tiling: Tiling, region: Region) -> tuple[Cut, ...]:
    """All lines of seams without a turn, from rim to rim of the region, that part it in two."""
    seams = inner_seams(tiling, region)
    stops = region_rim(tiling, region)
    found: list[Cut] = []
    for line, ends in _lines(seams, stops):
        if ends[0] not in stops or ends[1] not in stops:
            continue
        gone = {seam.id for seam in line}
        parts = connected(region, [seam for seam in seams if seam.id not in gone])
        if len(parts) == 2 and all(
            (s.between[0] in parts[0]) != (s.between[1] in parts[0]) for s in line
        ):
            found.append(Cut(line, (parts[0], parts[1]), ends))
    return tuple(found)


def region_rim(tiling: Tiling, region: Region) -> frozenset[Point]:
    """The matching points on the rim of a region: on the block's rim, or at a seam that leaves it."""
    rim = {junction.at for junction in tiling.junctions if not junction.inside}
    for seam in tiling.seams:
        if (seam.between[0] in region) and (seam.between[1] in region):
            continue
        rim.update((seam.start, seam.end))
    return frozenset(rim)


def _lines(
    seams: Sequence[Seam], stops: frozenset[Point]
) -> Iterable[tuple[tuple[Seam, ...], tuple[Point, Point]]]:
    """The longest lines of seams without a turn, ended at every stop, with their ends."""
    at = ends_of(seams)
    left = {seam.id: seam for seam in seams}
    for seam in seams:
        if seam.id not in left:
            continue
        del left[seam.id]
        ahead, end = _follow(seam, seam.end, at, left, stops)
        back, start = _follow(seam, seam.start, at, left, stops)
        yield (*reversed(back), seam, *ahead), (start, end)


def _follow(
    seam: Seam,
    point: Point,
    at: dict[Point, list[Seam]],
    left: dict[str, Seam],
    stops: frozenset[Point],
) -> tuple[list[Seam], Point]:
    """The seams that go straight on from the end `point` of a seam, and where the line ends."""
    line: list[Seam] = []
    while point not in stops:
        on = [s for s in at[point] if s.id in left and not turns(seam, s, point)]
        if not on:
            break
        here = point
        last = seam
        seam = min(on, key=lambda s: (change(last, s, here), s.id))
        del left[seam.id]
        line.append(seam)
        point = other_end(seam, point)
    return line, point


def _direction(cut: Cut) -> float:
    """The direction of a straight cut in radians."""
    (x1, y1), (x2, y2) = cut.ends
    return math.atan2(y2 - y1, x2 - x1)
