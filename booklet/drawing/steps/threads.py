"""Floor 10: hand routes: one unbroken thread, from the needle to where it is fastened."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from booklet.drawing.ink.fills import Looks
from booklet.drawing.lettering.labels import RING, Desk
from booklet.drawing.lettering.strokes import DOTS, needle_at, sign_strokes
from booklet.drawing.places import piece_places
from booklet.drawing.quilts.patchwork import together
from booklet.drawing.scene import Area, Fill, Ink, Item, Line, Mark, Scene, Sign
from booklet.drawing.viewport import Margins, View, fitted
from booklet.kit.measure import UnitSystem
from booklet.kit.outlines.near import ONE_POINT
from booklet.kit.outlines.plane import (
    Box,
    Point,
    bearing,
    box_of,
    direction,
    middle,
    overlap,
    plus,
    right_of,
    to_segment,
    unit,
)
from booklet.kit.outlines.polygon import edges, half_plane, to_box
from booklet.kit.words import Text, phrase
from booklet.plan import BlockPlan
from booklet.plan.cards.routes import Route, route_caption, route_told, routes
from booklet.sewing.assembly import Thread

MARGIN = 9.0  # mm about the block
ABOUT = 13.0  # mm about a route that is drawn by itself, for the needle and the numbers
LEAST_SEAM = 9.0  # mm: shorter seams have no room for their arrow, dots and numbers
READABLE = 6.0  # mm: a picture with a shorter seam is better drawn larger
NEAR_SEAM = 13.0  # mm: what the shortest seam is enlarged to
BESIDE = 1.5  # mm: a way back beside its seam
CLEAR = 1.2  # mm: by which it is shorter at either end
LARGER = (20.0, 28.0)  # mm: what it is enlarged to where its numbers find no room
KEY = 14.0  # mm: the small block that shows where an enlarged route lies


def thread_scenes(
    block: BlockPlan, looks: Looks, widths: Sequence[float], units: UnitSystem
) -> tuple[tuple[Scene, Text], ...]:
    """The scene of every route that differs and its caption, each in the first of `widths` (mm) in which all its numbers
    find room, else in the last."""
    return tuple(_narrowest(block, route, looks, widths, units) for route in routes(block.assembly))


def _narrowest(
    block: BlockPlan, route: Route, looks: Looks, widths: Sequence[float], units: UnitSystem
) -> tuple[Scene, Text]:
    """The scene of a route and its caption, wider only where its seams would be too short or its numbers find no room."""
    *narrower, widest = widths
    for width in narrower:
        view, _ = _view(block, route, width)
        if _shortest(block, route) * view.scale >= READABLE:
            scene, caption, good = _largest(block, route, looks, width, units)
            if good:
                return scene, caption
    return _largest(block, route, looks, widest, units)[:2]


def _largest(
    block: BlockPlan, route: Route, looks: Looks, width: float, units: UnitSystem
) -> tuple[Scene, Text, bool]:
    """The scene of a route, enlarged further where its numbers find no room, its caption, and whether they found it."""
    made = _scene(block, route, looks, width, units)
    view = _view(block, route, width)
    for near in LARGER:
        if made[2] or _view(block, route, width, near) == view:
            break
        made = _scene(block, route, looks, width, units, near)
    return made


def _scene(
    block: BlockPlan,
    route: Route,
    looks: Looks,
    width: float,
    units: UnitSystem,
    near: float = NEAR_SEAM,
) -> tuple[Scene, Text, bool]:
    """One route: its line with an arrow on every seam, numbered stops, the needle, the backstitches, and
    rings where the needle passes through allowances. Of a route of short seams only its surroundings are
    drawn, larger, and a small block beside them shows where it lies."""
    tiling = block.tiling
    view, window = _view(block, route, width, near)
    items: list[Item] = [*_ground(block, looks, view, window)]
    paths = _paths(block, route.thread, view)
    back = _ways_back(block, route, view)
    items += back
    for path in paths:
        items.append(Line(points=path, ink=Ink.THREAD, halo=True))
        items.append(_arrowhead(path))
    strokes = [edge for path in paths for edge in itertools.pairwise(path)]
    strokes += [edge for line in back for edge in itertools.pairwise(line.points)]
    signs = _signs(route, paths, view, papers=block.over_papers)
    dots = [sign.at for sign in signs if sign.mark in DOTS]
    strokes += [stroke for sign in signs for stroke in sign_strokes(sign)]
    room = (0.3, 0.3, width - 0.3, window[3] - 0.3)
    needle = needle_at(paths[0][0], paths[0][1], strokes[1:], dots, room)
    strokes += sign_strokes(needle)
    desk = Desk(strokes, frame=room, dots=[*dots, paths[0][0]], clear=RING)
    key, height = _key(block, route, looks, view, window, strokes)
    desk.boxes += [box_of(item.points) for item in key if isinstance(item, Area)][:1]
    labels: list[Item] = []
    for n, stop in enumerate(route.stops, 1):
        p = view.at(stop.at)
        labels += desk.named(p, str(n), 8.5, _away(paths, stop.before, p))
    name = f"{tiling.size}-{tiling.block}-thread-{route.n}"
    title = phrase("Hand route {route}", route=route.n)
    items += [*signs, needle, *key, *labels]
    scene = Scene.of(name, (width, height), items, title, route_told(route))
    return scene, route_caption(route, units), desk.good


def _shortest(block: BlockPlan, route: Route) -> float:
    """The length in inches of the shortest seam of a route."""
    return min(block.tiling.seam(id).length for id in route.thread.seams)


def _view(
    block: BlockPlan, route: Route, width: float, near: float = NEAR_SEAM
) -> tuple[View, Box]:
    """How the block, or what is about a route of short seams, comes onto the paper, and the window in mm
    within which it is drawn."""
    margins = Margins(MARGIN, MARGIN, MARGIN, MARGIN)
    view, _, height = fitted(block.tiling.outline.points, width, width, margins, exact=True)
    if _shortest(block, route) * view.scale >= LEAST_SEAM and near == NEAR_SEAM:
        return view, (0.0, 0.0, width, height)
    back = [id for way in route.thread.back for id in way.seams]
    shown = [block.tiling.seam(id).path for id in (*route.thread.seams, *back)]
    left, top, right, bottom = box_of(p for path in shown for p in path)
    across, down = max(right - left, ONE_POINT), max(bottom - top, ONE_POINT)
    free = width - 2 * ABOUT
    scale = min(near / _shortest(block, route), free / across, free / down)
    if scale <= view.scale * 1.1:
        return view, (0.0, 0.0, width, height)
    tall = min(max(down * scale + 2 * ABOUT, 0.6 * width), width)
    shift = (width / 2 - (left + right) / 2 * scale, tall / 2 - (top + bottom) / 2 * scale)
    return View(scale, shift), (0.0, 0.0, width, tall)


def _ground(block: BlockPlan, looks: Looks, view: View, window: Box) -> list[Item]:
    """The pieces, pale, as far as they lie within the window."""
    areas, drawn = [], []
    for piece in block.tiling.pieces:
        points = _within(view.put(piece.outline.points), window)
        if len(points) > 2:
            fill = Fill(looks[piece.fabric].colour, 0, tint=True)
            areas.append(Area(points, fill, Ink.CONTEXT))
            drawn.append((piece, points))
    return [*together(areas), *piece_places(block.tiling.block, drawn)]


def _within(points: Sequence[Point], window: Box) -> tuple[Point, ...]:
    """An outline cut off at the edges of the window."""
    left, top, right, bottom = (window[0] + 0.3, window[1] + 0.3, window[2] - 0.3, window[3] - 0.3)
    about = box_of(points)
    if left <= about[0] and top <= about[1] and about[2] <= right and about[3] <= bottom:
        return tuple(points)
    if not overlap(about, window):
        return ()
    sides = (
        ((left, top), (1.0, 0.0)),
        ((left, top), (0.0, 1.0)),
        ((right, bottom), (-1.0, 0.0)),
        ((right, bottom), (0.0, -1.0)),
    )
    kept = tuple(points)
    for at, inward in sides:
        kept = half_plane(kept, at, inward) if kept else kept
    return kept


def _key(
    block: BlockPlan,
    route: Route,
    looks: Looks,
    view: View,
    window: Box,
    strokes: Sequence[tuple[Point, Point]],
) -> tuple[list[Item], float]:
    """The small block with the route on it, in a corner that is free or below, and the height of it all."""
    outline = box_of(view.put(block.tiling.outline.points))
    if (
        outline[0] >= window[0] - 0.1
        and outline[3] <= window[3] + 0.1
        and outline[2] <= window[2] + 0.1
    ):
        return [], window[3]
    left, top, right, bottom = box_of(block.tiling.outline.points)
    scale = KEY / max(right - left, bottom - top)
    wide, tall = (right - left) * scale + 2, (bottom - top) * scale + 2
    corners = [(x, y) for y in (window[3] - tall, 0.0) for x in (0.0, window[2] - wide)]
    free = [
        (x, y)
        for x, y in corners
        if all(to_box((x, y, x + wide, y + tall), a, b) > 5.0 for a, b in strokes)
    ]
    (x, y), height = (free[0], window[3]) if free else ((0.0, window[3]), window[3] + tall)
    small = View(scale, (x + 1 - left * scale, y + 1 - top * scale))
    plate = ((x, y), (x + wide, y), (x + wide, y + tall), (x, y + tall))
    pieces = (
        Area(
            small.put(piece.outline.points),
            Fill(looks[piece.fabric].colour, 0, tint=True),
            Ink.HAIR,
        )
        for piece in block.tiling.pieces
    )
    line = [Line(points=path, ink=Ink.RIM) for path in _paths(block, route.thread, small)]
    return [Area(plate, Fill("#ffffff"), None), *together(pieces), *line], height


def _signs(route: Route, paths: list[tuple[Point, ...]], view: View, *, papers: bool) -> list[Sign]:
    """Dots at the stops, rings where the needle passes through allowances (over papers there are none), and where the
    thread is fastened."""
    thread = route.thread
    through = {thread.points[k] for k in thread.through if not papers}
    ends = {thread.points[0], thread.points[-1]}
    inner = dict.fromkeys([*(stop.at for stop in route.stops), *through])
    signs = [
        Sign(view.at(p), Mark.THROUGH if p in through else Mark.DOT) for p in inner if p not in ends
    ]
    first, last = paths[0], paths[-1]
    ahead, behind = bearing(direction(first[0], first[1])), bearing(direction(last[-1], last[-2]))
    signs += [Sign(first[0], Mark.BACKSTITCH, ahead), Sign(last[-1], Mark.BACKSTITCH, behind)]
    return [*signs, Sign(last[-1], Mark.STOP, behind)]


def _ways_back(block: BlockPlan, route: Route, view: View) -> list[Line]:
    """Where the thread goes back: a thin line beside the seams, with an arrow where it sews on; dotted straight
    across where it lies loose."""
    items: list[Line] = []
    for way in route.thread.back:
        if way.loose:
            ends = view.put(way.points)
            items.append(Line(points=ends, ink=Ink.LATER, end_arrow=True))
            continue
        for k, id in enumerate(way.seams):
            path = block.tiling.seam(id).path
            path = view.put(path if path[0] == way.points[k] else path[::-1])
            aside = right_of(direction(path[0], path[-1]))
            beside = tuple(plus(p, aside, BESIDE) for p in path)
            last = k == len(way.seams) - 1
            items.append(Line(points=_within_ends(beside), ink=Ink.BACK, end_arrow=last))
    return items


def _within_ends(path: tuple[Point, ...]) -> tuple[Point, ...]:
    """A line a little shorter at both ends, so that it is clear of the dots."""
    first, last = direction(path[0], path[1]), direction(path[-1], path[-2])
    return (plus(path[0], first, CLEAR), *path[1:-1], plus(path[-1], last, CLEAR))


def _paths(block: BlockPlan, thread: Thread, view: View) -> list[tuple[Point, ...]]:
    """The seams of a route as walked, on paper."""
    paths = []
    for i, id in enumerate(thread.seams):
        path = block.tiling.seam(id).path
        paths.append(view.put(path if path[0] == thread.points[i] else path[::-1]))
    return paths


def _away(paths: list[tuple[Point, ...]], i: int, at: Point) -> Point:
    """The outer side of the bend at a point of the route, where it is before its seam `i`."""
    came = paths[i - 1] if i > 0 else None
    goes = paths[i] if i < len(paths) else None
    if came and goes and came[-1] == goes[0]:
        back, ahead = direction(came[-1], came[-2]), direction(goes[0], goes[1])
        bend = unit(plus(back, ahead))
        return -bend[0], -bend[1]
    if came and goes and came[-1] == at:
        return direction(came[-2], came[-1])  # it goes back from here
    path = goes if goes and goes[0] == at else came or paths[0]
    return right_of(direction(path[0], path[-1]))


def _arrowhead(path: tuple[Point, ...]) -> Line:
    """A small arrowhead at the middle of a seam."""
    at = middle(path)
    along = direction(path[0], path[-1]) if len(path) == 2 else direction(*_about(path, at))
    return Line(
        points=(plus(at, along, -1.3), plus(at, along, 1.4)), ink=Ink.THREAD, end_arrow=True
    )


def _about(path: tuple[Point, ...], at: Point) -> tuple[Point, Point]:
    """The stretch of a curved path on which a point lies."""
    pairs = edges(path)[:-1]
    return min(pairs, key=lambda pair: to_segment(at, *pair))
