"""Floor 3: where the frame of a filled lattice lies: what of the lattice comes into its middle.

Tried are the middles of blocks, the points half way between those of two that share a side, and the corners in which
three or more blocks meet (the point as far from all their middles). Chosen is the one about which the top looks most alike (turned by half, mirrored from left to right,
from top to bottom: in its cloths, then in its outlines alone); of those the one that wastes least: that is what is cut
off of whole patches, or, where patches are cut to size, the number of patches.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from booklet.geometry.rims.ground import Ground
from booklet.geometry.rims.hearts import Hearts, Marks, half_turn, left_to_right, top_to_bottom
from booklet.geometry.rims.lattice import Cell
from booklet.geometry.soundness.subdivision import Subdivision, ring_edges, subdivide
from booklet.geometry.vectors import outline_of
from booklet.kit.outlines.near import DRAWN, SAME_LENGTH
from booklet.kit.outlines.plane import (
    Frame,
    Point,
    cross,
    dot,
    frame_of,
    is_straight,
    midpoint,
    minus,
    plus,
)
from booklet.kit.outlines.polygon import centroid
from booklet.kit.records import Record
from booklet.pattern import Centre, Mirror, RimPatches

MOST_MIDDLES = 12  # blocks of an arrangement that are tried as its middle, those nearest to the middle of the set
AROUND = 3  # times the arrangement comes over where is looked whether a top is alike
_MOVES = {Mirror.HALF_TURN: half_turn, Mirror.SIDES: left_to_right, Mirror.ENDS: top_to_bottom}


class Placement(Record, kw_only=True):
    """A frame about a point of the lattice: in which ways the top is alike, in cloths or in outlines alone, the
    square inches of whole patches that show, and their number."""

    centre: Centre
    frame: Frame
    alike: tuple[Mirror, ...]
    outlines_alike: tuple[Mirror, ...]
    sewn: float
    patches: int

    @property
    def cut_off(self) -> float:
        """The square inches of whole patches beyond the frame."""
        return max(0.0, self.sewn - self.frame.width * self.frame.height)


def placements(ground: Ground, count: tuple[int, int], frame: Frame) -> Iterator[Placement]:
    """Every placement that is tried, for a set of `count` columns and rows and the frame round it."""
    seen: set[tuple[int, int]] = set()
    hearts = Hearts(ground)
    for cell in _middle_cells(ground, count, frame):
        for centre, (x, y) in _points(ground, hearts, cell):
            place = (round(x / DRAWN), round(y / DRAWN))
            if place not in seen:
                seen.add(place)
                about = Frame(x - frame.width / 2, y - frame.height / 2, frame.width, frame.height)
                yield _placed(ground, centre, about)


def best_of(found: Sequence[Placement], patches: RimPatches) -> Placement:
    """The most alike on all sides and, of those, the one that wastes least; the first of equals."""

    def rank(one: Placement) -> tuple[object, ...]:
        waste = one.patches if patches is RimPatches.CUT else round(one.cut_off, 6)
        kind = list(Centre).index(one.centre)
        return -len(one.alike), -len(one.outlines_alike), waste, one.patches, kind

    return min(found, key=rank)


def _middle_cells(ground: Ground, count: tuple[int, int], frame: Frame) -> tuple[Cell, ...]:
    """The cells of one round of the arrangement about the middle of the set, the nearest first."""
    rows = ground.lattice.rows
    wide, tall = math.lcm(*map(len, rows)), len(rows)
    first = max(0, (count[0] - wide) // 2), max(0, (count[1] - tall) // 2)
    middle = (frame.left + frame.width / 2, frame.top + frame.height / 2)
    cells = [
        (column, row)
        for row in range(first[1], first[1] + min(tall, count[1]))
        for column in range(first[0], first[0] + min(wide, count[0]))
    ]
    away = {cell: math.dist(centroid(ground.lattice.outline(cell)), middle) for cell in cells}
    return tuple(sorted(cells, key=lambda cell: (round(away[cell], 6), cell))[:MOST_MIDDLES])


def _points(ground: Ground, hearts: Hearts, cell: Cell) -> Iterator[tuple[Centre, Point]]:
    """The points about the block of a cell that may come into the middle."""
    lattice = ground.lattice
    own = hearts.of(cell)
    yield Centre.BLOCK, own
    near = [c for c in lattice.reaching(frame_of(lattice.outline(cell))) if c != cell]
    parts = subdivide([outline_of(lattice.outline(c)) for c in (cell, *near)])
    sides = ((b, a) for a, b in ring_edges(parts.rings[0]))
    beside = sorted({parts.owner[edge] for edge in sides if edge in parts.owner})
    middles = [own, *map(hearts.of, near)]
    for n in beside:
        yield Centre.GAP, midpoint(own, middles[n])
    for point, meeting in _corners(parts):
        yield Centre.CORNER, _as_far([middles[n] for n in meeting]) or point


def _corners(parts: Subdivision) -> Iterator[tuple[Point, list[int]]]:
    """The points on the first outline in which at least three have a corner and none has a side, with those."""
    corner: dict[Point, list[tuple[int, bool]]] = {}
    for n, ring in enumerate(parts.rings):
        for before, at, after in zip((ring[-1], *ring), ring, (*ring[1:], ring[0]), strict=False):
            corner.setdefault(at, []).append((n, not is_straight(before, at, after)))
    for at in parts.rings[0]:
        if len(corner[at]) >= 3 and all(is_corner for _, is_corner in corner[at]):
            yield at, [n for n, _ in corner[at]]


def _as_far(points: Sequence[Point]) -> Point | None:
    """The point as far from the first of some points as from two others; None where they lie in one line."""
    a, b, c = points[:3]
    u, v = minus(b, a), minus(c, a)
    whole = 2 * cross(u, v)
    if abs(whole) < SAME_LENGTH:
        return None
    x = (v[1] * dot(u, u) - u[1] * dot(v, v)) / whole
    y = (u[0] * dot(v, v) - v[0] * dot(u, u)) / whole
    return plus(a, (x, y))


def _placed(ground: Ground, centre: Centre, frame: Frame) -> Placement:
    """A frame with what shows in it."""
    sewn, patches = 0.0, 0
    for cell in ground.lattice.reaching(frame):
        for area, share in zip(ground.areas(cell), ground.showing(cell, frame), strict=True):
            if share:
                sewn, patches = sewn + area, patches + 1
    window = _window(ground, frame)
    by_cloth, by_size = (_marks(ground, window, cloths) for cloths in (True, False))
    alike = tuple(mirror for mirror, move in _MOVES.items() if by_cloth.alike(move))
    outlines = tuple(m for m, move in _MOVES.items() if m in alike or by_size.alike(move))
    return Placement(
        centre=centre, frame=frame, alike=alike, outlines_alike=outlines, sewn=sewn, patches=patches
    )


def _window(ground: Ground, frame: Frame) -> Frame:
    """So much of a frame about its middle that the arrangement comes a few times over: there what is alike shows."""
    lattice = ground.lattice
    side = AROUND * (
        math.lcm(*map(len, lattice.rows)) * math.hypot(*lattice.across)
        + len(lattice.rows) * math.hypot(*lattice.down)
    )
    width, height = min(frame.width, side), min(frame.height, side)
    left, top = frame.left + (frame.width - width) / 2, frame.top + (frame.height - height) / 2
    return Frame(left, top, width, height)


def _marks(ground: Ground, frame: Frame, cloths: bool) -> Marks:
    """How the patches that show in a frame lie about its middle."""
    middle = (frame.left + frame.width / 2, frame.top + frame.height / 2)
    at, labels = list[Point](), list[object]()
    for cell in ground.lattice.reaching(frame):
        origin = minus(ground.lattice.origin(cell), middle)
        for n, share in enumerate(ground.showing(cell, frame)):
            if share:
                marks = ground.marks(cell, n)
                at += (plus(mark, origin) for mark in marks)
                labels += [ground.label(cell, n, cloths)] * len(marks)
    return Marks(at, labels)
