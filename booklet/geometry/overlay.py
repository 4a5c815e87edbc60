"""Floor 3: the only door to shapely. Areas, unions, offsets and searches on tuples of points.

Points are (x, y) in inches, y down; outlines are closed without repeating the first point.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import chain, pairwise
from typing import Any

import numpy as np
import shapely
from shapely import LineString, Polygon, STRtree
from shapely.ops import split

from booklet.kit.outlines.near import NOISE, NOTHING, ONE_POINT, SHARE
from booklet.kit.outlines.plane import Frame, Point, direction, midpoint, plus
from booklet.kit.outlines.polygon import area_of

Points = Sequence[Point]
Ways = tuple[Point, Point]
"""The directions in which an outline comes to a point and leaves it."""
SLIVER = 5e-4  # inches of area per inch of outline: half the width of the thinnest fault told
ALONG = 1e-3  # inches: edges of applied shapes this near lie along each other
_BATCH = 20


def is_simple(points: Points) -> bool:
    """Whether a closed outline neither crosses nor touches itself and has an area."""
    return len(points) >= 3 and bool(Polygon(points).is_valid)


def simple_ones(outlines: Sequence[Points]) -> list[bool]:
    """For each closed outline whether it neither crosses nor touches itself."""
    return [bool(valid) for valid in shapely.is_valid(_polygons(outlines))]


def crossing_place(points: Points) -> Point | None:
    """A point where the outline crosses or touches itself, None if it does not."""
    if is_simple(points):
        return None
    reason = shapely.is_valid_reason(Polygon(points))
    if "[" not in reason:
        return points[0]
    x, y = reason[reason.index("[") + 1 : reason.index("]")].split()
    return (float(x), float(y))


def area(points: Points) -> float:
    """The area, positive whichever way round."""
    return abs(area_of(points))


def overlap_area(a: Points, b: Points) -> float:
    """The area that two outlines share."""
    return float(Polygon(a).intersection(Polygon(b)).area)


def overlap_parts(a: Points, b: Points) -> tuple[tuple[Point, ...], ...]:
    """The outlines of the parts that two outlines share, largest first."""
    return _outlines(Polygon(a).intersection(Polygon(b)))


def union(outlines: Sequence[Points]) -> tuple[tuple[Point, ...], ...]:
    """The outer outlines of the union, largest first; holes are left out (see `holes`)."""
    return _outlines(_united(outlines))


def holes(outlines: Sequence[Points]) -> tuple[tuple[Point, ...], ...]:
    """The outlines of the holes in the union, largest first."""
    merged = _united(outlines)
    rings = [ring for part in _parts(merged) for ring in part.interiors]
    return _sorted(_ring_points(ring) for ring in rings)


def difference(points: Points, others: Sequence[Points]) -> tuple[tuple[Point, ...], ...]:
    """The outlines of what is left of one outline when others are taken away, largest first; what goes round a hole,
    which no outline can, in two."""
    rest = Polygon(points).difference(_united(others))
    return _sorted(_ring_points(part.exterior) for whole in _parts(rest) for part in _opened(whole))


Paths = tuple[tuple[Point, ...], ...]


def covered_stretches(points: Points, others: Sequence[Points]) -> tuple[Paths, Paths]:
    """The stretches of a closed outline that lie under other outlines or on them, and those that lie free. Edges that are
    drawn along each other, as near as an author writes them, are one edge: else they would cross at every rounding.
    """
    ring = shapely.linearrings([*points, points[0]])
    above = shapely.union_all(shapely.snap(_polygons(others), ring, ALONG))
    ring = shapely.snap(ring, above, ALONG)
    return _stretches(ring.intersection(above)), _stretches(ring.difference(above))


def _stretches(geometry: Any) -> Paths:
    """The lines of a geometry, those that meet end to end as one; points alone are none."""
    lines = [g for g in shapely.get_parts(geometry) if g.length > ONE_POINT]
    if not lines:
        return ()
    merged = shapely.line_merge(shapely.multilinestrings(lines), directed=True)
    found = (tuple((float(x), float(y)) for x, y in g.coords) for g in shapely.get_parts(merged))
    return tuple(sorted(found))


def notch(points: Points, by: float) -> Point | None:
    """A place where an outline turns in so narrowly that what is moved out by a distance on either side meets."""
    shape = Polygon(points)
    closed = shape.buffer(by, quad_segs=32).buffer(-by, join_style="mitre", mitre_limit=1e3)
    filled = [part for part in _parts(closed.difference(shape)) if part.area > 0.05 * by * by]
    return label_point(_outlines(filled[0])[0]) if filled else None


def thin_place(points: Points, by: float) -> Point | None:
    """A place where an outline is so narrow that what is moved in by a distance from either side meets: it is narrow
    throughout, or has a neck. A point that only narrows to its tip is none."""
    inner = Polygon(points).buffer(-by)
    parts = _parts(inner)
    if not parts:
        return label_point(points)
    if len(parts) == 1:
        return None
    one, other = shapely.get_coordinates(shapely.shortest_line(parts[0], parts[1]))
    return midpoint((float(one[0]), float(one[1])), (float(other[0]), float(other[1])))


def reach_beyond(points: Points, border: Points) -> float:
    """How far an outline reaches beyond a border: the greatest distance of its points outside it."""
    edge = Polygon(border)
    far = shapely.distance(shapely.points(np.asarray(points, dtype=float)), edge)
    return float(np.max(far))


def narrowest(points: Points) -> float:
    """The least width of a strip that holds the outline; one of its edges lies along a side of the hull."""
    hull = shapely.convex_hull(shapely.multipoints(np.asarray(points, dtype=float)))
    if hull.geom_type != "Polygon":
        return 0.0
    corners = np.asarray(hull.exterior.coords)
    along = np.diff(corners, axis=0)
    along /= np.hypot(along[:, 0], along[:, 1])[:, None]
    depths = np.outer(along[:, 0], corners[:, 1]) - np.outer(along[:, 1], corners[:, 0])
    return float(np.min(np.ptp(depths, axis=1)))


def label_point(points: Points) -> Point:
    """A good place for a label: the centre of gravity if it is roomy, else the most roomy point."""
    return label_spot(points)[0]


def label_spot(points: Points) -> tuple[Point, float]:
    """The place for a label and the radius of free space around it."""
    polygon = Polygon(points)
    left, top, right, bottom = polygon.bounds
    size = max(right - left, bottom - top)
    line = shapely.maximum_inscribed_circle(polygon, tolerance=size / 400)
    (x, y), _ = line.coords
    radius = float(line.length)
    centre = polygon.centroid
    if polygon.contains(centre):
        room = float(polygon.exterior.distance(centre))
        if room >= 0.85 * radius:
            return (round(centre.x, 9), round(centre.y, 9)), room
    return (float(x), float(y)), radius


def overlapping_pairs(
    outlines: Sequence[Points], most: int, sliver: float = SLIVER
) -> list[tuple[int, int, float]]:
    """(i, j, shared area) of outlines that share an area, i < j, sorted by index; the first `most`.

    A shared area of less than `sliver` square inches for every inch of its outline is left out.
    """
    polygons = _polygons(outlines)
    tree = STRtree(polygons)
    found: list[tuple[int, int, float]] = []
    for start in range(0, len(outlines), _BATCH):  # in batches: a heap of pieces has many pairs
        first, second = tree.query(polygons[start : start + _BATCH], predicate="intersects")
        first = first + start
        keep = first < second
        first, second = first[keep], second[keep]
        areas = _thick_areas(polygons[first], polygons[second], sliver)
        listed = zip(first.tolist(), second.tolist(), areas.tolist(), strict=True)
        found.extend(sorted(item for item in listed if item[2] > 0))
        if len(found) >= most:
            break
    return found[:most]


def is_crowded(outlines: Sequence[Points]) -> bool:
    """Whether far more bounding boxes meet than in a block whose pieces lie side by side."""
    polygons = _polygons(outlines)
    tree = STRtree(polygons)
    meetings, most = 0, 64 * len(outlines)
    for start in range(0, len(outlines), _BATCH):
        meetings += tree.query(polygons[start : start + _BATCH]).shape[1]
        if meetings > most:
            return True
    return False


def _thick_areas(first: Any, second: Any, sliver: float = SLIVER) -> Any:
    """The areas that polygons share pair by pair, 0 where that is only a sliver."""
    shared = shapely.intersection(first, second)
    areas = shapely.area(shared)
    return np.where(areas > shapely.length(shared) * sliver, areas, 0.0)


class PieceIndex:
    """Outlines made ready for asking many times which of them another outline overlaps."""

    def __init__(self, outlines: Sequence[Points]) -> None:
        self._polygons = _polygons(outlines)
        self._tree = STRtree(self._polygons)

    def overlaps_any(self, points: Points, besides: int) -> bool:
        """Whether an outline overlaps any of them but the one numbered `besides`."""
        polygon = Polygon(points)
        near = self._tree.query(polygon, predicate="intersects")
        near = near[near != besides]
        return bool(np.any(_thick_areas(polygon, self._polygons[near]) > 0))


class InFrame:
    """Outlines made ready for asking many times how much of each lies in an upright frame."""

    def __init__(self, outlines: Sequence[Points]) -> None:
        self._polygons = _polygons(outlines)
        self._boxes = shapely.bounds(self._polygons)
        self._areas = shapely.area(self._polygons)

    def areas(self, frame: Frame) -> list[float]:
        """The area of each outline that lies in the frame."""
        left, top, right, bottom = frame.left, frame.top, frame.right, frame.bottom
        x0, y0, x1, y1 = self._boxes.T
        inside = (x0 >= left) & (x1 <= right) & (y0 >= top) & (y1 <= bottom)
        near = (x0 < right) & (x1 > left) & (y0 < bottom) & (y1 > top) & ~inside
        found = np.where(inside, self._areas, 0.0)
        if near.any():
            box = shapely.box(left, top, right, bottom)
            found[near] = shapely.area(shapely.intersection(self._polygons[near], box))
        return [float(area) for area in found]


def within_frame(points: Points, frame: Frame) -> tuple[tuple[Point, ...], ...]:
    """The parts of an outline that lie in an upright frame, clockwise, largest first. Points that lie on the frame, or
    a hair beside it, lie exactly on it, and no two are a hair apart."""
    box = shapely.box(frame.left, frame.top, frame.right, frame.bottom)
    near = Polygon([_on_frame(point, frame) for point in points])
    parts = _outlines(near.intersection(box))
    return tuple(tuple(_apart([_on_frame(p, frame) for p in part])) for part in parts)


def _apart(points: Points) -> list[Point]:
    """The points of an outline without those that are one with the point before."""
    return [p for k, p in enumerate(points) if math.dist(p, points[k - 1]) > 2 * ONE_POINT]


def _on_frame(point: Point, frame: Frame) -> Point:
    """The point itself, or the one on the sides of a frame that it was meant to be."""
    x, y = point
    for side in (frame.left, frame.right):
        x = side if abs(x - side) < ONE_POINT else x
    for side in (frame.top, frame.bottom):
        y = side if abs(y - side) < ONE_POINT else y
    return (x, y)


def outlines_near(points: Points, outlines: Sequence[Points], reach: float) -> frozenset[int]:
    """The indexes of the outlines at most `reach` from another one."""
    near = STRtree(_polygons(outlines)).query(Polygon(points), predicate="dwithin", distance=reach)
    return frozenset(int(index) for index in near)


def points_near(points: Points, reach: float) -> list[tuple[int, int]]:
    """Index pairs (i < j) of points at most `reach` apart."""
    made = shapely.points(rows(points))
    first, second = STRtree(made).query(made, predicate="dwithin", distance=reach)
    keep = first < second
    return sorted(zip(first[keep].tolist(), second[keep].tolist(), strict=True))


def points_near_edges(
    points: Points, edges: Sequence[tuple[Point, Point]], reach: float
) -> list[tuple[int, int]]:
    """Index pairs (point, edge) at most `reach` apart, an edge's own ends left out, sorted."""
    pairs = near_edges(np.asarray(points, dtype=float), np.asarray(edges, dtype=float), reach)
    near = sorted(zip(*(indexes.tolist() for indexes in pairs), strict=True))
    return [(point, edge) for point, edge in near if points[point] not in edges[edge]]


