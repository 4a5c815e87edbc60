"""Floor 10: hand routes: one unbroken thread, from needle to knot, over the tinted block."""

from __future__ import annotations

import itertools

from booklet.drawing.fills import Looks
from booklet.drawing.labels import Desk
from booklet.drawing.patchwork import together
from booklet.drawing.plane import (
    bearing,
    direction,
    edges,
    middle,
    plus,
    right_of,
    to_segment,
    unit,
)
from booklet.drawing.scene import Area, Figure, Fill, Ink, Item, Line, Mark, Point, Scene, Sign
from booklet.drawing.svg import figure
from booklet.drawing.views import Margins, View, fitted
from booklet.plan import BlockPlan
from booklet.plan.words import listed, plural
from booklet.sewing.assembly import Thread


def thread_figures(block: BlockPlan, looks: Looks, width: float = 60.0) -> tuple[Figure, ...]:
    """A picture of every route that differs: alike routes of alike steps are drawn once."""
    card_of = {id: _card(block, sewn.step) for id, sewn in block.assembly.sewn.items()}
    kinds: dict[tuple[tuple[int, ...], int], list[int]] = {}
    for number, thread in enumerate(block.assembly.threads, 1):
        key = (tuple(card_of[id] for id in thread.seams), thread.turns)
        kinds.setdefault(key, []).append(number)
    return tuple(
        _figure(block, numbers, place, looks, width)
        for place, numbers in enumerate(kinds.values(), 1)
    )


def _card(block: BlockPlan, step: int) -> int:
    """The card of a step."""
    return next((s.card for s in block.assembly.steps if s.n == step), 0)


def _figure(block: BlockPlan, numbers: list[int], place: int, looks: Looks, width: float) -> Figure:
    """One route: its line with an arrow on every seam, numbered turns, needle and knot."""
    tiling = block.tiling
    thread = block.assembly.threads[numbers[0] - 1]
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
    for path in paths:
        items.append(Line(path, Ink.THREAD, halo=True))
        items.append(_arrowhead(path))
    stops = _stops(paths)
    points = [paths[i][0] if i < len(paths) else paths[-1][-1] for i in stops]
    items += [Sign(p, Mark.DOT) for p in points[1:-1]]
    items.append(Sign(points[-1], Mark.KNOT))
    items.append(Sign(points[0], Mark.NEEDLE, bearing(direction(paths[0][0], paths[0][1]))))
    strokes = [edge for path in paths for edge in itertools.pairwise(path)]
    desk = Desk(strokes, (), (0.3, 0.3, width - 0.3, height - 0.3))
    for n, p in enumerate(points, 1):
        items.append(desk.beside(p, str(n), 8.5, _away(paths, stops[n - 1])))
    told = (
        f"One thread over {plural(len(thread.seams), 'seam')}: from the needle at 1 "
        + "".join(
            f"to {n}{', turn, ' if n < len(points) else ''}" for n in range(2, len(points) + 1)
        )
        + ", where it is knotted."
    )
    name = f"{tiling.size}-{tiling.block}-thread-{place}"
    scene = Scene(name, width, height, tuple(items), f"Hand route {place}", told)
    cards = sorted({_card(block, block.assembly.sewn[id].step) for id in thread.seams})
    where = f"{'step' if len(cards) == 1 else 'steps'} {listed([str(n) for n in cards])}"
    alike = f", {len(numbers)} times in the block" if len(numbers) > 1 else ""
    return figure(
        scene, f"Route {place}, {where}: {plural(len(thread.seams), 'seam')} on one thread{alike}."
    )


def _paths(block: BlockPlan, thread: Thread, view: View) -> list[tuple[Point, ...]]:
    """The seams of a route as walked, on paper."""
    paths = []
    for i, id in enumerate(thread.seams):
        path = block.tiling.seam(id).path
        paths.append(view.put(path if path[0] == thread.points[i] else path[::-1]))
    return paths


def _stops(paths: list[tuple[Point, ...]]) -> list[int]:
    """The indexes of the points that are numbered: the start, every change of direction, the end."""
    turns = [
        i
        for i in range(1, len(paths))
        if abs(
            (bearing(direction(paths[i - 1][-2], paths[i - 1][-1]))
             - bearing(direction(paths[i][0], paths[i][1])) + 180) % 360 - 180
        ) > 3
    ]  # fmt: skip
    return [0, *turns, len(paths)]


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
