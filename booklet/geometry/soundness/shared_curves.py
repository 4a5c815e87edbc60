"""Floor 3: one long curve of a piece beside several short ones of its neighbours, as in a fan.

Curves are held as chords (`paths.py`). Two pieces that share a whole curve have the same points; where a curve is
shared piece by piece, chords of the long and of the short ones lie beside each other by as much as a chord strays.
There the neighbours' ends are put into the long curve, and each stretch that two curves share gets the points of one.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping, Sequence

from booklet.geometry.overlay import points_near_edges
from booklet.geometry.placing.paths import FLATNESS
from booklet.geometry.tiling import Outline, Side
from booklet.kit.outlines.near import DRAWN
from booklet.kit.outlines.plane import Point, to_segment
from booklet.kit.records import Record, replace

SAME_CURVE = (
    FLATNESS + DRAWN
)  # inches: how far a point of one curve may lie from the chords of another
Chain = tuple[Point, ...]
Place = tuple[int, int]  # the index of an outline and of its side


class _Stretch(Record):
    """A curve between two ends: of curves that lie along it, or its own."""

    points: Chain
    is_whole: bool

    @property
    def ends(self) -> tuple[Point, Point]:
        """Its ends, the same for both ways along it."""
        return min(self.points[0], self.points[-1]), max(self.points[0], self.points[-1])


def run_together(outlines: Sequence[Outline]) -> tuple[Outline, ...]:
    """The outlines, of which points within `ONE_POINT` are one already, with the points of every stretch of curve that
    two of them share made the same. A point moves by `SAME_CURVE` at most; ends and straight sides stay."""
    curves = {
        (n, k): side
        for n, outline in enumerate(outlines)
        for k, side in enumerate(outline.sides)
        if side.via
    }
    stops = _stops(curves)
    if not stops:
        return tuple(outlines)
    cut = {place: _stretches(side, stops.get(place, ())) for place, side in curves.items()}
    models = _models([stretch for stretches in cut.values() for stretch in stretches])
    return tuple(
        Outline(
            tuple(
                replace(side, via=_joined(cut[n, k], models)) if side.via else side
                for k, side in enumerate(outline.sides)
            )
        )
        for n, outline in enumerate(outlines)
    )


def _stops(curves: Mapping[Place, Side]) -> dict[Place, tuple[Point, ...]]:
    """For each curve the ends of other curves that lie between its ends."""
    known = {end for side in curves.values() for end in (side.start, side.end)}
    ends = sorted(known)
    chords = [
        (place, chord)
        for place, side in curves.items()
        for chord in itertools.pairwise(side.points)
    ]
    near = points_near_edges(ends, [chord for _, chord in chords], SAME_CURVE)
    met = {(ends[i], chords[j][0]) for i, j in near}
    met |= {
        (point, place) for place, side in curves.items() for point in known.intersection(side.via)
    }
    found: dict[Place, list[Point]] = {}
    for point, place in sorted(met):
        side = curves[place]
        if min(math.dist(point, side.start), math.dist(point, side.end)) > SAME_CURVE:
            found.setdefault(place, []).append(point)
    return {place: tuple(points) for place, points in found.items()}


def _stretches(side: Side, stops: Sequence[Point]) -> list[_Stretch]:
    """A curve parted at the stops on it."""
    placed = sorted((_along(side.points, stop), stop) for stop in stops)
    marks = [0.0, *(at for at, _ in placed), float(len(side.points) - 1)]
    ends = [side.start, *(stop for _, stop in placed), side.end]
    made = []
    for (low, start), (high, end) in itertools.pairwise(zip(marks, ends, strict=True)):
        inner = side.points[math.floor(low) + 1 : math.ceil(high)]
        apart = [p for p in inner if min(math.dist(p, start), math.dist(p, end)) > DRAWN]
        made.append(_Stretch((start, *apart, end), not stops))
    return made


def _along(points: Chain, point: Point) -> float:
    """Where along a chain of points a point lies: 2.5 in the middle of its third chord."""
    n = min(range(len(points) - 1), key=lambda n: to_segment(point, points[n], points[n + 1]))
    whole = math.dist(points[n], points[n + 1])
    return n + min(1.0, math.dist(points[n], point) / whole)


def _models(stretches: Sequence[_Stretch]) -> dict[tuple[Point, Point], list[_Stretch]]:
    """The stretches whose points others take: of those that lie along each other one that is a whole curve, else the first."""
    models: dict[tuple[Point, Point], list[_Stretch]] = {}
    for stretch in sorted(stretches, key=lambda each: not each.is_whole):
        known = models.setdefault(stretch.ends, [])
        if not any(_lie_along(stretch, model) for model in known):
            known.append(stretch)
    return models


def _joined(
    stretches: Sequence[_Stretch], models: Mapping[tuple[Point, Point], Sequence[_Stretch]]
) -> Chain:
    """The points between the ends of a curve, each stretch with those of its model."""
    points: list[Point] = []
    for stretch in stretches:
        model = next(each for each in models[stretch.ends] if _lie_along(stretch, each))
        same_way = model.points[0] == stretch.points[0]
        points += (model.points if same_way else model.points[::-1])[1:]
    return tuple(points[:-1])


def _lie_along(one: _Stretch, other: _Stretch) -> bool:
    """Whether the points of each lie on the chords of the other, as near as chords are to their curve."""
    return all(_near(point, other.points) for point in one.points[1:-1]) and all(
        _near(point, one.points) for point in other.points[1:-1]
    )


def _near(point: Point, chain: Chain) -> bool:
    return any(to_segment(point, a, b) <= SAME_CURVE for a, b in itertools.pairwise(chain))
