"""Floor 3: which part blocks are alike: turned, never mirrored; one kind each, counted by its places.

A print with an up is not turned, stripes only end for end.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from booklet.geometry.placing.placing import LaidPiece
from booklet.kit.outlines.alike import same_angle
from booklet.kit.outlines.near import SAME_LENGTH, WHOLE
from booklet.kit.outlines.plane import Point, bearing, minus, plus, tidy_angle, turn_point
from booklet.kit.outlines.polygon import area_of, centroid, without_straight_points
from booklet.kit.records import Mutable, Record, field
from booklet.pattern import Direction

Label = tuple[object, ...]


class Motion(Record):
    """How one part is laid on another: turned clockwise by whole degrees about (0, 0), then moved."""

    turn: int
    by: Point


class _Looks(Mutable):
    """A part as it is compared: its centre of area, and its pieces by what else tells them."""

    centre: Point
    pieces: dict[Label, list[LaidPiece]] = field(default_factory=dict)


def motion(one: Sequence[LaidPiece], other: Sequence[LaidPiece], turns: Direction) -> Motion | None:
    """The least turn that lays `one` on `other`, piece on piece of the same cloth; None if none does, or
    none that its prints allow."""
    if len(one) != len(other):
        return None
    first, second = _looks(one), _looks(other)
    if {k: len(v) for k, v in first.pieces.items()} != {
        k: len(v) for k, v in second.pieces.items()
    }:
        return None
    for turn in sorted(set(_turns(first, second))):
        if _allowed(turn, turns) and _lies_on(first, second, turn):
            return Motion(turn, minus(second.centre, turn_point(first.centre, turn)))
    return None


def _corners(piece: LaidPiece) -> tuple[Point, ...]:
    """The points that tell a piece: without those on its straight sides, of which a neighbour may have made some."""
    return without_straight_points(piece.outline.points)


def _allowed(turn: int, turns: Direction) -> bool:
    """Whether what is cut from prints may be turned so."""
    return {Direction.ANY: True, Direction.STRIPE: turn % 180 == 0, Direction.ONE_WAY: turn == 0}[
        turns
    ]


def _looks(part: Sequence[LaidPiece]) -> _Looks:
    whole = sum(area_of(piece.outline.points) for piece in part)
    middles = [(centroid(p.outline.points), area_of(p.outline.points) / whole) for p in part]
    made = _Looks((sum(m[0] * s for m, s in middles), sum(m[1] * s for m, s in middles)))
    for piece in part:
        label = (
            piece.fabric,
            piece.motif,
            piece.grain is None,
            len(_corners(piece)),
        )
        made.pieces.setdefault(label, []).append(piece)
    return made


def _turns(first: _Looks, second: _Looks) -> Iterator[int]:
    """The whole degrees by which the rarest pieces of one may come to lie on those of the other."""
    label = min(first.pieces, key=lambda label: (len(first.pieces[label]), repr(label)))
    arms = [minus(p, first.centre) for p in _corners(first.pieces[label][0])]
    arm = max(arms, key=lambda p: round(math.hypot(*p), 6))
    for piece in second.pieces[label]:
        for point in _corners(piece):
            there = minus(point, second.centre)
            if abs(math.hypot(*there) - math.hypot(*arm)) < SAME_LENGTH:
                angle = tidy_angle(bearing(there) - bearing(arm))
                if abs(angle - round(angle)) < 1e3 * WHOLE:
                    yield round(angle) % 360


def _lies_on(first: _Looks, second: _Looks, turn: int) -> bool:
    """Whether every piece, turned about the centre, lies on one of the other part."""
    return all(
        any(_covers(a, b, first.centre, second.centre, turn) for b in second.pieces[label])
        for label, pieces in first.pieces.items()
        for a in pieces
    )


def _covers(a: LaidPiece, b: LaidPiece, centre: Point, other: Point, turn: int) -> bool:
    """Whether piece a, turned about one centre and moved to the other, has the corners and the grain of b."""
    if a.grain is not None and b.grain is not None and not same_angle(a.grain + turn, b.grain, 180):
        return False
    there = _corners(b)
    here = (plus(other, turn_point(minus(p, centre), turn)) for p in _corners(a))
    return all(any(math.dist(p, q) < 10 * SAME_LENGTH for q in there) for p in here)