def near_edges(points: Any, edges: Any, reach: float) -> tuple[Any, Any]:
    """Of points at most `reach` from edges, their own ends too, the indexes of points and of edges; all in rows."""
    tree = STRtree(shapely.linestrings(edges.reshape(-1, 2, 2)))
    ends = shapely.points(points.reshape(-1, 2))
    on_point, on_edge = tree.query(ends, predicate="dwithin", distance=reach)
    return on_point, on_edge


def offset(
    points: Points,
    by: float,
    mitre_limit: float | None = None,
    limits: Sequence[float | None] = (),
    ways: Sequence[Ways] = (),
) -> tuple[Point, ...]:
    """The outline moved outwards by a distance, corners mitred exactly; corner N belongs to corner N.

    `points` run clockwise; `ways` are the directions in which each is reached and left, where they are not
    those of the sides as they stand (along curves). A tip farther than `mitre_limit` distances from its corner, or than its own one of
    `limits`, is cut off at that distance, square to the bisector (two points for that corner). Where moved
    sides would cross (a narrow inward corner) the outer outline of the result is given, and corners no
    longer correspond.
    """
    corners = list(points)
    each = tuple(limits) or (mitre_limit,) * len(corners)
    made: list[Point] = []
    for corner, way, limit in zip(corners, ways or ways_along(corners), each, strict=True):
        made.extend(_mitred(corner, way, by, limit))
    if by >= 0 and not Polygon(made).is_valid:
        limit = mitre_limit if mitre_limit is not None else 1e3
        grown = Polygon(corners).buffer(by, join_style="mitre", mitre_limit=limit)
        return _outlines(grown)[0]
    return tuple(made)


