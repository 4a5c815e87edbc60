"""Floor 10: places for letters and numbers, so that none covers a seam or another label."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from functools import lru_cache

from booklet.drawing.lettering.text_widths import text_width
from booklet.drawing.scene import Anchoring, Ink, Item, Label, Line
from booklet.kit.measure import POINT_MM
from booklet.kit.outlines.near import NOISE, ONE_POINT
from booklet.kit.outlines.plane import (
    Box,
    Point,
    box_of,
    direction,
    dot,
    overlap,
    plus,
    to_segment,
    vector,
)
from booklet.kit.outlines.polygon import crosses, inside, point_to_box, roomiest, to_box
from booklet.kit.records import replace

TAKEN_FOR = 50.0  # the cost of a label that lies as near to another point as to its own
SMALLEST = 7.0  # points: nothing on a page is set smaller
CLEAR = 0.85  # mm from the middle of a stroke: half the heaviest seam, and a hair of paper
KEPT_OFF = 1.6  # mm: a stroke so far from a label costs nothing
_WAYS = tuple(vector(15.0 * step) for step in range(24))  # in which a label may lie from its dot
DOT = 1.25  # mm from the middle of a dot, as much again
RING = 1.72  # mm from the middle of a dot that may have a ring about it


def letter_in(
    points: Sequence[Point], text: str, size: float, muted: bool = False, room: float = 0.6
) -> Label | None:
    """A letter on a plate where the outline is roomiest, or None where it does not fit.

    The size falls to SMALLEST before it gives up; `room` mm stay free about the plate.
    """
    at, radius = roomiest(points)
    while size >= SMALLEST:
        if plate_radius(text, size) + room <= radius:
            return Label(at=at, text=text, size=size, bold=True, plate=True, muted=muted)
        size -= 0.5
    return None


@lru_cache(maxsize=1024)
def plate_radius(text: str, size: float) -> float:
    """The radius in mm of the plate under a letter."""
    return max(size * POINT_MM * 0.68, text_width(text, size) / 2 + 0.6)


def label_box(label: Label) -> Box:
    """The box about an unturned label, mm, its plate included."""
    if label.plate:
        radius = plate_radius(label.text, label.size)
        (x, y) = label.at
        return x - radius, y - radius, x + radius, y + radius
    width, half = text_width(label.text, label.size), label.size * POINT_MM * 0.42
    x, y = label.at
    left = {"start": x, "middle": x - width / 2, "end": x - width}[label.anchor]
    return left, y - half, left + width, y + half


def leader_to(box: Box, at: Point) -> tuple[Point, Point]:
    """A leader from the side of a label's box to the rim of a dot."""
    (left, top, right, bottom), (x, y) = box, at
    start = (min(max(x, left), right), min(max(y, top), bottom))
    return start, plus(at, direction(at, start), DOT)


def wider(box: Box, by: float) -> Box:
    """A box with so many mm more on every side."""
    return box[0] - by, box[1] - by, box[2] + by, box[3] + by


def _within(box: Box, frame: Box) -> bool:
    return frame[0] <= box[0] and frame[1] <= box[1] and box[2] <= frame[2] and box[3] <= frame[3]


def may_reach(a: Point, b: Point, box: Box) -> bool:
    """Whether the box about a stroke meets another. Written out, for it is asked very often."""
    (ax, ay), (bx, by), (left, top, right, bottom) = a, b, box
    if (ax < left and bx < left) or (ax > right and bx > right):
        return False
    return not ((ay < top and by < top) or (ay > bottom and by > bottom))


def _comes_near(box: Box, wide: Box, a: Point, b: Point) -> bool:
    """Whether a stroke comes nearer to a box than CLEAR, by which `wide` is wider; of one far off even the distance is
    not asked."""
    return may_reach(a, b, wide) and to_box(box, a, b) < CLEAR


def _nearest(points: Iterable[Point], box: Box, within: float) -> float:
    """The distance of the nearest of some points from a box; of points that are farther than `within` mm, any figure above
    it."""
    left, top, right, bottom = wider(box, within + NOISE)
    near = (p for p in points if left <= p[0] <= right and top <= p[1] <= bottom)
    return min((point_to_box(box, p) for p in near), default=math.inf)


def _anchored(way: Point) -> Anchoring:
    """Which part of a label lies at its place, where it grows away from a dot."""
    return "start" if way[0] > 0.5 else "end" if way[0] < -0.5 else "middle"


