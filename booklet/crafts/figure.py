"""Floor 1, crafts: an outline as forms see it: its corners, sides, angles and directions."""

from __future__ import annotations

import math
from collections.abc import Sequence

from booklet.kit.outlines.alike import Turn, same_angle
from booklet.kit.outlines.near import DRAWN, SAME_ANGLE
from booklet.kit.outlines.plane import Point, angle_up, mean, tidy_angle, turning
from booklet.kit.outlines.polygon import edges, without_straight_points
from booklet.kit.records import Record

Points = tuple[Point, ...]


class FlatOutline(Record, kw_only=True):
    """A clockwise outline without the points at which it goes straight on.

    Side i runs from corner i; `sides` are the lengths, `angles` the inner angles in degrees, `ways` the
    directions of the sides, degrees clockwise from straight up. A curved outline has its `lines` instead: every
    side as drawn, a line of points.
    """

    corners: Points
    sides: tuple[float, ...]
    angles: tuple[float, ...]
    ways: tuple[float, ...]
    lines: tuple[Points, ...] = ()

    @property
    def count(self) -> int:
        """How many straight sides it has; 0 where a side is curved."""
        return 0 if self.lines else len(self.corners)

    @property
    def is_regular(self) -> bool:
        """Whether all sides and all angles are equal."""
        sides, turn = self.sides, 180 - 360 / len(self.sides)
        return max(sides) - min(sides) < DRAWN and all(
            same_angle(angle, turn, 360, self.slack(n)) for n, angle in enumerate(self.angles)
        )

    @property
    def is_hollow(self) -> bool:
        """Whether a corner points inward."""
        return max(self.angles) > 180

    def is_right(self, corner: int) -> bool:
        """Whether a corner is a right angle."""
        return same_angle(self.angles[corner], 90, 360, self.slack(corner))

    def is_parallel(self, one: int, other: int) -> bool:
        """Whether two sides run parallel."""
        within = max(self._slant_of(one), self._slant_of(other))
        return same_angle(self.ways[one], self.ways[other], 180, SAME_ANGLE + within)

    def slack(self, corner: int) -> float:
        """By how much an angle may be off, degrees, as near as its sides are drawn."""
        return SAME_ANGLE + max(self._slant_of(corner - 1), self._slant_of(corner))

    def _slant_of(self, side: int) -> float:
        """By how much a side is turned, degrees, where its ends are as far off as they may be drawn."""
        return math.degrees(DRAWN / self.sides[side])

    def slant(self, one: int, other: int) -> float:
        """The acute angle between two sides, degrees."""
        angle = (self.ways[one] - self.ways[other]) % 180
        return min(angle, 180 - angle)

    def key(self) -> tuple[tuple[float, float], ...]:
        """A rounded form: equal keys mean congruent outlines with the same first corner."""
        return tuple(
            (round(side, 5), round(angle, 4))
            for side, angle in zip(self.sides, self.angles, strict=True)
        )

    def turns_onto(self, other: FlatOutline) -> list[float]:
        """The angles by which turning this outline lays it on the other, as near as both were drawn, least first; empty if
        none does."""
        n, found = len(self.corners), set[float]()
        for start in range(n if len(other.corners) == n else 0):
            if all(near(self.sides[i], other.sides[(i + start) % n]) for i in range(n)):
                long = self.longest
                turn = tidy_angle(other.ways[(long + start) % n] - self.ways[long])
                if self._lies_on(other, start, turn):
                    found.add(turn)
        return sorted(found)

    def _lies_on(self, other: FlatOutline, start: int, turn: float) -> bool:
        """Whether every corner comes to lie on one of the other when turned, corner 0 on its corner `start`."""
        cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))
        middle = Turn(mean(self.corners), cos, sin, mean(other.corners))
        there = (*other.corners[start:], *other.corners[:start])
        return all(
            math.dist(middle(p), q) <= DRAWN for p, q in zip(self.corners, there, strict=True)
        )

    @property
    def longest(self) -> int:
        """The first of the longest sides."""
        return max(range(len(self.sides)), key=lambda i: (round(self.sides[i], 6), -i))


def figure_of(points: Sequence[Point]) -> FlatOutline:
    """The figure of a closed clockwise outline of straight sides."""
    corners = without_straight_points(points)
    around = zip((corners[-1], *corners), corners, (*corners[1:], corners[0]), strict=False)
    return FlatOutline(
        corners=corners,
        sides=tuple(math.dist(a, b) for a, b in edges(corners)),
        angles=tuple(180 - turning(*three) for three in around),
        ways=tuple(angle_up(a, b) for a, b in edges(corners)),
    )


def curved_figure(lines: Sequence[Sequence[Point]]) -> FlatOutline:
    """The figure of an outline of which a side is curved; each side from its start to its end."""
    drawn = tuple(tuple(line) for line in lines)
    return FlatOutline(
        corners=tuple(line[0] for line in drawn), sides=(), angles=(), ways=(), lines=drawn
    )


def near(a: float, b: float) -> bool:
    """Whether two lengths of pieces are one."""
    return abs(a - b) <= DRAWN


def kite_axis(figure: FlatOutline) -> int | None:
    """Of four sides the corner between two equal ones whose opposite corner is one too."""
    s = figure.sides
    for i in (0, 1):
        if near(s[i - 1], s[i]) and near(s[(i + 1) % 4], s[(i + 2) % 4]):
            return i
    return None


def right_corner(figure: FlatOutline) -> tuple[int, int] | None:
    """Of three sides the two that meet in a right angle, in their order; None if none do."""
    for i in range(3):
        j = (i + 1) % 3
        if figure.is_right(j):
            return i, j
    return None
