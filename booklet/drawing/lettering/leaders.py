"""Floor 10: letters in pieces, and beside the picture at the end of a leader for kinds of pieces too small for theirs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from booklet.drawing.lettering.labels import letter_in
from booklet.drawing.scene import Anchoring, Ink, Item, Label, Line
from booklet.kit.outlines.near import NOISE
from booklet.kit.outlines.plane import Box, Point, plus
from booklet.kit.outlines.polygon import depth, edges

OUT = 2.2  # mm from the rim to the end of a leader
APART = 3.6  # mm between two letters below each other
STEP = 0.5  # mm between heights that are tried
INWARD = 1.5  # mm that a leader reaches into a piece that has room
LEAST = 0.2  # mm round its end that are its own piece
SIDE = 7.0  # mm that letters beside a picture take

Named = tuple[str, str, Sequence[Point]]
"""A piece: its letter, its cloth, and what is seen of it in mm."""


def letters_on(pieces: Iterable[Named], rim: Box) -> list[Item]:
    """A letter in every piece that has room; else one for each kind, at the end of a leader beside the `rim`."""
    items: list[Item] = []
    shown: set[tuple[str, str]] = set()
    hidden: dict[tuple[str, str], list[Sequence[Point]]] = {}
    for letter, cloth, points in pieces:
        label = letter_in(points, letter, 9.5)
        if label is not None:
            items.append(label)
            shown.add((letter, cloth))
        else:
            hidden.setdefault((letter, cloth), []).append(points)
    ways = [(kind[0], _ways(there, rim)) for kind, there in hidden.items() if kind not in shown]
    for letter, way in _chosen(ways):
        items += _led(letter, way, rim)
    return items


Way = tuple[bool, Point]
"""A leader: whether it goes to the right, and the point in the piece from which it does."""


Choice = tuple[str, list[Way]]


def _chosen(ways: list[Choice]) -> list[tuple[str, Way]]:
    """A leader for as many letters as have room. Those with the fewest to choose from come first, and whoever goes
    without comes first the next time."""
    order = sorted(ways, key=lambda each: len(each[1]))
    best: list[tuple[str, Way]] = []
    for _ in ways:
        taken: list[tuple[str, Way]] = []
        without: list[Choice] = []
        for letter, to_choose in order:
            free = (w for w in to_choose if not any(_in_the_way(w, other) for _, other in taken))
            way = next(free, None)
            if way is None:
                without.append((letter, to_choose))
            else:
                taken.append((letter, way))
        best = max(best, taken, key=len)
        if not without:
            break
        order = [*without, *(each for each in order if each not in without)]
    return best


def _ways(outlines: Iterable[Sequence[Point]], rim: Box) -> list[Way]:
    """The level leaders that pieces may have: the shortest first, those from a broad place before those from a narrow one."""
    found: list[tuple[float, Way]] = []
    for points in outlines:
        for n in range(int((rim[3] - rim[1]) / STEP)):
            y = rim[1] + (n + 0.5) * STEP
            for left, right in _across(points, y):
                inward = min((right - left) / 2, INWARD)
                for way in ((False, (left + inward, y)), (True, (right - inward, y))):
                    room = depth(way[1], points)
                    long = rim[2] - way[1][0] if way[0] else way[1][0] - rim[0]
                    if room > LEAST:
                        found.append((long - min(room, INWARD), way))
    return [way for _, way in sorted(found)]


def _across(points: Sequence[Point], y: float) -> Iterator[tuple[float, float]]:
    """Where a level line runs within an outline: from and to."""
    met = sorted(
        a[0] + (b[0] - a[0]) * (y - a[1]) / (b[1] - a[1])
        for a, b in edges(points)
        if (a[1] > y) != (b[1] > y)
    )
    yield from zip(met[::2], met[1::2], strict=True)


def _in_the_way(way: Way, other: Way) -> bool:
    """Whether two leaders are too near: their letters at one side, or one's point on the other's line."""
    (right, at), (other_right, there) = way, other
    level = abs(at[1] - there[1])
    meet = at[0] < there[0] if right and not other_right else at[0] > there[0]
    return level < APART - NOISE if right == other_right else level < STEP and meet


def _led(letter: str, way: Way, rim: Box) -> list[Item]:
    """A letter beside the rim with its leader."""
    right, at = way
    end = (rim[2] + OUT, at[1]) if right else (rim[0] - OUT, at[1])
    place = plus(end, (0.6 if right else -0.6, 0))
    anchor: Anchoring = "start" if right else "end"
    return [
        Line(points=(at, end), ink=Ink.LEADER, halo=True),
        Label(at=place, text=letter, size=8.0, anchor=anchor, bold=True),
    ]