class Desk:
    """What lies on a picture already: strokes that no label may touch, areas and labels it should
    keep off, and dots. Labels are placed one after the other; the same order gives the same places."""

    def __init__(
        self,
        strokes: Iterable[tuple[Point, Point]],
        areas: Iterable[Sequence[Point]] = (),
        frame: Box | None = None,
        dots: Iterable[Point] = (),
        clear: float = DOT,
    ) -> None:
        self.strokes = list(strokes)
        self.areas = [(tuple(area), box_of(area)) for area in areas]
        self.boxes: list[Box] = []
        self.frame = frame
        self.dots, self.clear = list(dots), clear
        self.good = True  # whether every named label found a place that breaks no rule

    def copy(self) -> Desk:
        """A desk with the same on it."""
        desk = Desk(self.strokes, frame=self.frame, dots=self.dots, clear=self.clear)
        desk.areas, desk.boxes = list(self.areas), list(self.boxes)
        return desk

    def about(self, at: Point, reach: float) -> Desk:
        """A desk with what lies nearer than `reach` mm to a point, and dots twice as far off: a label within reach may be
        no nearer to one of them than to its own."""
        window = wider((*at, *at), reach)
        near = (stroke for stroke in self.strokes if may_reach(*stroke, window))
        dots = (dot for dot in self.dots if math.dist(dot, at) < 2 * reach)
        desk = Desk(near, frame=self.frame, dots=dots, clear=self.clear)
        desk.areas = [area for area in self.areas if overlap(area[1], window)]
        desk.boxes = [box for box in self.boxes if overlap(box, window)]
        return desk

    def clear_of(self, label: Label) -> bool:
        """Whether a label lies on no other."""
        return not any(overlap(label_box(label), other) for other in self.boxes)

    def keep(self, items: Iterable[Item]) -> None:
        """Keep off the labels among `items`."""
        self.boxes += [label_box(item) for item in items if isinstance(item, Label)]

    def named(
        self, at: Point, text: str, size: float, toward: Point, of: Sequence[Point] = ()
    ) -> tuple[Item, ...]:
        """A label that names the dots `of` (the one at `at` and the places where it lies too), where it
        will not be taken for that of another; with a leader where there is no room beside the dot."""
        own = tuple(of) or (at,)
        near = self._best(at, text, size, toward, (2.6, 2.9, 3.4, 4.1, 5.0), own)
        if near is not None:
            return self._placed(near)
        far = self._best(
            at, text, size, toward, (5.0, 6.5, 8.0, 10.0, 12.5, 15.0), own, leader=True
        )
        if far is not None:
            return self._placed(far, at)
        self.good = False
        return (replace(self.beside(at, text, size, toward), of=own),)

    def led(self, at: Point, text: str, size: float, toward: Point) -> tuple[Item, ...]:
        """A letter at the end of a leader to a place in a piece that is too small for it; nothing where there is no
        room."""
        found = self._best(at, text, size, toward, (6.5, 8.0, 10.0, 12.5, 15.0), (at,), leader=True)
        if found is None:
            return ()
        label = replace(found, accent=False, of=())
        start, _ = leader_to(label_box(label), at)
        self.boxes.append(label_box(label))
        self.strokes.append((start, at))
        return Line(points=(start, at), ink=Ink.LEADER, halo=True), label

    def _placed(self, label: Label, at: Point | None = None) -> tuple[Item, ...]:
        """A label that has found its place, and its leader to `at` if it has one."""
        self.boxes.append(label_box(label))
        if at is None:
            return (label,)
        a, b = leader_to(label_box(label), at)
        self.strokes.append((a, b))
        return Line(points=(a, b), ink=Ink.LEADER), label

    def _best(
        self,
        at: Point,
        text: str,
        size: float,
        toward: Point,
        rings: Sequence[float],
        own: tuple[Point, ...],
        leader: bool = False,
    ) -> Label | None:
        """The best place that breaks no rule, nearer ones and those that way first. What cannot be better than
        the best so far is not looked at."""
        best, least = None, math.inf
        near = self.about(at, rings[-1] + text_width(text, size) + size * POINT_MM + KEPT_OFF)
        others = [p for p in near.dots if all(math.dist(p, q) > 0.05 for q in own)]
        for ring in rings:
            for way in _WAYS:
                that_way, farther = 3 * dot(way, toward), (ring - rings[0]) * 1.2
                if farther - that_way >= least:
                    continue
                label = near._at(plus(at, way, ring), way, text, size, own)
                if not near._free(label, own, others, leader) or (
                    leader and not near._leads(label, at)
                ):
                    continue
                cost = near.cost(label, least + that_way) - that_way + farther
                if cost < least - NOISE:
                    best, least = label, cost
        return best

    def _at(
        self, place: Point, way: Point, text: str, size: float, own: tuple[Point, ...]
    ) -> Label:
        """A label that grows away from the dot it stands at."""
        return Label(
            at=place,
            text=text,
            size=size,
            anchor=_anchored(way),
            bold=True,
            accent=True,
            halo=True,
            of=own,
        )

    def _free(
        self, label: Label, own: tuple[Point, ...], others: Sequence[Point], leader: bool
    ) -> bool:
        """Whether a label lies clear of all and is nearer to its own dot than to any other."""
        box = label_box(label)
        wide = wider(box, 0.3)
        if any(overlap(wide, other) for other in self.boxes):
            return False
        if self.frame and not _within(box, self.frame):
            return False
        to_own = min(point_to_box(box, p) for p in own)
        least = _nearest(others, box, max(self.clear, to_own + 0.3))
        if min(to_own, least) < self.clear:
            return False
        return (leader or to_own + 0.3 < least) and not self._touches_a_stroke(box)

    def _touches_a_stroke(self, box: Box) -> bool:
        """Whether a stroke comes nearer to a box than CLEAR."""
        wide = wider(box, CLEAR)
        return any(_comes_near(box, wide, a, b) for a, b in self.strokes)

    def _leads(self, label: Label, at: Point) -> bool:
        """Whether a leader reaches the dot past no other dot, label or stroke that is not at the dot."""
        a, b = leader_to(label_box(label), at)
        if any(_comes_near(box, wider(box, CLEAR), a, b) for box in self.boxes):
            return False
        if any(to_segment(p, a, b) < 1.2 for p in self.dots if math.dist(p, at) > 0.05):
            return False
        about = box_of((a, b))
        met = [(c, d) for c, d in self.strokes if may_reach(c, d, about) and crosses(a, b, c, d)]
        return not any(min(math.dist(c, at), math.dist(d, at)) > ONE_POINT for c, d in met)

    def beside(
        self,
        at: Point,
        text: str,
        size: float = 8.0,
        toward: Point = (0.0, 0.0),
        reach: float = 2.9,
        muted: bool = False,
        rivals: Sequence[Point] = (),
    ) -> Label:
        """A label near `at` at the freest of sixteen places, best in direction `toward`, and no nearer to
        any of `rivals`, whose label it would be taken for."""
        best: tuple[float, Label] | None = None
        near = self.about(at, 2 * reach + text_width(text, size) + size * POINT_MM + KEPT_OFF)
        for ring in (reach, reach * 1.4, reach * 2.0):
            for step in range(16):
                way = vector(step * 22.5)
                label = Label(
                    at=plus(at, way, ring), text=text, size=size, anchor=_anchored(way), bold=True, accent=not muted, muted=muted,
                    halo=True,
                )  # fmt: skip
                farther = (ring - reach) * 0.8 - 3 * dot(way, toward)
                cost = near.cost(label, best[0] - farther if best else math.inf) + farther
                cost += TAKEN_FOR * any(math.dist(label.at, p) < 1.15 * ring for p in rivals)
                if best is None or cost < best[0] - NOISE:
                    best = (cost, label)
        assert best is not None
        self.boxes.append(label_box(best[1]))
        return best[1]

    def cost(self, label: Label, most: float = math.inf) -> float:
        """How badly a label lies: 40 for a stroke or label under it, 3 for lying on cloth; where that is above
        `most`, any figure above it."""
        box = label_box(label)
        left, top, right, bottom = box
        cost = 40.0 * sum(overlap(box, other) for other in self.boxes)
        if self.frame and not _within(box, self.frame):
            cost += 60
        probes = [
            (left + (right - left) * i / 4, top + (bottom - top) * j / 2)
            for i in range(5) for j in range(3)
        ]  # fmt: skip
        under = (area for area, around in self.areas if overlap(box, around))
        cost += 3 * any(inside(p, area) for area in under for p in probes)
        about = wider(box, KEPT_OFF)
        for a, b in self.strokes:
            if cost > most:
                break
            if may_reach(a, b, about):
                near = min(to_segment(p, a, b) for p in probes)
                cost += 40 if near < 0.9 else 4 * max(0.0, KEPT_OFF - near)
        return cost
