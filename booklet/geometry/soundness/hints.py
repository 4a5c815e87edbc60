"""Floor 3: the next thing to do after a fault of the tiling, worked out where it can be."""

from __future__ import annotations

import math
from collections.abc import Sequence

from booklet.geometry import overlay
from booklet.geometry.overlay import PieceIndex
from booklet.geometry.placing.placing import LaidPiece
from booklet.geometry.soundness.subdivision import Subdivision
from booklet.geometry.tiling import Outline
from booklet.geometry.vectors import shifted
from booklet.geometry.words import place_text
from booklet.kit.near import ONE_POINT
from booklet.kit.plane import Point, length_of, minus, plus
from booklet.measure import Length
from booklet.pattern import At

GENERAL = "move or resize one of them so that they only touch"
MOST_CORNERS = 8


def move_hint(
    pieces: Sequence[LaidPiece],
    parts: Subdivision,
    index: PieceIndex,
    pair: tuple[int, int],
    unit: Length,
) -> tuple[str, tuple[tuple[Point, ...], ...]]:
    """Where to move the second of two overlapping pieces so that it meets a side of the first, and its outline
    there, where such a place is found."""
    first, second = pair
    a, b = parts.outlines[first], parts.outlines[second]
    if set(a.corners) == set(b.corners):
        return f"take out `{pieces[second].id}`: it lies exactly on `{pieces[first].id}`", ()
    placed = pieces[second].piece.placed
    if not isinstance(placed, At) or pieces[second].piece.ring is not None:
        return GENERAL, ()
    for shift, side in _meetings(a, b):
        moved = shifted(b, shift)
        if _fits(moved, parts, index, second):
            at = (placed.position[0].inches(unit), placed.position[1].inches(unit))
            text = place_text(plus(at, shift), unit)
            hint = (
                f"move `{pieces[second].id}` to `at: {text}`, where it meets side {side} "
                f"of `{pieces[first].id}`"
            )
            return hint, (moved.points,)
    return GENERAL, ()


def _meetings(a: Outline, b: Outline) -> list[tuple[Point, int]]:
    """(move of b, side of a) for all ways in which equal sides would meet, the shortest move first."""
    found = []
    for n, mine in enumerate(a.sides, 1):
        for own in b.sides:
            ahead, back = minus(mine.end, mine.start), minus(own.start, own.end)
            if (
                math.dist(ahead, back) < ONE_POINT
                and abs(length_of(mine.points) - length_of(own.points)) < ONE_POINT
            ):
                found.append((minus(mine.start, own.end), n))
    return sorted(found, key=lambda item: (round(math.dist(item[0], (0, 0)), 6), item[1]))


def _fits(moved: Outline, parts: Subdivision, index: PieceIndex, itself: int) -> bool:
    """Whether the moved piece overlaps no other piece and stays inside the border."""
    if (
        parts.border is not None
        and overlay.reach_beyond(moved.points, parts.border.points) > ONE_POINT
    ):
        return False
    return not index.overlaps_any(moved.points, besides=itself)


def fill_hint(gap: Sequence[Point], unit: Length) -> str:
    """How to close a gap: by a piece with just these corners, where they are few."""
    if len(gap) > MOST_CORNERS:
        return "add a piece there, or move the pieces around it together"
    corners = ", ".join(place_text(point, unit) for point in gap)
    return f"add a piece with `corners: [{corners}]`, or move the pieces around it together"
