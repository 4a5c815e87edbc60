"""Floor 2: the outlines of a drawing made to fit: scaled to the block, points that are meant to be one made one.

A drawing rounds its numbers, so corners that should coincide may miss each other by a hair. Points
nearer than `HAIR` of the drawing's larger side become one, corners that near a straight side are put
on it, and a coordinate that near an eighth of a unit is that eighth.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

import numpy as np

from booklet.kit.outlines.plane import Frame, Point
from booklet.source.drawings.drawing_paths import Loop

HAIR = 2e-4
STEPS = 8  # to a unit


def fitted(loops: Sequence[Loop], frame: Frame, scale: float) -> tuple[Loop, ...]:
    """The outlines moved to (0, 0), `scale` units to a unit of the drawing, with points made one."""
    hair = HAIR * max(frame.width, frame.height) * scale
    moved = [_scaled(loop, frame, scale) for loop in loops]
    points = sorted({point for loop in moved for point in loop.points})
    xs, ys = _levels((x for x, _ in points), hair), _levels((y for _, y in points), hair)
    stands = {(x, y): (xs[x], ys[y]) for x, y in points}
    sides = [side for loop in moved for side in _straight(loop, stands)]
    stands = _on_sides(stands, sides, hair)
    return tuple(_replaced(loop, stands) for loop in moved)


def _scaled(loop: Loop, frame: Frame, scale: float) -> Loop:
    def at(x: float, y: float) -> Point:
        return (x - frame.left) * scale, (y - frame.top) * scale

    made = []
    for letter, n in loop.commands:
        if letter == "A":
            made.append((letter, (n[0] * scale, n[1] * scale, *n[2:5], *at(n[5], n[6]))))
        else:
            pairs = zip(n[::2], n[1::2], strict=True)
            made.append((letter, tuple(v for x, y in pairs for v in at(x, y))))
    return Loop(at(*loop.start), tuple(made))


def _levels(values: Iterable[float], hair: float) -> dict[float, float]:
    """For each coordinate the one that stands for it: the middle of those a hair apart, or an eighth."""
    groups: list[list[float]] = []
    for value in sorted(set(values)):
        if groups and value - groups[-1][-1] <= hair and value - groups[-1][0] <= 4 * hair:
            groups[-1].append(value)
        else:
            groups.append([value])
    found = {}
    for group in groups:
        middle = (group[0] + group[-1]) / 2
        eighth = round(middle * STEPS) / STEPS
        level = eighth if abs(eighth - middle) <= hair else middle
        found.update(dict.fromkeys(group, level))
    return found


def _straight(loop: Loop, stands: Mapping[Point, Point]) -> list[tuple[Point, Point]]:
    """The slanted straight sides of an outline, between the points that stand for its corners."""
    points = loop.points
    found = []
    for k, (letter, _) in enumerate(loop.commands):
        a, b = stands[points[k]], stands[points[(k + 1) % len(points)]]
        if letter == "L" and a[0] != b[0] and a[1] != b[1]:
            found.append((a, b))
    return found


def _on_sides(
    stands: Mapping[Point, Point], sides: list[tuple[Point, Point]], hair: float
) -> dict[Point, Point]:
    """The points with those a hair beside a slanted side put on it."""
    places = sorted(set(stands.values()))
    xs, ys = np.array(places).reshape(-1, 2).T
    moved: dict[Point, Point] = {}
    for a, b in sorted(set(sides)):
        length = math.dist(a, b)
        way = ((b[0] - a[0]) / length, (b[1] - a[1]) / length)
        first, end = (
            np.searchsorted(xs, min(a[0], b[0])),
            np.searchsorted(xs, max(a[0], b[0]), "right"),
        )
        x, y = xs[first:end] - a[0], ys[first:end] - a[1]
        along, off = x * way[0] + y * way[1], np.abs(x * way[1] - y * way[0])
        beside = (hair < along) & (along < length - hair) & (off > 0) & (off <= hair)
        for k in np.flatnonzero(beside):
            by = float(along[k])
            moved[places[first + k]] = (a[0] + by * way[0], a[1] + by * way[1])
    return {point: moved.get(place, place) for point, place in stands.items()}


def _replaced(loop: Loop, stands: Mapping[Point, Point]) -> Loop:
    """The outline with its corners in place; what became nothing is left out."""
    points = loop.points
    made, at = [], stands[points[0]]
    for k, (letter, n) in enumerate(loop.commands):
        end = stands[points[(k + 1) % len(points)]]
        if letter != "L" or end != at:
            made.append((letter, (*n[:-2], *end)))
        at = end
    return Loop(stands[points[0]], tuple(made))
