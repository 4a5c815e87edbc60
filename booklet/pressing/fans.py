"""Floor 5: which points of a block can be fanned.

A seam pressed to one side lies clockwise at one of its ends and anticlockwise at the other. So all
points can be fanned together if and only if the graph of the seams between them has no odd cycle. Where
it has, the fewest points left unfanned are the fewest that meet every odd cycle: found exactly by
covering, the odd cycles added as they turn up.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from booklet.geometry.tiling import Point, Tiling
from booklet.solver import Row, Variable, minimise

ROUNDS = 60
Edges = Mapping[Point, Sequence[tuple[Point, str]]]


@dataclass(frozen=True, slots=True)
class FanReport:
    """What can be fanned. `clockwise` holds the fanned points, True for clockwise seen from the back;
    `unfanned` the fewest others; `odd_cycle` the seams of one odd cycle where not all can be
    fanned; `proven` whether no fewer points could be left."""

    clockwise: Mapping[Point, bool]
    unfanned: tuple[Point, ...]
    odd_cycle: tuple[str, ...]
    proven: bool

    @property
    def all_fan(self) -> bool:
        """Whether every point can be fanned."""
        return not self.unfanned


def fan_report(tiling: Tiling, points: Sequence[Point] | None = None) -> FanReport:
    """Whether the given points can all be fanned (default: inside points of three or more seams)."""
    if points is None:
        points = [j.at for j in tiling.junctions if j.inside and len(j.seams) >= 3]
    edges = _edges(tiling, points)
    first = _odd_cycle(edges, frozenset())
    if first is None:
        return FanReport(MappingProxyType(_colours(edges, frozenset())), (), (), True)
    left, proven = _cover(edges, first)
    return FanReport(
        MappingProxyType(_colours(edges, left)),
        tuple(at for at in edges if at in left),
        tuple(seam for _, seam in first),
        proven,
    )


def _edges(tiling: Tiling, points: Sequence[Point]) -> Edges:
    """For every point the points it is joined to by a seam, with the seam."""
    edges: dict[Point, list[tuple[Point, str]]] = {at: [] for at in points}
    for seam in tiling.seams:
        if seam.start in edges and seam.end in edges:
            edges[seam.start].append((seam.end, seam.id))
            if seam.start != seam.end:
                edges[seam.end].append((seam.start, seam.id))
    return edges


def _colours(edges: Edges, left: frozenset[Point]) -> dict[Point, bool]:
    """The way round of every fanned point, neighbours opposite, the first of each group clockwise."""
    way: dict[Point, bool] = {}
    for start in edges:
        if start in way or start in left:
            continue
        way[start] = True
        queue = deque([start])
        while queue:
            at = queue.popleft()
            for other, _ in edges[at]:
                if other not in way and other not in left:
                    way[other] = not way[at]
                    queue.append(other)
    return way


def _odd_cycle(edges: Edges, left: frozenset[Point]) -> list[tuple[Point, str]] | None:
    """An odd cycle among the points not in `left`, as (point, seam to the next); None without one."""
    seen: dict[Point, int] = {}
    back: dict[Point, tuple[Point, str]] = {}
    for start in edges:
        if start in seen or start in left:
            continue
        seen[start] = 0
        queue = deque([start])
        while queue:
            at = queue.popleft()
            for other, seam in edges[at]:
                if other in left:
                    continue
                if other not in seen:
                    seen[other], back[other] = seen[at] + 1, (at, seam)
                    queue.append(other)
                elif (seen[other] - seen[at]) % 2 == 0:
                    return _closed(back, at, other, seam)
    return None


def _closed(
    back: Mapping[Point, tuple[Point, str]], at: Point, other: Point, seam: str
) -> list[tuple[Point, str]]:
    """The cycle that a seam between two points of one search tree closes."""
    first, second = _way_up(back, at), _way_up(back, other)
    while len(first) > 1 and len(second) > 1 and first[-2][0] == second[-2][0]:
        first.pop()
        second.pop()
    down = [(second[k + 1][0], second[k][1]) for k in reversed(range(len(second) - 1))]
    return [*first[:-1], *down, (other, seam)]


def _way_up(back: Mapping[Point, tuple[Point, str]], at: Point) -> list[tuple[Point, str]]:
    """The points from one up to the root of its search tree, each with the seam above it."""
    way = []
    while at in back:
        above, seam = back[at]
        way.append((at, seam))
        at = above
    return [*way, (at, "")]


def _cover(edges: Edges, first: list[tuple[Point, str]]) -> tuple[frozenset[Point], bool]:
    """(the fewest points that meet every odd cycle, whether that is proven)."""
    order = list(edges)
    index = {at: k for k, at in enumerate(order)}
    cycles = [frozenset(index[at] for at, _ in first), *_triangles(edges, index)]
    for _ in range(ROUNDS):
        rows = [Row(tuple((k, 1.0) for k in sorted(cycle)), low=1.0) for cycle in cycles]
        found = minimise([Variable(1.0, 0.0, 1.0, whole=True)] * len(order), rows)
        if found is None:
            break
        left = frozenset(order[k] for k, value in enumerate(found.values) if value > 0.5)
        new = _disjoint_cycles(edges, left)
        if not new:
            return left, found.optimal
        cycles += [frozenset(index[at] for at, _ in cycle) for cycle in new]
    return _greedy(edges, frozenset()), False


def _triangles(edges: Edges, index: Mapping[Point, int]) -> list[frozenset[int]]:
    """Every cycle of three points."""
    near = {at: {other for other, _ in edges[at]} for at in edges}
    found = {
        frozenset((index[a], index[b], index[c]))
        for a in edges
        for b in near[a]
        for c in near[a] & near[b]
        if len({a, b, c}) == 3
    }
    return sorted(found, key=sorted)


def _disjoint_cycles(edges: Edges, left: frozenset[Point]) -> list[list[tuple[Point, str]]]:
    """Odd cycles among the points not in `left`, no two sharing a point."""
    found = []
    while (cycle := _odd_cycle(edges, left)) is not None:
        found.append(cycle)
        left |= {at for at, _ in cycle}
    return found


def _greedy(edges: Edges, left: frozenset[Point]) -> frozenset[Point]:
    """Points that meet every odd cycle, one busiest point of each found cycle after the other."""
    while (cycle := _odd_cycle(edges, left)) is not None:
        left |= {max((at for at, _ in cycle), key=lambda at: (len(edges[at]), at))}
    return left
