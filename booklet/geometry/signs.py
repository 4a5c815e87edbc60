"""Floor 3: an outline as sides and turnings, by which congruent outlines are known."""

from __future__ import annotations

import math
from dataclasses import dataclass

from booklet.geometry.tiling import Outline
from booklet.kit.near import SAME_ANGLE, SAME_LENGTH
from booklet.kit.plane import Point, angle_up, tidy_angle, turning
from booklet.kit.polygon import without_straight_points


@dataclass(frozen=True, slots=True)
class Sign:
    """An outline as side lengths, turnings at corners and directions of sides, from its first point."""

    points: tuple[Point, ...]
    lengths: tuple[float, ...]
    turnings: tuple[float, ...]
    up: tuple[float, ...]

    @classmethod
    def of(cls, outline: Outline) -> Sign:
        """The sign of an outline."""
        points = without_straight_points(outline.points)
        n = len(points)
        after = [points[(i + 1) % n] for i in range(n)]
        return cls(
            points,
            tuple(math.dist(p, q) for p, q in zip(points, after, strict=True)),
            tuple(turning(points[i - 1], points[i], after[i]) for i in range(n)),
            tuple(angle_up(p, q) for p, q in zip(points, after, strict=True)),
        )

    def key(self) -> tuple[tuple[float, float], ...]:
        """A rounded form: equal keys mean congruent outlines with the same first point."""
        return tuple(
            (round(a, 5), round(b, 4)) for a, b in zip(self.lengths, self.turnings, strict=True)
        )

    def turns_onto(self, other: Sign) -> list[float]:
        """The angles by which turning this outline gives the other, least first; empty if none."""
        n = len(self.points)
        if len(other.points) != n:
            return []
        found = set()
        for start in range(n):
            if all(
                abs(self.lengths[i] - other.lengths[(i + start) % n]) <= SAME_LENGTH
                and abs(self.turnings[i] - other.turnings[(i + start) % n]) <= SAME_ANGLE
                for i in range(n)
            ):
                found.add(tidy_angle(other.up[start] - self.up[0]))
        return sorted(found)
