"""Floor 3: nodes the outlines of a block and tests whether its pieces cover it exactly once.

The sum of the boundaries of clockwise pieces, as a chain of directed edges, is the boundary of the block
if and only if the pieces cover the block once (a winding number is linear in its chain). So after equal
points are made one and corners lying on other pieces' sides are put in, one comparison of edge
sets is the whole test.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import chain

from booklet.geometry.loops import Edge, trace_loops
from booklet.geometry.overlay import is_simple, points_near
from booklet.geometry.soundness.noding import Ring, noded, numbered, paired
from booklet.geometry.soundness.shared_curves import run_together
from booklet.geometry.tiling import Outline
from booklet.geometry.vectors import map_outline
from booklet.kit.groups import Groups
from booklet.kit.outlines.near import ONE_POINT
from booklet.kit.outlines.plane import Point
from booklet.kit.outlines.polygon import area_of
from booklet.kit.records import Record


class Subdivision(Record, kw_only=True):
    """Outlines with shared points, noded. Indexes are those of the outlines given.

    `owner` maps every directed edge to the piece that has it; `repeated` are edges that a second piece has in the
    same direction; `rim` are edges whose reverse no piece has. `drawn` are the outlines before curves that lie along
    each other in part shared their points. `near` are (point, edge) that are neither together nor apart, `border`
    the noded edges of a border that was given.
    """

    outlines: tuple[Outline, ...]
    drawn: tuple[Outline, ...]
    rings: tuple[Ring, ...]
    owner: dict[Edge, int]
    repeated: tuple[tuple[Edge, int], ...]
    rim: frozenset[Edge]
    near: tuple[tuple[Point, Edge], ...]
    border: Outline | None
    border_edges: frozenset[Edge]

    def beside(self) -> Iterator[tuple[int, int]]:
        """The outlines that share an edge, two by two."""
        for (a, b), n in self.owner.items():
            if (b, a) in self.owner:
                yield n, self.owner[b, a]

    def rim_loop(self) -> Ring | None:
        """The one clockwise loop of the rim, None where the rim is not just one simple loop."""
        loops = trace_loops(self.rim)
        if len(loops) != 1 or len(loops[0]) != len(self.rim):
            return None
        return loops[0] if area_of(loops[0]) > 0 and is_simple(loops[0]) else None

    def is_sound(self) -> bool:
        """The one-chain test: every edge once, and what has no reverse is just the border."""
        if self.repeated:
            return False
        if self.border is not None:
            return self.rim == self.border_edges
        return self.rim_loop() is not None


def subdivide(outlines: Sequence[Outline], border: Outline | None = None) -> Subdivision:
    """The outlines with points within EPSILON made one and corners on sides put in. Where that does not tell that all
    is covered once, curves that lie along each other in part have their points shared, too."""
    everything = [*outlines, border] if border is not None else list(outlines)
    same = clusters(point for outline in everything for point in outline.points)
    # most points of most blocks stay as they are; a zero may have lost its sign
    moved = {point for point, one in same.items() if point != one or 0.0 in point}
    merged = [o if moved.isdisjoint(o.points) else map_outline(o, same) for o in everything]
    found = _compared(merged, merged, border is not None)
    if not any(outline.is_curved for outline in merged) or found.is_sound():
        return found
    return _compared(merged, run_together(merged), border is not None)


def _compared(drawn: Sequence[Outline], shared: Sequence[Outline], bordered: bool) -> Subdivision:
    """The subdivision of outlines as they share their points; the last may be the border."""
    rings, near = noded(numbered([outline.points for outline in shared]))
    count = len(shared) - bordered
    sides = paired(rings.some(rings.ring < count))
    return Subdivision(
        outlines=tuple(shared[:count]),
        drawn=tuple(drawn[:count]),
        rings=tuple(rings.listed()[:count]),
        owner=sides.owner,
        repeated=sides.repeated,
        rim=sides.rim,
        near=tuple(near),
        border=shared[-1] if bordered else None,
        border_edges=frozenset(rings.edges(rings.ring == count)),
    )


def ring_edges(ring: Ring) -> Iterable[Edge]:
    """The directed edges around a closed ring."""
    return zip(ring, (*ring[1:], *ring[:1]), strict=True)


def clusters(points: Iterable[Point]) -> dict[Point, Point]:
    """For every point the one that stands for it: points within EPSILON of each other share it.

    Grouped by union-find, since rounding alone would split equal points on the edge of a grid cell.
    """
    unique = list(dict.fromkeys(points))
    groups = Groups(len(unique))
    for i, j in points_near(unique, ONE_POINT):
        groups.join(i, j)
    # without the last digits of float noise, which are far below ONE_POINT
    rounded = {x: round(x, 12) + 0.0 for x in set(chain.from_iterable(unique))}
    clean = [(rounded[x], rounded[y]) for x, y in unique]
    return {point: clean[groups.of(i)] for i, point in enumerate(unique)}
