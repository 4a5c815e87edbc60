"""Floor 10: how inches of cloth come onto the paper."""

from __future__ import annotations

from collections.abc import Iterable

from booklet.drawing.scales import Scale, nearest_scale
from booklet.kit.measure import INCH_MM
from booklet.kit.outlines.near import ONE_POINT
from booklet.kit.outlines.plane import Box, Point, box_of
from booklet.kit.records import Record


class View(Record):
    """A scale in mm per inch and a shift in mm."""

    scale: float
    shift: Point

    def at(self, p: Point, away: Point = (0.0, 0.0)) -> Point:
        """The place on paper of a point moved by `away` inches."""
        return (
            (p[0] + away[0]) * self.scale + self.shift[0],
            (p[1] + away[1]) * self.scale + self.shift[1],
        )

    def put(self, points: Iterable[Point], away: Point = (0.0, 0.0)) -> tuple[Point, ...]:
        """The places on paper of several points, moved by `away` inches. Written out: a strip has tens of thousands."""
        (ax, ay), (dx, dy), scale = away, self.shift, self.scale
        return tuple([((x + ax) * scale + dx, (y + ay) * scale + dy) for x, y in points])


class Margins(Record):
    """Free paper about a picture, mm."""

    left: float = 1.0
    top: float = 1.0
    right: float = 1.0
    bottom: float = 1.0


def fitted(
    points: Iterable[Point],
    width: float,
    tallest: float,
    margins: Margins | None = None,
    exact: bool = False,
) -> tuple[View, Scale, float]:
    """The view, scale and height in mm of a picture `width` mm wide, the drawing in its middle.

    The scale comes from the ladder, or fills the room if `exact`.
    """
    free = margins or Margins()
    box = box_of(points)
    room = (width - free.left - free.right, tallest - free.top - free.bottom)
    across, down = max(box[2] - box[0], ONE_POINT), max(box[3] - box[1], ONE_POINT)
    if exact:
        scale = Scale(INCH_MM / min(room[0] / across, room[1] / down))
    else:
        scale = nearest_scale(
            lambda s: across * s <= room[0] + ONE_POINT and down * s <= room[1] + ONE_POINT
        )
    return _centred(box, scale, room[0], free)


def _centred(box: Box, scale: Scale, room: float, free: Margins) -> tuple[View, Scale, float]:
    """The view that centres a box across the room."""
    s = scale.mm_per_inch
    x = free.left + (room - (box[2] - box[0]) * s) / 2 - box[0] * s
    y = free.top - box[1] * s
    return View(s, (x, y)), scale, (box[3] - box[1]) * s + free.top + free.bottom
