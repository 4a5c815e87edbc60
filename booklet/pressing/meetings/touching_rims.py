"""Floor 5: where the rims of blocks that lie in a quilt touch: points at which seams of both end.

Found by geometry alone, so blocks may have any outline and lie in any set. Two blocks that share only a
corner, and no edge there, are not sewn to each other at it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations

from booklet.geometry.tiling import Tiling
from booklet.kit.outlines.near import SAME_LENGTH, TOUCH
from booklet.kit.outlines.plane import Point, direction, plus, turn_point
from booklet.kit.records import Record
from booklet.pressing.meetings.facing import facing
from booklet.pressing.strands import ray

CELL = (
    100 * TOUCH
)  # inches: points that touch fall into one cell of this side, or into two next to it


class RimEnd(Record):
    """A matching point on a block's rim, in the block's own frame, with the seams that end there."""

    block: str
    turn: int
    at: Point
    seams: tuple[str, ...]


class BlockInPlace(Record):
    """A block where it lies: its frame turned clockwise by `turn` degrees about (0, 0), which then
    comes to lie at `origin`, in inches."""

    block: str
    turn: int
    origin: Point

    def place(self, point: Point) -> Point:
        """A point of the block's frame where it lies."""
        return plus(turn_point(point, self.turn), self.origin)


class Touch(Record, kw_only=True):
    """Rim points of the blocks numbered `one` and `other` that coincide at `at`; `facing` are the
    pairs of their seams, one of either block, that face each other across the edge they share."""

    one: int
    other: int
    first: RimEnd
    second: RimEnd
    at: Point
    facing: tuple[tuple[str, str], ...]


class _Rim(Record):
    """A rim end as it is turned: its place from the origin, the directions of the rim, its seams'."""

    end: RimEnd
    at: Point
    along: tuple[Point, Point]
    seams: tuple[tuple[str, Point], ...]


def touches(lain: Sequence[BlockInPlace], tilings: Mapping[str, Tiling]) -> Iterator[Touch]:
    """Every touch of the blocks laid, in their order; blocks without a tiling are passed over."""
    rims: dict[tuple[str, int], list[_Rim]] = {}
    places: dict[tuple[int, int], int] = {}
    here: list[tuple[Point, list[tuple[int, _Rim]]]] = []
    for k, block in enumerate(lain):
        kind = (block.block, block.turn)
        if block.block in tilings and kind not in rims:
            rims[kind] = list(_rims(tilings[block.block], *kind))
        for rim in rims.get(kind, ()):
            at = plus(rim.at, block.origin)
            cells = _cells(at)
            known = next((places[cell] for cell in cells if cell in places), len(here))
            if known == len(here):
                here.append((at, []))
            places.update((cell, known) for cell in cells)
            here[known][1].append((k, rim))
    for at, rim_ends in here:
        for (one, first), (other, second) in combinations(rim_ends, 2):
            shared = _shared(first, second) if one != other else None
            if shared is not None:
                pairs = facing(shared, first.seams, second.seams)
                yield Touch(
                    one=one, other=other, first=first.end, second=second.end, at=at, facing=pairs
                )


def _rims(tiling: Tiling, block: str, turn: int) -> Iterator[_Rim]:
    """The matching points on the rim of a block at which seams end, turned."""
    for junction in tiling.junctions:
        if junction.inside or not junction.seams:
            continue
        at = junction.at
        seams = (
            (id, turn_point(ray(tiling.seam(id), at), turn)) for id in dict.fromkeys(junction.seams)
        )
        before, after = (turn_point(way, turn) for way in _along(tiling.outline.points, at))
        end = RimEnd(block, turn, at, junction.seams)
        yield _Rim(end, turn_point(at, turn), (before, after), tuple(seams))


def _along(outline: tuple[Point, ...], at: Point) -> tuple[Point, Point]:
    """The two directions in which the rim leaves one of its points."""
    count = len(outline)
    near = min(range(count), key=lambda k: math.dist(outline[k], at))
    if math.dist(outline[near], at) <= TOUCH:
        return direction(at, outline[near - 1]), direction(at, outline[(near + 1) % count])
    sides = ((outline[k - 1], outline[k]) for k in range(count))
    start, end = min(sides, key=lambda s: math.dist(s[0], at) + math.dist(at, s[1]) - math.dist(*s))
    return direction(at, start), direction(at, end)


def _shared(one: _Rim, other: _Rim) -> Point | None:
    """A direction in which both rims leave their point: the edge along which the blocks are joined."""
    return next((a for a in one.along for b in other.along if math.dist(a, b) <= SAME_LENGTH), None)


def _cells(at: Point) -> list[tuple[int, int]]:
    """The cells of a fine grid that a point falls into, moved by a quarter of a cell each way."""
    xs, ys = ({math.floor(v / CELL + d) for d in (-0.25, 0.25)} for v in at)
    return sorted((x, y) for x in xs for y in ys)
