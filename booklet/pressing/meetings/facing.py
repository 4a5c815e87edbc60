"""Floor 5: which seams face each other across a line of sewing.

Right sides together, the cloth of one side lies mirrored upon the other: seams at the same angle to the
line come to lie on each other, and nest where their allowances lie opposite ways, which is the same way
round the point they end at. With as many on one side as on the other they face in order of their
angles; else each of the fewer faces the one nearest in angle.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from booklet.kit.outlines.plane import Point

Ray = tuple[str, Point]  # a seam and the unit direction in which it leaves the point


def facing(along: Point, one: Sequence[Ray], other: Sequence[Ray]) -> tuple[tuple[str, str], ...]:
    """The pairs of seams, one from either side of a line along `along`, that face each other."""
    first, second = _by_angle(along, one), _by_angle(along, other)
    if len(first) == len(second):
        return tuple((a, b) for (_, a), (_, b) in zip(first, second, strict=True))
    if len(first) < len(second):
        return tuple((a, _nearest(angle, second)) for angle, a in first)
    return tuple((_nearest(angle, first), b) for angle, b in second)


def _by_angle(along: Point, rays: Sequence[Ray]) -> list[tuple[float, str]]:
    """(angle to the line, seam), the smallest angle first."""
    return sorted(
        (round(math.acos(max(-1.0, min(1.0, along[0] * x + along[1] * y))), 6), seam)
        for seam, (x, y) in rays
    )


def _nearest(angle: float, rays: list[tuple[float, str]]) -> str:
    return min(rays, key=lambda ray: (abs(ray[0] - angle), ray))[1]
