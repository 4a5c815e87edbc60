"""Floor 10: the allowances of a pressed block as flaps of true width, where they lie.

A flap ends in a mitre where it meets the flap of the next seam of its piece, else at the next seam, and
at the rim it reaches the raw edge.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from booklet.geometry.tiling import Seam, Tiling
from booklet.kit.outlines.near import NO_LENGTH, NOISE, WHOLE
from booklet.kit.outlines.plane import Point, cross, direction, dot, middle, plus, right_of, unit
from booklet.kit.outlines.polygon import half_plane
from booklet.kit.records import Record
from booklet.plan import BlockPlan
from booklet.sewing.assembly import End


class Flap(Record, kw_only=True):
    """One allowance as it lies: its outline in inches of the block (from the front), the seam's
    middle, the way it points, whether it is one half of an open seam, and its seam."""

    outline: tuple[Point, ...]
    at: Point
    way: Point
    open: bool
    seam: Seam
    step: int


_Ending = Mapping[Point, Sequence[Seam]]  # the seams that end at each point


def flaps_of(block: BlockPlan, allowance: float) -> tuple[Flap, ...]:
    """The flaps of a block in the order in which they come to lie, the earliest first."""
    flaps = []
    ending: dict[Point, list[Seam]] = {}
    for seam in block.tiling.seams:
        for point in dict.fromkeys((seam.start, seam.end)):
            ending.setdefault(point, []).append(seam)
    for seam in block.tiling.seams:
        pressed = block.pressing.pressed.get(seam.id)
        if pressed is None:
            continue
        sides = [pressed.toward] if pressed.toward else list(seam.between)
        step = block.assembly.sewn[seam.id].step if seam.id in block.assembly.sewn else 0
        for piece in sides:
            flaps.append(_flap(block, ending, seam, piece, allowance, pressed.toward is None, step))
    return tuple(sorted(flaps, key=lambda flap: (flap.step, flap.seam.id)))


def _flap(
    block: BlockPlan,
    ending: _Ending,
    seam: Seam,
    piece: str,
    allowance: float,
    open_: bool,
    step: int,
) -> Flap:
    """The flap of a seam on one of its pieces."""
    path = seam.path if seam.between[0] == piece else seam.path[::-1]  # the piece on the right
    at = middle(path)
    if len(path) > 2:
        path = _to_raw_edge(block.tiling, path, allowance)
        inner = _beside(path, allowance)
        way = unit(direction(at, middle(inner)))
        return Flap(outline=(*path, *inner[::-1]), at=at, way=way, open=open_, seam=seam, step=step)
    along, way = direction(path[0], path[1]), right_of(direction(path[0], path[1]))
    far = 4 * allowance
    start, end = plus(path[0], along, -far), plus(path[1], along, far)
    outline: tuple[Point, ...] = (
        start, end, plus(end, way, allowance), plus(start, way, allowance),
    )  # fmt: skip
    for point, inward in ((path[0], along), (path[1], (-along[0], -along[1]))):
        cut = _cut(block, ending, seam, piece, point, inward, way, allowance)
        outline = half_plane(outline, *cut)
    return Flap(outline=outline, at=at, way=way, open=open_, seam=seam, step=step)


def _to_raw_edge(tiling: Tiling, path: tuple[Point, ...], by: float) -> tuple[Point, ...]:
    """A curved path carried on over the allowance of the block where it ends on the rim."""
    inner = {junction.at for junction in tiling.junctions if junction.inside}
    points = list(path)
    if path[0] not in inner:
        points.insert(0, plus(path[0], direction(path[1], path[0]), by))
    if path[-1] not in inner:
        points.append(plus(path[-1], direction(path[-2], path[-1]), by))
    return tuple(points)


def _beside(path: tuple[Point, ...], by: float) -> tuple[Point, ...]:
    """A curved path moved to its right."""
    moved = []
    for i, p in enumerate(path):
        before, after = path[max(i - 1, 0)], path[min(i + 1, len(path) - 1)]
        moved.append(plus(p, right_of(direction(before, after)), by))
    return tuple(moved)


def _cut(
    block: BlockPlan,
    ending: _Ending,
    seam: Seam,
    piece: str,
    point: Point,
    inward: Point,
    way: Point,
    allowance: float,
) -> tuple[Point, Point]:
    """Where a flap ends at one end of its seam: a point of the line, and the side that is kept."""
    other = _neighbour(block.tiling, piece, point, inward)
    turn = _angle(inward, other) if other else 180.0
    if other is None or turn >= 179.9 or dot(other, way) <= NO_LENGTH:
        return point, inward  # straight on, or away: square across
    keep = way_across(other, inward)
    next_seam = _seam_between(ending, piece, point, other)
    if next_seam is None:  # the rim of the block: on to the raw edge
        return plus(point, keep, -allowance), keep
    pressed = block.pressing.pressed.get(next_seam.id)
    both = pressed is not None and pressed.toward in (piece, None)
    if both and End.EDGE not in (_end(block, seam, point), _end(block, next_seam, point)):
        half = unit(plus(inward, other))
        return point, way_across(half, inward)
    return point, keep


def way_across(line: Point, toward: Point) -> Point:
    """The unit normal of a line on the side to which `toward` points."""
    normal = right_of(line)
    return normal if dot(normal, toward) >= 0 else (-normal[0], -normal[1])


def _angle(a: Point, b: Point) -> float:
    return math.degrees(math.atan2(abs(cross(a, b)), dot(a, b)))


def _neighbour(tiling: Tiling, piece: str, at: Point, along: Point) -> Point | None:
    """The direction of the piece's other edge at a point; None where the side goes straight on."""
    points = tiling.piece(piece).outline.points
    for i, p in enumerate(points):
        if p != at:
            continue
        for q in (points[i - 1], points[(i + 1) % len(points)]):
            d = direction(p, q)
            if dot(d, along) < 1 - NOISE:
                return d
    return None


def _seam_between(ending: _Ending, piece: str, at: Point, along: Point) -> Seam | None:
    """The seam of a piece that leaves a point in a direction."""
    for seam in ending.get(at, ()):
        if piece in seam.between:
            path = seam.path if seam.start == at else seam.path[::-1]
            if dot(direction(path[0], path[1]), along) > 1 - WHOLE:
                return seam
    return None


def _end(block: BlockPlan, seam: Seam, at: Point) -> End:
    sewn = block.assembly.sewn.get(seam.id)
    if sewn is None:
        return End.POINT
    return sewn.ends[0] if seam.start == at else sewn.ends[1]