def ways_along(points: Points) -> tuple[Ways, ...]:
    """The directions in which each point of an outline is reached and left, along its straight sides."""
    around = zip((points[-1], *points), points, (*points[1:], points[0]), strict=False)
    return tuple((direction(a, b), direction(b, c)) for a, b, c in around)


def _mitred(corner: Point, ways: Ways, by: float, limit: float | None) -> tuple[Point, ...]:
    """The corner of the moved outline, or two points where its tip is cut off."""
    u, v = ways
    # the outside lies on the left hand of a clockwise walk: turn the direction a quarter back
    n, m = (u[1], -u[0]), (v[1], -v[0])
    scale = 1 + n[0] * m[0] + n[1] * m[1]
    cross = u[0] * v[1] - u[1] * v[0]
    if scale < NOISE:  # a point without width: carry on square to it
        return (
            plus(corner, (n[0] * by, n[1] * by)),
            plus(corner, (m[0] * by, m[1] * by)),
        )
    tip = ((n[0] + m[0]) * by / scale, (n[1] + m[1]) * by / scale)
    reach = math.hypot(*tip)
    if limit is None or cross <= 0 or reach <= limit * abs(by) + NOTHING:
        return (plus(corner, tip),)
    bisector = (tip[0] / reach, tip[1] / reach)
    cut = limit * by
    # along each moved side, back from the tip to where the square cut meets it
    along = (reach - cut) / abs(bisector[0] * u[0] + bisector[1] * u[1])
    point = plus(corner, tip)
    return (
        (point[0] - u[0] * along, point[1] - u[1] * along),
        (point[0] + v[0] * along, point[1] + v[1] * along),
    )


