"""Floor 4: the common seams of two units as stretches, each sewn in one go.

Two connected units that lie flat share at most two seams at any one point, so their common seams
fall into chains and closed rounds.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from booklet.geometry.patches.headings import change, other_end, turns
from booklet.geometry.tiling import Seam, Tiling
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record, replace


class Stretch(Record, kw_only=True):
    """Seams in sewing order; `points` are the matching points passed, one more than seams.

    `turns` are the indexes of the points at which the direction changes; a closed stretch that ends
    with a turn where it began has 0 among them. `sides` are the pieces of either unit along it.
    """

    seams: tuple[str, ...]
    points: tuple[Point, ...]
    turns: tuple[int, ...]
    sides: tuple[tuple[str, ...], tuple[str, ...]]
    begun: bool = False  # at its first turn: out to its first point, back, and on

    @property
    def closed(self) -> bool:
        """Whether the stretch ends where it began."""
        return len(self.seams) > 0 and self.points[0] == self.points[-1]

    @property
    def turn_points(self) -> tuple[Point, ...]:
        """The matching points at which the stretch turns."""
        return tuple(self.points[k] for k in self.turns)

    def reversed(self) -> Stretch:
        """The same stretch sewn from its other end."""
        last = len(self.seams)
        flipped = {0 if k == 0 else last - k for k in self.turns}
        first, second = self.sides
        return replace(
            self,
            seams=tuple(reversed(self.seams)),
            points=tuple(reversed(self.points)),
            turns=tuple(sorted(flipped)),
            sides=(tuple(reversed(first)), tuple(reversed(second))),
        )


def common_seams(seams: Iterable[Seam], a: frozenset[str], b: frozenset[str]) -> tuple[Seam, ...]:
    """The seams with one piece in `a` and the other in `b`."""
    return tuple(
        seam
        for seam in seams
        if (seam.between[0] in a and seam.between[1] in b)
        or (seam.between[1] in a and seam.between[0] in b)
    )


def stretches(
    seams: Sequence[Seam], a: frozenset[str], rim: frozenset[Point]
) -> tuple[Stretch, ...]:
    """The stretches that the common seams of two units form; `a` is the first unit.

    A stretch begins at the rim of the block where it has just one end there; otherwise it is walked
    with `a` on the right hand, so that turned copies of a unit are sewn alike.
    """
    at = ends_of(seams)
    left = {seam.id: seam for seam in seams}
    found: list[Stretch] = []
    loose = [p for p, there in at.items() if len(there) == 1]
    for start in [*sorted(loose), *sorted(at, key=lambda p: (p not in rim, p))]:
        while any(seam.id in left for seam in at[start]):
            found.append(_directed(_walk(start, at, left), a, rim))
    return tuple(sorted(found, key=lambda s: (-len(s.seams), s.points[0])))


def ends_of(seams: Iterable[Seam]) -> dict[Point, list[Seam]]:
    """The seams that end at each matching point."""
    at: dict[Point, list[Seam]] = {}
    for seam in seams:
        at.setdefault(seam.start, []).append(seam)
        at.setdefault(seam.end, []).append(seam)
    return at


def rim_points(tiling: Tiling) -> frozenset[Point]:
    """The matching points on the rim of the block."""
    return frozenset(junction.at for junction in tiling.junctions if not junction.inside)


def along(seams: Sequence[Seam], start: Point, a: frozenset[str]) -> Stretch:
    """The stretch of seams already in sewing order, from `start`, `a` being the first unit."""
    points = [start]
    for seam in seams:
        points.append(other_end(seam, points[-1]))
    turned = [k for k in range(1, len(seams)) if turns(seams[k - 1], seams[k], points[k])]
    if points[0] == points[-1] and (len(seams) == 1 or turns(seams[-1], seams[0], start)):
        turned.insert(0, 0)
    return Stretch(
        seams=tuple(s.id for s in seams),
        points=tuple(points),
        turns=tuple(turned),
        sides=_sides(seams, a),
    )


def _walk(
    start: Point, at: dict[Point, list[Seam]], left: dict[str, Seam]
) -> list[tuple[Point, Seam]]:
    """Follow the seams not yet taken from `start` as far as they go, and take them."""
    trail: list[tuple[Point, Seam]] = []
    point = start
    while ahead := [seam for seam in at[point] if seam.id in left]:
        seam = min(ahead, key=lambda s: (change(trail[-1][1], s, point) if trail else 0.0, s.id))
        del left[seam.id]
        trail.append((point, seam))
        point = other_end(seam, point)
        if point == start:
            break
    return trail


def _directed(trail: list[tuple[Point, Seam]], a: frozenset[str], rim: frozenset[Point]) -> Stretch:
    """The stretch of a walked trail, turned the way it is sewn."""
    stretch = along([seam for _, seam in trail], trail[0][0], a)
    if stretch.points[0] in rim:  # a run begun at the rim has nothing to turn round there
        stretch = replace(stretch, turns=tuple(k for k in stretch.turns if k))
    begins, ends = stretch.points[0] in rim, stretch.points[-1] in rim
    first = trail[0][1]
    a_on_right = (first.between[0] in a) == (first.start == trail[0][0])
    keep = begins if begins != ends else a_on_right
    return stretch if keep else stretch.reversed()


def _sides(seams: Sequence[Seam], a: frozenset[str]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The pieces on either side along the seams, each named once in a row."""
    first: list[str] = []
    second: list[str] = []
    for seam in seams:
        mine, yours = seam.between if seam.between[0] in a else (seam.between[1], seam.between[0])
        for side, piece in ((first, mine), (second, yours)):
            if not side or side[-1] != piece:
                side.append(piece)
    return tuple(first), tuple(second)
