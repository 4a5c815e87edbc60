"""Floor 3: nodes the outlines of a block and tests whether its pieces cover it exactly once.

The sum of the boundaries of clockwise pieces, as a chain of directed edges, is the boundary of the block
if and only if the pieces cover the block once (a winding number is linear in its chain). So after equal
points are made one and corners lying on other pieces' sides are put in, one comparison of edge
sets is the whole test.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from booklet.geometry.loops import Edge, trace_loops
from booklet.geometry.plane import is_simple, points_near, points_near_edges
from booklet.geometry.soundness.shared_curves import run_together
from booklet.geometry.tiling import Outline
from booklet.geometry.vectors import map_outline
from booklet.kit.groups import Groups
from booklet.kit.near import ONE_POINT
from booklet.kit.plane import Point
from booklet.kit.polygon import area_of
from booklet.kit.records import frozen

TOO_CLOSE = 1e-3  # inches: points neither one (within ONE_POINT) nor apart by this cannot be told
Ring = tuple[Point, ...]


@frozen(kw_only=True)
class Subdivision:
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
    merged = [map_outline(outline, same) for outline in everything]
    found = _compared(merged, merged, border is not None)
    if not any(outline.is_curved for outline in merged) or found.is_sound():
        return found
    return _compared(merged, run_together(merged), border is not None)


def _compared(drawn: Sequence[Outline], shared: Sequence[Outline], bordered: bool) -> Subdivision:
    """The subdivision of outlines as they share their points; the last may be the border."""
    rings, near = _noded([outline.points for outline in shared])
    border_ring = rings.pop() if bordered else ()
    owner: dict[Edge, int] = {}
    repeated: list[tuple[Edge, int]] = []
    for index, ring in enumerate(rings):
        for edge in ring_edges(ring):
            if owner.setdefault(edge, index) != index:
                repeated.append((edge, index))
    return Subdivision(
        outlines=tuple(shared[: len(rings)]),
        drawn=tuple(drawn[: len(rings)]),
        rings=tuple(rings),
        owner=owner,
        repeated=tuple(repeated),
        rim=frozenset(edge for edge in owner if (edge[1], edge[0]) not in owner),
        near=tuple(near),
        border=shared[-1] if bordered else None,
        border_edges=frozenset(ring_edges(border_ring)),
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
    return {point: _clean(unique[groups.of(i)]) for i, point in enumerate(unique)}


def _clean(point: Point) -> Point:
    """A point without the last digits of float noise (far below EPSILON)."""
    return (round(point[0], 12) + 0.0, round(point[1], 12) + 0.0)


def _noded(rings: Sequence[Ring]) -> tuple[list[Ring], list[tuple[Point, Edge]]]:
    """The rings with points lying on their edges put in, and the (point, edge) too close to tell."""
    vertices = sorted({point for ring in rings for point in ring})
    edges = sorted({(min(e), max(e)) for ring in rings for e in ring_edges(ring) if e[0] != e[1]})
    inserted: dict[Edge, list[tuple[float, Point]]] = {}
    near: list[tuple[Point, Edge]] = []
    for i, j in points_near_edges(vertices, edges, TOO_CLOSE):
        point, edge = vertices[i], edges[j]
        along, off = _along(point, edge)
        if off <= 2 * ONE_POINT:  # each of the two points may have been moved by EPSILON
            inserted.setdefault(edge, []).append((along, point))
        else:
            near.append((point, edge))
    for listed in inserted.values():
        listed.sort()
    return [_with_inserted(ring, inserted) if inserted else ring for ring in rings], near


def _along(point: Point, edge: Edge) -> tuple[float, float]:
    """How far along an edge (0 to 1) the nearest point to `point` is, and the distance to it."""
    (ax, ay), (bx, by) = edge
    dx, dy = bx - ax, by - ay
    t = ((point[0] - ax) * dx + (point[1] - ay) * dy) / (dx * dx + dy * dy)
    t = min(1.0, max(0.0, t))
    x, y = ax + t * dx - point[0], ay + t * dy - point[1]
    return t, (x * x + y * y) ** 0.5


def _with_inserted(ring: Ring, inserted: dict[Edge, list[tuple[float, Point]]]) -> Ring:
    made: list[Point] = []
    for a, b in ring_edges(ring):
        if a == b:
            continue
        made.append(a)
        forward = (a, b) if a < b else (b, a)
        on_edge = inserted.get(forward)
        if on_edge:
            points = [point for _, point in on_edge]
            made.extend(points if a < b else points[::-1])
    return tuple(made)
