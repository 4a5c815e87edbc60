"""Floor 1, crafts: the triangles that squares and rectangles are cut into, and the fewest cuts that give those wanted.

Seen from the right side, with the length of the cloth (and so the top of its print) up. A print with an up
binds each triangle to its place in the cut; stripes may be turned end for end; other cloth as its shape allows.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from enum import Enum
from functools import cache

from booklet.kit.outlines.near import SAME_LENGTH
from booklet.kit.outlines.plane import Point, box_of


class Diagonal(Enum):
    """The second cut of a square or a rectangle: from bottom left to top right, from top left to bottom
    right, or both."""

    RISING = "rising"
    FALLING = "falling"
    BOTH = "both"


class Wedge(Enum):
    """A triangle by its place in the cut: the corner in which a half has its right angle, the side that is
    the long side of a quarter."""

    TOP_LEFT = "top left"
    BOTTOM_RIGHT = "bottom right"
    TOP_RIGHT = "top right"
    BOTTOM_LEFT = "bottom left"
    TOP = "top"
    RIGHT = "right"
    BOTTOM = "bottom"
    LEFT = "left"

    @property
    def diagonal(self) -> Diagonal:
        """The second cut that gives this triangle."""
        return next(diagonal for diagonal, wedges in WEDGES.items() if self in wedges)

    @property
    def quarter_turned(self) -> Wedge:
        """Where the triangle lies after a quarter turn of the cut, clockwise."""
        return _TURNED[(_TURNED.index(self) + 2) % 8]

    @property
    def reversed(self) -> Wedge:
        """Where the triangle lies in the mirror image of the cut, left for right."""
        return _MIRRORED.get(self, self)


WEDGES = {
    Diagonal.RISING: (Wedge.TOP_LEFT, Wedge.BOTTOM_RIGHT),
    Diagonal.FALLING: (Wedge.TOP_RIGHT, Wedge.BOTTOM_LEFT),
    Diagonal.BOTH: (Wedge.TOP, Wedge.RIGHT, Wedge.BOTTOM, Wedge.LEFT),
}
_TURNED = (
    Wedge.TOP_LEFT, Wedge.TOP, Wedge.TOP_RIGHT, Wedge.RIGHT,
    Wedge.BOTTOM_RIGHT, Wedge.BOTTOM, Wedge.BOTTOM_LEFT, Wedge.LEFT,
)  # fmt: skip
_MIRRORED = {
    Wedge.TOP_LEFT: Wedge.TOP_RIGHT,
    Wedge.TOP_RIGHT: Wedge.TOP_LEFT,
    Wedge.BOTTOM_LEFT: Wedge.BOTTOM_RIGHT,
    Wedge.BOTTOM_RIGHT: Wedge.BOTTOM_LEFT,
    Wedge.LEFT: Wedge.RIGHT,
    Wedge.RIGHT: Wedge.LEFT,
}
Gives = tuple[tuple[Wedge, ...], ...]
"""For each cut the triangles it gives."""


def wedge_of(points: Sequence[Point]) -> Wedge:
    """The place of a right triangle, its legs or its long side level, in the box about it."""
    left, top, right, bottom = box_of(points)
    corners = {
        Wedge.TOP_LEFT: (left, top),
        Wedge.TOP_RIGHT: (right, top),
        Wedge.BOTTOM_RIGHT: (right, bottom),
        Wedge.BOTTOM_LEFT: (left, bottom),
    }
    here = [wedge for wedge, corner in corners.items() if _is_among(corner, points)]
    if len(here) == 3:  # the right angle lies opposite the corner that is not there
        (missing,) = corners.keys() - set(here)
        return missing.quarter_turned.quarter_turned
    one, other = (_TURNED.index(wedge) for wedge in here)
    between = (one + other) // 2 if other - one == 2 else 7
    return _TURNED[between]


def wedge_outline(wedge: Wedge, cut: Sequence[Point]) -> tuple[Point, ...]:
    """The triangle in a cut (a rectangle with level sides), clockwise."""
    left, top, right, bottom = box_of(cut)
    middle = ((left + right) / 2, (top + bottom) / 2)
    around = ((left, top), (right, top), (right, bottom), (left, bottom))
    place = _TURNED.index(wedge)
    if place % 2:  # a quarter: its long side, and the middle
        return around[place // 2], around[(place // 2 + 1) % 4], middle
    return around[place // 2 - 1], around[place // 2], around[(place // 2 + 1) % 4]


def wedge_cuts(wanted: Mapping[Wedge, int], turns: int) -> dict[Diagonal, Gives]:
    """The fewest cuts that give so many of each triangle, by their second cut.

    `turns` is in how many ways a cut may lie: 1, 2 (end for end too) or 4. Every cut gives each of its
    triangles once, so that the cuts of one kind are as many as the triangle wanted most needs, those
    being counted together that are alike when turned; cuts of different kinds cannot help each other.
    """
    alike: dict[Wedge, int] = {}
    for wedge, count in wanted.items():
        place = _least_turned(wedge, turns)
        alike[place] = alike.get(place, 0) + count
    found: dict[Diagonal, Gives] = {}
    for diagonal, wedges in WEDGES.items():
        rounds: list[tuple[Wedge, ...]] = []
        left = {place: n for place, n in alike.items() if place in wedges and n > 0}
        while any(left.values()):
            rounds.append(_one_cut(wedges, left, turns))
        if rounds:
            found[diagonal] = tuple(rounds)
    return found


def _one_cut(wedges: Iterable[Wedge], left: dict[Wedge, int], turns: int) -> tuple[Wedge, ...]:
    """What one cut gives of what is left to give, which is taken off."""
    given = []
    for wedge in wedges:
        place = _least_turned(wedge, turns)
        if left.get(place, 0) > 0:
            left[place] -= 1
            given.append(wedge)
    return tuple(given)


@cache
def _least_turned(wedge: Wedge, turns: int) -> Wedge:
    """The one that stands for all triangles that are alike when the cut is turned."""
    order = list(Wedge)
    ways = [wedge]
    for _ in range(3):
        ways.append(ways[-1].quarter_turned)
    return min(ways[:: 4 // turns], key=order.index)


def _is_among(corner: Point, points: Iterable[Point]) -> bool:
    return any(
        abs(corner[0] - x) < SAME_LENGTH and abs(corner[1] - y) < SAME_LENGTH for x, y in points
    )