def rows(points: Points) -> Any:
    """Points as rows of two numbers."""
    flat = chain.from_iterable(points)
    return np.fromiter(flat, float, 2 * len(points)).reshape(-1, 2)


def _polygons(outlines: Sequence[Points]) -> Any:
    """The outlines as an array of shapely polygons, made in one go."""
    if not outlines:
        return np.empty(0, dtype=object)
    counts = [len(points) for points in outlines]
    flat = np.array([p for points in outlines for p in (*points, points[0])], dtype=float)
    owner = np.repeat(np.arange(len(counts)), np.array(counts) + 1)
    return shapely.polygons(shapely.linearrings(flat, indices=owner))


def _united(outlines: Sequence[Points]) -> Any:
    """The union as a geometry of shapely's. Outlines whose points lie a hair apart may lose area there; where less
    comes out than was put in, and they do not just overlap, it is made again on a grid, which cannot."""
    polygons = _polygons(outlines)
    merged = shapely.union_all(polygons)
    if float(np.sum(shapely.area(polygons))) - merged.area < ONE_POINT:
        return merged
    again = shapely.union_all(polygons, grid_size=ONE_POINT)
    return again if again.area > merged.area + ONE_POINT else merged


def _parts(geometry: Any) -> list[Any]:
    """The polygons of a geometry with an area worth naming."""
    flat = shapely.get_parts(geometry)
    return [g for g in flat if g.geom_type == "Polygon" and g.area > NOISE]


def _outlines(geometry: Any) -> tuple[tuple[Point, ...], ...]:
    return _sorted(_ring_points(part.exterior) for part in _parts(geometry))


def _opened(whole: Any) -> Iterator[Any]:
    """The parts of a polygon without holes: it is cut up and down through the middle of each."""
    if not whole.interiors:
        yield whole
        return
    left, _, right, _ = whole.interiors[0].bounds
    _, top, _, bottom = whole.bounds
    middle = (left + right) / 2
    for half in _parts(split(whole, LineString([(middle, top - 1), (middle, bottom + 1)]))):
        yield from _opened(half)


