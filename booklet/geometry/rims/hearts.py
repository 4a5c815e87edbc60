"""Floor 3: the point that a quilter takes for the middle of a block, and in which ways a lattice is alike about a point.

It is the centre of the block's area, unless the lattice in its cloths is alike about the middle of a patch in more ways
than its outlines are about that: a rosette with its piece of the path on one side only has its middle in its heart.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from booklet.geometry.rims.ground import Ground
from booklet.geometry.rims.lattice import Cell
from booklet.kit.outlines.near import SAME_LENGTH
from booklet.kit.outlines.plane import Frame, Point, frame_of, minus, plus, turn_point
from booklet.kit.outlines.polygon import centroid

REACH = 1.618  # of a block's longer side: about a point so far is looked; no round number, so that no patch lies just there
TURNS = (60, 90, 120, 180, 240, 270, 300)
_GRID = 10 * SAME_LENGTH
_STEPS = tuple((i, j) for i in (0, 1, -1) for j in (0, 1, -1))
Move = Callable[[Point], Point]


class Marks:
    """Labelled points about (0, 0), asked in which ways they are alike."""

    def __init__(self, at: Sequence[Point], labels: Sequence[object]) -> None:
        self._marks = tuple(zip(at, labels, strict=True))
        self._there = {(*_place(point), label) for point, label in self._marks}

    def alike(self, move: Move) -> bool:
        """Whether the points, moved so, come to lie on points of the same label."""
        for point, label in self._marks:
            x, y = _place(move(point))
            if not any((x + i, y + j, label) in self._there for i, j in _STEPS):
                return False
        return True


def _place(point: Point) -> tuple[int, int]:
    return round(point[0] / _GRID), round(point[1] / _GRID)


def left_to_right(point: Point) -> Point:
    """Mirrored from left to right."""
    return (-point[0], point[1])


def top_to_bottom(point: Point) -> Point:
    """Mirrored from top to bottom."""
    return (point[0], -point[1])


def half_turn(point: Point) -> Point:
    """Turned by half."""
    return (-point[0], -point[1])


class Hearts:
    """The middles of the blocks of a lattice; of a kind of block wherever it lies the same."""

    def __init__(self, ground: Ground) -> None:
        self._ground = ground
        self._known: dict[tuple[str, int], Point] = {}

    def of(self, cell: Cell) -> Point:
        """The middle of the block in a cell, where it lies."""
        setting, origin = self._ground.lattice.setting(cell), self._ground.lattice.origin(cell)
        kind = setting.block, setting.turn % 360
        if kind not in self._known:
            self._known[kind] = minus(_heart(self._ground, cell), origin)
        return plus(self._known[kind], origin)


def _heart(ground: Ground, cell: Cell) -> Point:
    middle, origin = centroid(ground.lattice.outline(cell)), ground.lattice.origin(cell)
    patches = [plus(point, origin) for point in ground.middles(cell)]
    ways = [_ways(ground, cell, point, cloths=True) for point in patches]
    best = max(range(len(patches)), key=ways.__getitem__)
    return patches[best] if ways[best] > _ways(ground, cell, middle, cloths=False) else middle


def _ways(ground: Ground, cell: Cell, about: Point, cloths: bool) -> int:
    """In how many ways the lattice about a point is alike, in its cloths or in its outlines alone."""
    box = frame_of(ground.lattice.outline(cell))
    reach = REACH * max(box.width, box.height)
    at, labels = list[Point](), list[object]()
    for other in ground.lattice.reaching(_square(about, reach)):
        origin = minus(ground.lattice.origin(other), about)
        for n, middle in enumerate(ground.middles(other)):
            if math.hypot(*plus(middle, origin)) < reach:
                marks = ground.marks(other, n)
                at += (plus(mark, origin) for mark in marks)
                labels += [ground.label(other, n, cloths)] * len(marks)
    turns: list[Move] = [lambda p, turn=turn: turn_point(p, turn) for turn in TURNS]  # type: ignore[misc]
    whole = Marks(at, labels)
    return sum(map(whole.alike, (*turns, left_to_right, top_to_bottom)))


def _square(about: Point, reach: float) -> Frame:
    return Frame(about[0] - reach, about[1] - reach, 2 * reach, 2 * reach)
