"""Floor 10: hand routes: one unbroken thread, from the needle to where it is fastened."""

from __future__ import annotations

import itertools

from booklet.drawing.fills import Looks
from booklet.drawing.labels import Desk
from booklet.drawing.patchwork import together
from booklet.drawing.scene import Area, Figure, Fill, Ink, Item, Line, Mark, Scene, Sign
from booklet.drawing.svg import figure
from booklet.drawing.views import Margins, View, fitted
from booklet.kit.plane import Point, bearing, direction, middle, plus, right_of, to_segment, unit
from booklet.kit.polygon import edges
from booklet.measure import UnitSystem
from booklet.plan import BlockPlan
from booklet.plan.routes import Route, route_caption, route_told, routes
from booklet.sewing.assembly import Thread
from booklet.words import phrase

NEEDLE_LENGTH = 8.0  # mm


def thread_figures(
    block: BlockPlan, looks: Looks, width: float = 60.0, units: UnitSystem = "inch"
) -> tuple[Figure, ...]:
    """A picture of every route that differs: alike routes of alike steps are drawn once."""
    return tuple(_figure(block, route, looks, width, units) for route in routes(block.assembly))


def _figure(
    block: BlockPlan, route: Route, looks: Looks, width: float, units: UnitSystem
) -> Figure:
    """One route: its line with an arrow on every seam, numbered stops, the needle, the backstitches, and
    rings where the needle passes through allowances."""
    tiling, thread = block.tiling, route.thread
    view, _, height = fitted(tiling.outline.points, width, width, Margins(8, 8, 8, 8), exact=True)
    items: list[Item] = [
        *together(
            Area(
                view.put(piece.outline.points),
                Fill(looks[piece.fabric].colour, 0, tint=True),
                Ink.CONTEXT,
            )
            for piece in tiling.pieces
        )
    ]
    paths = _paths(block, thread, view)
    back = _way_back(block, route, view)
    items += back
    for path in paths:
        items.append(Line(path, Ink.THREAD, halo=True))
        items.append(_arrowhead(path))
    points = [paths[i][0] if i < len(paths) else paths[-1][-1] for i in route.stops]
    items += _signs(route, paths)
    strokes = [edge for path in paths for edge in itertools.pairwise(path)]
    strokes += [edge for line in back for edge in itertools.pairwise(line.points)]
    strokes.append(_needle_stroke(paths[0]))
    desk = Desk(strokes, (), (0.3, 0.3, width - 0.3, height - 0.3))
    for n, p in enumerate(points, 1):
        items.append(desk.beside(p, str(n), 8.5, _away(paths, route.stops[n - 1])))
    name = f"{tiling.size}-{tiling.block}-thread-{route.n}"
    title = phrase("Hand route {route}", route=route.n)
    scene = Scene(name, width, height, tuple(items), title, route_told(route))
    return figure(scene, route_caption(route, units))


def _signs(route: Route, paths: list[tuple[Point, ...]]) -> list[Item]:
    """Dots at the stops, rings where the needle passes through, backstitches and needle."""
    through = set(route.thread.through)
    inner = sorted(through.union(route.stops) - {0, len(paths)})
    items: list[Item] = [
        Sign(paths[i][0], Mark.THROUGH if i in through else Mark.DOT) for i in inner
    ]
    items += [Sign(middle(paths[k]), Mark.OPEN) for k in route.halves]  # where it hangs
    first, last = paths[0], paths[-1]
    ahead, behind = bearing(direction(first[0], first[1])), bearing(direction(last[-1], last[-2]))
    items += [Sign(first[0], Mark.BACKSTITCH, ahead), Sign(last[-1], Mark.BACKSTITCH, behind)]
    items += [Sign(last[-1], Mark.STOP, behind), Sign(first[0], Mark.NEEDLE, ahead)]
    return items


def _needle_stroke(path: tuple[Point, ...]) -> tuple[Point, Point]:
    """Where the needle lies, behind the beginning of the first seam."""
    return path[0], plus(path[0], direction(path[0], path[1]), -NEEDLE_LENGTH)


def _way_back(block: BlockPlan, route: Route, view: View) -> list[Line]:
    """The way back from the end that would save a thread, if there is one, beside its seams."""
    if route.back is None:
        return []
    here = route.thread.points[-1]
    items: list[Line] = []
    for id in route.back.seams:
        seam = block.tiling.seam(id)
        path = view.put(seam.path if seam.start == here else seam.path[::-1])
        aside = right_of(direction(path[0], path[-1]))
        items.append(Line(tuple(plus(p, aside, 1.6) for p in path), Ink.LATER, end_arrow=True))
        here = seam.end if seam.start == here else seam.start
    return items


def _paths(block: BlockPlan, thread: Thread, view: View) -> list[tuple[Point, ...]]:
    """The seams of a route as walked, on paper."""
    paths = []
    for i, id in enumerate(thread.seams):
        path = block.tiling.seam(id).path
        paths.append(view.put(path if path[0] == thread.points[i] else path[::-1]))
    return paths


def _away(paths: list[tuple[Point, ...]], i: int) -> Point:
    """The outer side of the bend at a point of the route."""
    if 0 < i < len(paths):
        back, ahead = (
            direction(paths[i - 1][-1], paths[i - 1][-2]),
            direction(paths[i][0], paths[i][1]),
        )
        bend = unit(plus(back, ahead))
        return -bend[0], -bend[1]
    path = paths[0] if i == 0 else paths[-1]
    return right_of(direction(path[0], path[-1]))


def _arrowhead(path: tuple[Point, ...]) -> Line:
    """A small arrowhead at the middle of a seam."""
    at = middle(path)
    along = direction(path[0], path[-1]) if len(path) == 2 else direction(*_about(path, at))
    return Line((plus(at, along, -1.3), plus(at, along, 1.4)), Ink.THREAD, end_arrow=True)


def _about(path: tuple[Point, ...], at: Point) -> tuple[Point, Point]:
    """The stretch of a curved path on which a point lies."""
    pairs = edges(path)[:-1]
    return min(pairs, key=lambda pair: to_segment(at, *pair))