def _ring_points(ring: Any) -> tuple[Point, ...]:
    """The points of a ring, clockwise on the page, from its top left one."""
    points = [(float(x), float(y)) for x, y in ring.coords][:-1]
    if area_of(points) < 0:
        points.reverse()
    first = min(range(len(points)), key=lambda i: (points[i][1], points[i][0]))
    return tuple(points[first:] + points[:first])


def _sorted(outlines: Any) -> tuple[tuple[Point, ...], ...]:
    return tuple(sorted(outlines, key=lambda points: (-round(area(points), 9), points)))


def convex_parts(points: Points) -> tuple[tuple[Point, ...], ...]:
    """The outline itself where it is convex, else triangles that fill it exactly once."""
    corners = list(points)
    turns = [
        (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
        for a, b, c in zip(
            corners[-1:] + corners[:-1], corners, corners[1:] + corners[:1], strict=True
        )
    ]
    if min(turns) >= -NOISE or max(turns) <= NOISE:
        return (tuple(corners),)
    return _outlines_all(shapely.constrained_delaunay_triangles(Polygon(corners)))


def _outlines_all(geometry: Any) -> tuple[tuple[Point, ...], ...]:
    """The outlines of every polygon of a geometry, however small."""
    return _sorted(_ring_points(part.exterior) for part in shapely.get_parts(geometry))


def layer_cells(outlines: Sequence[Points], grid: float = ONE_POINT) -> tuple[Any, Any]:
    """(cells, layers): the plane cut up by the edges of overlapping outlines, and how many outlines
    cover each cell.

    Edges closer than `grid` are taken for one and slivers of that width left out.
    """
    polygons = _polygons(outlines)
    if not len(polygons):
        return np.empty(0, dtype=object), np.empty(0, dtype=int)
    edges = shapely.union_all(shapely.boundary(polygons), grid_size=grid)
    cells = shapely.get_parts(shapely.polygonize([edges]))
    cells = cells[shapely.area(cells) > grid * shapely.length(cells) * 10]
    inner = shapely.point_on_surface(cells)
    on_cell, _ = STRtree(polygons).query(inner, predicate="within")
    layers = np.bincount(on_cell, minlength=len(cells))
    return cells[layers > 0], layers[layers > 0]


def most_layers(outlines: Sequence[Points], places: Points, reach: float) -> list[int]:
    """For each place how many outlines lie upon each other at most within `reach` of it. Where the same lies about
    several places, it is counted about one of them."""
    if not outlines or not places:
        return [0] * len(places)
    made = shapely.points(rows(places))
    place, near = STRtree(_polygons(outlines)).query(made, predicate="dwithin", distance=reach)
    views = _views(outlines, rows(places), place, near)
    first = {view: n for n, view in reversed(tuple(enumerate(views)))}
    asked = np.array(sorted(first.values()))
    cells, layers = layer_cells(
        [outlines[n] for n in sorted(set(near[np.isin(place, asked)].tolist()))]
    )
    found = np.zeros(len(places), dtype=int)
    if len(cells):
        at, cell = STRtree(cells).query(
            made[asked], predicate="dwithin", distance=reach * (1 - SHARE)
        )
        np.maximum.at(found, asked[at], layers[cell])
    return [int(found[first[view]]) for view in views]


def _views(outlines: Sequence[Points], at: Any, place: Any, near: Any) -> list[bytes]:
    """The outlines near each place as they lie about it, of pairs (place, near outline): the same for places about
    which the same lies."""
    forms: dict[bytes, int] = {}
    ways = [np.rint((rows(points) - points[0]) / ONE_POINT).astype(int) for points in outlines]
    form = np.array([forms.setdefault(way.tobytes(), len(forms)) for way in ways])[near]
    first = rows([points[0] for points in outlines])[near]
    x, y = np.rint((first - at[place]) / ONE_POINT).astype(int).T
    order = np.lexsort((y, x, form, place))
    seen = np.stack([form, x, y], axis=1)[order]
    ends = np.searchsorted(place[order], np.arange(len(at) + 1))
    return [seen[a:b].tobytes() for a, b in pairwise(ends.tolist())]


def layer_map(outlines: Sequence[Points]) -> tuple[tuple[tuple[Point, ...], int], ...]:
    """(outline of a cell, how many outlines cover it) for all cells, from top left; cells have no
    holes worth drawing."""
    cells, layers = layer_cells(outlines)
    made = ((_ring_points(c.exterior), int(n)) for c, n in zip(cells, layers, strict=True))
    return tuple(sorted(made, key=lambda cell: (cell[0][0][::-1], cell)))
