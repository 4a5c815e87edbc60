"""Floor 4, the mosaic: straight lines of edges that cut a region in two.

Exchange lemma: where such a line exists, some cheapest order sews it last, and the two sides can be
ordered each for itself. For restrict any order to one side: the pieces of each old seam lie in single
units and have no turn that the whole did not have.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from booklet.kit.records import Record
from booklet.sewing.mosaic.mosaic import Faces, Mosaic

FEW_LINES = 6
MOST_LOOKED_AT = 200  # points by which the middle of a very large region is guessed


class StraightLine(Record):
    """A line of edges without a turn, its two ends, and one of the two sides it parts."""

    edges: tuple[int, ...]
    ends: tuple[int, int]
    side: Faces


def through_lines(mosaic: Mosaic, region: Faces) -> list[StraightLine]:
    """All lines without a turn, from rim to rim of the region, that part it in two."""
    found = []
    for line, ends in _straight(mosaic, region):
        side = parted(mosaic, region, line)
        if side:
            found.append(StraightLine(line, ends, side))
    return found


def halving_lines(mosaic: Mosaic, region: Faces) -> list[StraightLine]:
    """The few of those lines that part a very large region nearest to its middle, as far as some of
    its points tell."""
    points = mosaic.inner_points(region) or _line_ends(mosaic, region)  # a row has none inside
    some = [mosaic.places[p] for p in points[:: 1 + len(points) // MOST_LOOKED_AT]]

    def uneven(line: tuple[tuple[int, ...], tuple[int, int]]) -> int:
        (ax, ay), (bx, by) = (mosaic.places[p] for p in line[1])
        left = sum((bx - ax) * (y - ay) > (by - ay) * (x - ax) for x, y in some)
        return abs(2 * left - len(some))

    found: list[StraightLine] = []
    for line, ends in sorted(_straight(mosaic, region), key=uneven):
        side = parted(mosaic, region, line)
        if side:
            found.append(StraightLine(line, ends, side))
        if len(found) == FEW_LINES:
            break
    return found


def _line_ends(mosaic: Mosaic, region: Faces) -> list[int]:
    """The points in which edges inside a region end."""
    edges = (mosaic.edges[e] for e in mosaic.inner_edges(region))
    return sorted({point for edge in edges for point in (edge.u, edge.v)})


def _straight(mosaic: Mosaic, region: Faces) -> Iterator[tuple[tuple[int, ...], tuple[int, int]]]:
    """All lines without a turn, from rim to rim of the region, with their ends."""
    inside = set(mosaic.inner_points(region))
    edges = mosaic.inner_edges(region)
    left = set(edges)
    for e in edges:
        if e not in left:
            continue
        left.discard(e)
        ahead, end = _follow(mosaic, e, mosaic.edges[e].v, left, inside)
        back, start = _follow(mosaic, e, mosaic.edges[e].u, left, inside)
        if start in inside or end in inside:
            continue
        yield (*reversed(back), e, *ahead), (start, end)


def _follow(
    mosaic: Mosaic, e: int, point: int, left: set[int], inside: set[int]
) -> tuple[list[int], int]:
    """The edges that go straight on from the end `point` of an edge, and where the line ends."""
    line: list[int] = []
    while point in inside:
        on = [f for f in mosaic.rays[point] if f in left and not mosaic.pair(point, e, f).turns]
        if not on:
            break
        e = min(on, key=lambda f, e=e, p=point: (mosaic.pair(p, e, f).change, f))  # type: ignore[misc]
        left.discard(e)
        line.append(e)
        point = mosaic.far(e, point)
    return line, point


def parted(mosaic: Mosaic, region: Faces, line: Iterable[int]) -> Faces:
    """One of the two sides into which a line parts a region, 0 if it does not part it in just two
    that lie on either side of every edge of the line."""
    line = tuple(line)
    parts = pieces_of(mosaic, region, line)
    if len(parts) != 2:
        return 0
    side = parts[0]
    for e in line:
        edge = mosaic.edges[e]
        if (side >> edge.a & 1) == (side >> edge.b & 1):
            return 0
    return side


def pieces_of(mosaic: Mosaic, region: Faces, cut: Iterable[int]) -> list[Faces]:
    """The parts of a region once some edges are cut, that of the first face first."""
    severed: dict[int, int] = {}  # face -> neighbours lost, unless another edge holds them
    gone = set(cut)
    for e in gone:
        edge = mosaic.edges[e]
        for f, g in ((edge.a, edge.b), (edge.b, edge.a)):
            severed[f] = severed.get(f, 0) | 1 << g
    for f in severed:
        for e in mosaic.edges_of[f]:
            if e not in gone:
                edge = mosaic.edges[e]
                severed[f] &= ~(1 << (edge.b if edge.a == f else edge.a))
    parts = []
    left = region
    while left:
        seen = front = left & -left
        while front:
            low = front & -front
            front ^= low
            f = low.bit_length() - 1
            near = mosaic.beside[f] & left & ~seen
            if f in severed:
                near &= ~severed[f]
            seen |= near
            front |= near
        parts.append(seen)
        left &= ~seen
    return parts
