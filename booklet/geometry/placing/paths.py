"""Floor 3: the commands of a path (M L H V A Q C Z, both cases) to an outline; curves become points.

A curve is cut at evenly spaced parameter values, their number found from sums that are the same in both
directions, so that two pieces that share a curve get the same points whichever way they run it.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable

from booklet.geometry.tiling import Outline, Side
from booklet.kit.bounds import MOST_LENGTH, MOST_LENGTH_TOLD
from booklet.kit.outlines.near import NOISE, ONE_POINT, WHOLE
from booklet.kit.outlines.path_data import Command, PathError
from booklet.kit.outlines.plane import Point

FLATNESS = 0.002  # inches between a curve and its chords, at most
LARGEST = 512  # parts of one curve


def path_line(commands: Iterable[Command], unit: float) -> tuple[Point, ...]:
    """The points along an open path, in inches; numbers are units of `unit` inches. Raises PathError for anything else."""
    sides = _sides(commands, unit)[0]
    points = (
        [sides[0].start, *(p for side in sides for p in (*side.via, side.end))] if sides else []
    )
    kept = [p for n, p in enumerate(points) if not n or math.dist(p, points[n - 1]) * unit > NOISE]
    if len(kept) < 2:
        raise PathError("this line leads nowhere")
    return tuple(_scaled(point, unit) for point in kept)


def path_outline(commands: Iterable[Command], unit: float) -> Outline:
    """The outline of one closed path, one side per command; numbers are units of `unit` inches.

    Raises PathError for anything else.
    """
    sides, at, first = _sides(commands, unit)
    if first is None:
        raise PathError("this outline is empty")
    return _closed(sides, at, first, unit)


def _sides(commands: Iterable[Command], unit: float) -> tuple[list[Side], Point, Point | None]:
    """The sides that the commands of one path draw, where the pen ends and where it began; still in units."""
    at: Point = (0.0, 0.0)
    first: Point | None = None
    sides: list[Side] = []
    closed = False
    for letter, numbers in commands:
        if closed:
            raise PathError(
                "the outline goes on after it is closed by `Z`: one closed path is needed"
            )
        kind = letter.upper()
        base = at if letter.islower() else (0.0, 0.0)
        if first is None and kind != "M":
            raise PathError("an outline begins with `M`, where the pen is set down")
        if kind == "M":
            if first is not None:
                raise PathError("the outline has two parts: one closed path is needed")
            at = first = (base[0] + numbers[0], base[1] + numbers[1])
        elif kind == "Z":
            closed = True
        else:
            side = _side(kind, at, base, numbers, unit)
            _guard(side, unit)
            at = side.end
            sides.append(side)
    return sides, at, first


def _guard(side: Side, unit: float) -> None:
    """Refuse what is larger than anything that is sewn, before more is made of it."""
    if not max(map(abs, side.end)) * unit <= MOST_LENGTH:
        raise PathError(f"this outline reaches beyond {MOST_LENGTH_TOLD}, further than any quilt")


def _closed(sides: list[Side], at: Point, first: Point, unit: float) -> Outline:
    """The outline in inches, with the closing side if the pen is not back where it began."""
    if math.dist(at, first) * unit > ONE_POINT:
        sides.append(Side(at, first))
    sides = [s for s in sides if s.via or math.dist(s.start, s.end) * unit > ONE_POINT]
    if len(sides) < 2 and not (sides and sides[0].via):
        raise PathError("this outline encloses nothing")
    joined = [  # every side begins exactly where the one before ends
        Side(sides[i - 1].end, s.end, s.via) for i, s in enumerate(sides)
    ]
    return Outline(
        tuple(
            Side(
                _scaled(s.start, unit), _scaled(s.end, unit), tuple(_scaled(p, unit) for p in s.via)
            )
            for s in joined
        )
    )


def _scaled(point: Point, unit: float) -> Point:
    return (point[0] * unit, point[1] * unit)


def _side(kind: str, at: Point, base: Point, n: tuple[float, ...], unit: float) -> Side:
    """The side that one drawing command makes, still in units."""
    if kind == "H":
        return Side(at, (base[0] + n[0], at[1]))
    if kind == "V":
        return Side(at, (at[0], base[1] + n[0]))
    if kind == "A":
        return _arc(at, (base[0] + n[5], base[1] + n[6]), n, unit)
    points = [(base[0] + x, base[1] + y) for x, y in zip(n[::2], n[1::2], strict=True)]
    if kind == "L":
        return Side(at, points[0])
    return _bezier([at, *points], unit)


def _bezier(controls: list[Point], unit: float) -> Side:
    """A quadratic or cubic curve cut evenly. A chord over 1/n strays at most |B''| / (8 n^2)."""
    degree = len(controls) - 1
    bend = max(
        math.hypot(a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1])
        for a, b, c in zip(controls, controls[1:], controls[2:], strict=False)
    )
    second = degree * (degree - 1) * bend * unit
    parts = _parts(math.sqrt(second / (8 * FLATNESS)))
    if second < NOISE:  # no bend: a straight side
        return Side(controls[0], controls[-1])
    via = tuple(_bezier_point(controls, k, parts) for k in range(1, parts))
    return Side(controls[0], controls[-1], via)


def _bezier_point(controls: list[Point], k: int, parts: int) -> Point:
    """The point at parameter k/parts by repeated halving of the way (de Casteljau)."""
    t, rest = k / parts, (parts - k) / parts
    points = controls
    while len(points) > 1:
        points = [
            (a[0] * rest + b[0] * t, a[1] * rest + b[1] * t) for a, b in itertools.pairwise(points)
        ]
    return points[0]


def _parts(needed: float) -> int:
    """A whole even number of parts, not shaken by float noise in what is needed."""
    half = max(2, math.ceil(needed / 2 - WHOLE))
    return min(LARGEST, 2 * half)


def _arc(at: Point, end: Point, n: tuple[float, ...], unit: float) -> Side:
    """An arc of a circle or ellipse cut evenly by angle; SVG 1.1 appendix F.6 gives its centre.

    A whole turn is cut into a multiple of 24 parts, so that arcs that meet at multiples of 15 degrees
    share their points.
    """
    rx, ry, tilt = abs(n[0]), abs(n[1]), math.radians(n[2])
    large, sweep = n[3] != 0, n[4] != 0
    if rx * unit < ONE_POINT or ry * unit < ONE_POINT or math.dist(at, end) * unit < ONE_POINT:
        return Side(at, end)
    c, s = math.cos(tilt), math.sin(tilt)
    dx, dy = (at[0] - end[0]) / 2, (at[1] - end[1]) / 2
    x, y = c * dx + s * dy, c * dy - s * dx
    stretch = max(1.0, math.hypot(x / rx, y / ry))  # radii too small to reach are made to reach
    rx, ry = rx * stretch, ry * stretch
    square = (rx * ry) ** 2 - (rx * y) ** 2 - (ry * x) ** 2
    factor = math.sqrt(max(0.0, square) / ((rx * y) ** 2 + (ry * x) ** 2))
    factor = -factor if large == sweep else factor
    cx, cy = factor * rx * y / ry, -factor * ry * x / rx
    centre = (c * cx - s * cy + (at[0] + end[0]) / 2, s * cx + c * cy + (at[1] + end[1]) / 2)
    begin = math.atan2((y - cy) / ry, (x - cx) / rx)
    angle = math.atan2((-y - cy) / ry, (-x - cx) / rx) - begin
    angle = angle % (2 * math.pi) if sweep else -((-angle) % (2 * math.pi))
    parts = _arc_parts(abs(angle), max(rx, ry) * unit)
    via = []
    for k in range(1, parts):
        along = begin + angle * k / parts
        u, v = rx * math.cos(along), ry * math.sin(along)
        via.append((centre[0] + c * u - s * v, centre[1] + s * u + c * v))
    return Side(at, end, tuple(via))


def _arc_parts(angle: float, radius: float) -> int:
    """How many parts an arc is cut into: a chord over an angle a strays by radius (1 - cos a/2)."""
    if radius <= FLATNESS:
        whole = 24
    else:
        whole = 24 * math.ceil(math.pi / math.acos(1 - FLATNESS / radius) / 24 - WHOLE)
    return max(2, math.ceil(whole * angle / (2 * math.pi) - WHOLE))
