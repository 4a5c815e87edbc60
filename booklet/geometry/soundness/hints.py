"""Floor 3: the next thing to do after a fault of the tiling, worked out where it can be."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import combinations

from booklet.geometry import overlay
from booklet.geometry.overlay import PieceIndex
from booklet.geometry.placing.placing import LaidPiece
from booklet.geometry.soundness.subdivision import Subdivision
from booklet.geometry.tiling import Outline, Side
from booklet.geometry.vectors import shifted
from booklet.geometry.words import figure, place_text
from booklet.kit.measure import Length
from booklet.kit.outlines.near import ONE_POINT
from booklet.kit.outlines.plane import Point, circle_through, length_of, minus, plus
from booklet.pattern import At

GENERAL = "move or resize one of them so that they only touch"
MOST_CORNERS = 8


def move_hint(
    pieces: Sequence[LaidPiece],
    parts: Subdivision,
    index: PieceIndex,
    pair: tuple[int, int],
    unit: Length,
) -> tuple[str, tuple[tuple[Point, ...], ...], int]:
    """Where to move the second of two overlapping pieces, or else the first, so that it meets a side of the other, its
    outline there, where such a place is found, and which of the pieces is to be changed."""
    first, second = pair
    a, b = parts.outlines[first], parts.outlines[second]
    if set(a.corners) == set(b.corners):
        return (
            f"take out `{pieces[second].id}`: it lies exactly on `{pieces[first].id}`",
            (),
            second,
        )
    if curves := _curve_hint(pieces, parts, (pair,), unit):
        return curves, (), second
    for other, one in (pair, pair[::-1]):
        placed = pieces[one].piece.placed
        if not isinstance(placed, At) or pieces[one].piece.ring is not None:
            continue
        for shift, side in _meetings(parts.outlines[other], parts.outlines[one]):
            moved = shifted(parts.outlines[one], shift)
            if _fits(moved, parts, index, one):
                at = (placed.position[0].inches(unit), placed.position[1].inches(unit))
                text = place_text(plus(at, shift), unit)
                hint = (
                    f"move `{pieces[one].id}` to `at: {text}`, where it meets side {side} "
                    f"of `{pieces[other].id}`"
                )
                return hint, (moved.points,), one
    return GENERAL, (), second


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


def fill_hint(
    gap: Sequence[Point], pieces: Sequence[LaidPiece], parts: Subdivision, unit: Length
) -> str:
    """How to close a gap: by curves that agree where it lies between two that do not, or by a piece with just these
    corners, where they are few and no curve runs along it."""
    if len(gap) > MOST_CORNERS:
        touching = [n for n, o in enumerate(parts.outlines) if set(o.corners) & set(gap)]
        curves = _curve_hint(pieces, parts, combinations(touching, 2), unit)
        return curves or "add a piece there, or move the pieces around it together"
    on_curves = {
        point for outline in parts.outlines for side in outline.sides for point in side.via
    }
    if on_curves.intersection(gap):
        return "add a piece there, or move the pieces around it together"
    corners = ", ".join(place_text(point, unit) for point in gap)
    return f"add a piece with `corners: [{corners}]`, or move the pieces around it together"


def _curve_hint(
    pieces: Sequence[LaidPiece],
    parts: Subdivision,
    pairs: Iterable[tuple[int, int]],
    unit: Length,
) -> str | None:
    """What to do where two curved sides of a pair begin and end at the same places and bend otherwise between."""
    for first, second in pairs:
        for one in parts.outlines[first].sides:
            for other in parts.outlines[second].sides:
                if not (one.via and other.via and _same_ends(one, other)):
                    continue
                names = f"`{pieces[first].id}`", f"`{pieces[second].id}`"
                mine, its = circle_through(one.points), circle_through(other.points)
                if mine is None or its is None or math.isclose(mine[1], its[1], rel_tol=1e-6):
                    return f"draw the curve between {names[0]} and {names[1]} alike in both"
                said = [figure(radius / float(unit)) for _, radius in (mine, its)]
                return (
                    f"give both curves one radius: the arc has a radius of `{said[0]}` in {names[0]}, "
                    f"a radius of `{said[1]}` in {names[1]}"
                )
    return None


def _same_ends(one: Side, other: Side) -> bool:
    """Whether two sides run against each other between the same two places."""
    there = math.dist(one.start, other.end) < ONE_POINT
    return there and math.dist(one.end, other.start) < ONE_POINT
