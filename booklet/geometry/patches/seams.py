"""Floor 3: seams and matching points from a sound subdivision.

Edges between the same two pieces make one seam where they go straight on or follow one curve; a bend
makes a matching point. A corner of a third piece on a long side ends the seam there.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import combinations

from booklet.geometry.loops import Edge
from booklet.geometry.patches.headings import turns
from booklet.geometry.soundness.noding import Ring
from booklet.geometry.soundness.subdivision import ring_edges
from booklet.geometry.tiling import Junction, Outline, Seam
from booklet.kit.groups import Groups
from booklet.kit.outlines.plane import Point, angle_up, is_straight, length_of
from booklet.kit.records import replace

Chain = tuple[Point, ...]


def curve_points(outlines: Sequence[Outline]) -> frozenset[Point]:
    """Points that lie along curved sides and are a corner of no piece: no seam ends there."""
    along = {point for outline in outlines for side in outline.sides for point in side.via}
    return frozenset(along - {side.start for outline in outlines for side in outline.sides})


def find_seams(
    ids: Sequence[str],
    rings: Sequence[Ring],
    owner: Mapping[Edge, int],
    along_curves: frozenset[Point],
) -> tuple[Seam, ...]:
    """The seams of noded clockwise rings, numbered s1, s2, … by their pieces, then along the first."""
    found: list[tuple[int, int, int, Chain]] = []
    for index, ring in enumerate(rings):
        for place, (other, chain) in enumerate(_chains(ring, index, owner, along_curves)):
            found.append((index, other, place, chain))
    found.sort(key=lambda seam: seam[:3])
    return tuple(
        Seam(
            id=f"s{n}",
            between=(ids[first], ids[second]),
            path=chain,
            length=round(length_of(chain), 10),
        )
        for n, (first, second, _, chain) in enumerate(found, 1)
    )


def _chains(
    ring: Ring, index: int, owner: Mapping[Edge, int], along_curves: frozenset[Point]
) -> list[tuple[int, Chain]]:
    """(neighbour, path) of the seams of one piece with later pieces, in order around it."""
    edges = list(ring_edges(ring))
    across = [owner.get((b, a), -1) for a, b in edges]
    count = len(edges)

    def breaks(i: int) -> bool:
        """Whether a seam must end where edge i begins."""
        if across[i] != across[i - 1]:
            return True
        at = ring[i]
        return at not in along_curves and not is_straight(ring[i - 1], at, ring[(i + 1) % count])

    starts = [i for i in range(count) if breaks(i)] or [0]
    chains = []
    for n, start in enumerate(starts):
        end = starts[(n + 1) % len(starts)]
        if across[start] > index:
            steps = (end - start) % count or count
            path = tuple(ring[(start + k) % count] for k in range(steps + 1))
            chains.append((across[start], straightened(path, along_curves)))
    return chains


def with_lines(seams: Sequence[Seam], junctions: Sequence[Junction]) -> tuple[Seam, ...]:
    """The seams with what is told of the lines they make: how long it is, and which end at a corner."""
    place = {seam.id: n for n, seam in enumerate(seams)}
    lines = Groups(len(seams))
    cornered: set[int] = set()
    for junction in junctions:
        there = [place[id] for id in junction.seams]
        on = [
            (a, b) for a, b in combinations(there, 2) if not turns(seams[a], seams[b], junction.at)
        ]
        for a, b in on:
            lines.join(a, b)
        if junction.inside and not on:
            cornered.update(there)
    length: dict[int, float] = {}
    for n, seam in enumerate(seams):
        length[lines.of(n)] = length.get(lines.of(n), 0.0) + seam.length
    return tuple(
        replace(seam, line=round(length[lines.of(n)], 10), cornered=n in cornered)
        for n, seam in enumerate(seams)
    )


def straightened(path: Chain, along_curves: frozenset[Point]) -> Chain:
    """A path with only its ends, and the points of curves, kept."""
    middle = (point for point in path[1:-1] if point in along_curves)
    return (path[0], *middle, path[-1])


def find_junctions(seams: Sequence[Seam], rim_points: frozenset[Point]) -> tuple[Junction, ...]:
    """Every point where seams end, row by row, with its seams clockwise from straight up."""
    ending: dict[Point, list[tuple[float, int, str]]] = {}
    for n, seam in enumerate(seams):
        leave = ((seam.start, seam.path[1]), (seam.end, seam.path[-2]))
        for at, toward in leave:
            ending.setdefault(at, []).append((angle_up(at, toward), n, seam.id))
    return tuple(
        Junction(
            at,
            tuple(dict.fromkeys(id for _, _, id in sorted(ending[at]))),
            at not in rim_points,
        )
        for at in sorted(ending, key=lambda p: (p[1], p[0]))
    )
