"""Floor 10: places for letters and numbers, so that none covers a seam or another label."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from booklet.drawing.lettering import MM_PER_POINT, text_width
from booklet.drawing.scene import Item, Label
from booklet.kit.plane import Box, Point, box_of, dot, overlap, plus, to_segment, vector
from booklet.kit.polygon import inside, roomiest

TAKEN_FOR = 50.0  # the cost of a label that lies as near to another point as to its own
SMALLEST = 7.0  # points: nothing on a page is set smaller


def letter_in(
    points: Sequence[Point], text: str, size: float = 9.0, muted: bool = False, room: float = 0.6
) -> Label | None:
    """A letter on a plate where the outline is roomiest, or None where it does not fit.

    The size falls to SMALLEST before it gives up; `room` mm stay free about the plate.
    """
    at, radius = roomiest(points)
    while size >= SMALLEST:
        if plate_radius(text, size) + room <= radius:
            return Label(at, text, size, bold=True, plate=True, muted=muted)
        size -= 0.5
    return None


def plate_radius(text: str, size: float) -> float:
    """The radius in mm of the plate under a letter."""
    return max(size * MM_PER_POINT * 0.68, text_width(text, size) / 2 + 0.6)


def label_box(label: Label) -> Box:
    """The box about an unturned label, mm, its plate included."""
    if label.plate:
        radius = plate_radius(label.text, label.size)
        (x, y) = label.at
        return x - radius, y - radius, x + radius, y + radius
    width, half = text_width(label.text, label.size), label.size * MM_PER_POINT * 0.42
    x, y = label.at
    left = {"start": x, "middle": x - width / 2, "end": x - width}[label.anchor]
    return left, y - half, left + width, y + half


class Desk:
    """What lies on a picture already: strokes that no label may touch, areas and labels it should
    keep off. Labels are placed one after the other; the same order gives the same places."""

    def __init__(
        self,
        strokes: Iterable[tuple[Point, Point]] = (),
        areas: Iterable[Sequence[Point]] = (),
        frame: Box | None = None,
    ) -> None:
        self.strokes = list(strokes)
        self.areas = [(tuple(area), box_of(area)) for area in areas]
        self.boxes: list[Box] = []
        self.frame = frame

    def keep(self, items: Iterable[Item]) -> None:
        """Keep off the labels among `items`."""
        self.boxes += [label_box(item) for item in items if isinstance(item, Label)]

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
        for ring in (reach, reach * 1.4, reach * 2.0):
            for step in range(16):
                way = vector(step * 22.5)
                anchor = "start" if way[0] > 0.5 else "end" if way[0] < -0.5 else "middle"
                label = Label(
                    plus(at, way, ring), text, size, anchor, bold=True, accent=not muted, muted=muted,
                    halo=True,
                )  # fmt: skip
                cost = self.cost(label) - 3 * dot(way, toward) + (ring - reach) * 0.8
                cost += TAKEN_FOR * any(math.dist(label.at, p) < 1.15 * ring for p in rivals)
                if best is None or cost < best[0] - 1e-9:
                    best = (cost, label)
        assert best is not None
        self.boxes.append(label_box(best[1]))
        return best[1]

    def cost(self, label: Label) -> float:
        """How badly a label lies: 40 for a stroke or label under it, 3 for lying on cloth."""
        box = label_box(label)
        left, top, right, bottom = box
        probes = [
            (left + (right - left) * i / 4, top + (bottom - top) * j / 2)
            for i in range(5) for j in range(3)
        ]  # fmt: skip
        cost = 0.0
        about = (left - 1.6, top - 1.6, right + 1.6, bottom + 1.6)
        for a, b in self.strokes:
            if not overlap(
                about,
                (min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]) + 1e-6, max(a[1], b[1]) + 1e-6),
            ):
                continue
            near = min(to_segment(p, a, b) for p in probes)
            cost += 40 if near < 0.9 else 4 * max(0.0, 1.6 - near)
        cost += 40 * sum(overlap(box, other) for other in self.boxes)
        if self.frame and not (
            self.frame[0] <= left and right <= self.frame[2]
            and self.frame[1] <= top and bottom <= self.frame[3]
        ):  # fmt: skip
            cost += 60
        under = (area for area, around in self.areas if overlap(box, around))
        cost += 3 * any(inside(p, area) for area in under for p in probes)
        return cost
