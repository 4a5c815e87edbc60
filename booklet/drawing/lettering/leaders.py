"""Floor 10: letters in pieces, and beside the picture at the end of a leader for kinds of pieces too small for theirs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from booklet.drawing.lettering.labels import letter_in
from booklet.drawing.scene import Anchoring, Ink, Item, Label, Line
from booklet.kit.near import NOISE
from booklet.kit.plane import Box, Point, plus
from booklet.kit.polygon import roomiest

OUT = 2.2  # mm from the rim to the end of a leader
APART = 3.6  # mm between two letters below each other
SIDE = 7.0  # mm that letters beside a picture take

Named = tuple[str, str, Sequence[Point]]
"""A piece: its letter, its cloth, and what is seen of it in mm."""


def letters_on(pieces: Iterable[Named], rim: Box) -> list[Item]:
    """A letter in every piece that has room; else one for each kind, at the end of a leader beside the `rim`."""
    items: list[Item] = []
    shown: set[tuple[str, str]] = set()
    hidden: dict[tuple[str, str], list[Point]] = {}
    for letter, cloth, points in pieces:
        label = letter_in(points, letter, 9.5)
        if label is not None:
            items.append(label)
            shown.add((letter, cloth))
        else:
            hidden.setdefault((letter, cloth), []).append(roomiest(points)[0])
    taken: dict[bool, list[float]] = {True: [], False: []}
    for kind, places in hidden.items():
        if kind not in shown:
            # from the piece nearest to a side, so that the leader crosses the fewest others
            at = min(
                places, key=lambda p: (round(min(p[0] - rim[0], rim[2] - p[0]), 3), p[1], p[0])
            )
            items += _led(kind[0], at, rim, taken)
    return items


def _led(letter: str, at: Point, rim: Box, taken: dict[bool, list[float]]) -> list[Item]:
    """A letter beside the rim with its leader to a point, at the nearest height that none of those `taken` at the right
    (True) or the left needs; nothing where both sides are full."""
    near = at[0] > (rim[0] + rim[2]) / 2
    free = [(near, y) for y in _free(at[1], rim, taken[near])]
    free = free or [(not near, y) for y in _free(at[1], rim, taken[not near])]
    if not free:
        return []
    right, y = min(free, key=lambda place: abs(place[1] - at[1]))
    taken[right].append(y)
    end = (rim[2] + OUT, y) if right else (rim[0] - OUT, y)
    place = plus(end, (0.6 if right else -0.6, 0))
    anchor: Anchoring = "start" if right else "end"
    return [
        Line(points=(at, end), ink=Ink.LEADER, halo=True),
        Label(at=place, text=letter, size=8.0, anchor=anchor, bold=True),
    ]


def _free(y: float, rim: Box, taken: Sequence[float]) -> list[float]:
    """The heights along the rim for a letter: that of its point, and next to others."""
    heights = [y, *(other + way * APART for other in taken for way in (1, -1))]
    return [
        height
        for height in heights
        if rim[1] <= height <= rim[3] and all(abs(height - o) > APART - NOISE for o in taken)
    ]
