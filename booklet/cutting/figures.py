"""Floor 7: what a patch is to a rotary cutter. Recognised from its geometry, however it was written.

A figure lists the directions (degrees clockwise from straight up) that may lie along the strip.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from booklet.kit.alike import same_angle
from booklet.kit.near import SAME_LENGTH
from booklet.kit.plane import Point, angle_up, extent, turn_point
from booklet.kit.polygon import edges, without_straight_points


class Form(Enum):
    """The forms that have a rotary method of their own."""

    SQUARE = "square"
    RECTANGLE = "rectangle"
    RIGHT_ISOSCELES = "right isosceles triangle"
    RIGHT_TRIANGLE = "right triangle"
    ISOSCELES = "isosceles triangle"
    DIAMOND = "diamond"
    PARALLELOGRAM = "parallelogram"
    TRAPEZOID = "trapezoid"
    KITE = "kite"
    HEXAGON = "hexagon"
    OCTAGON = "octagon"
    OTHER = "other"


@dataclass(frozen=True, slots=True)
class Figure:
    """A recognised outline.

    `sizes` are finished inches: the side of a square; width and height of a rectangle (the first along
    `along[0]`); the legs of a right triangle; base and height of an isosceles triangle or a
    parallelogram; base, top and height of a trapezoid; length and width of a kite; the side of a regular
    polygon. `angle` is the acute angle of the slanted sides to the strip, None where all is square.
    """

    form: Form
    corners: tuple[Point, ...]
    sizes: tuple[float, ...]
    along: tuple[float, ...]
    angle: float | None = None


def recognise(points: Sequence[Point], straight: bool = True) -> Figure:
    """The figure of a clockwise outline; a curved one (`straight` false) is OTHER."""
    corners = without_straight_points(points)
    first = angle_up(corners[0], corners[1])
    if straight:
        match len(corners):
            case 3:
                return _triangle(corners)
            case 4:
                return _four_sided(corners)
            case 6 | 8:
                if _is_regular(corners):
                    form = Form.HEXAGON if len(corners) == 6 else Form.OCTAGON
                    side = math.dist(corners[0], corners[1])
                    ways = _directions(corners)[: len(corners) // 2]
                    return Figure(form, corners, (side,), ways, 60.0 if len(corners) == 6 else 45.0)
    return Figure(Form.OTHER, corners, (), (first,))


def laid(points: Sequence[Point], direction: float) -> tuple[Point, ...]:
    """The outline turned so that `direction` runs along the strip (to the right), at the origin."""
    return at_origin([turn_point(point, 90.0 - direction) for point in points])


def at_origin(points: Sequence[Point]) -> tuple[Point, ...]:
    """The outline moved so that its bounding box starts at (0, 0)."""
    left, top = min(p[0] for p in points), min(p[1] for p in points)
    return tuple((x - left, y - top) for x, y in points)


def mirrored(points: Sequence[Point]) -> tuple[Point, ...]:
    """The outline mirrored left-right at the origin, still clockwise."""
    return at_origin([(-x, y) for x, y in reversed(points)])


def half_turned(points: Sequence[Point]) -> tuple[Point, ...]:
    """The outline turned by 180 degrees, at the origin."""
    return at_origin([(-x, -y) for x, y in points])


def slants(points: Sequence[Point]) -> bool:
    """Whether no side of an outline is level or upright."""
    sides = edges(points)
    return all(min(abs(bx - ax), abs(by - ay)) > SAME_LENGTH for (ax, ay), (bx, by) in sides)


def _sides(corners: Sequence[Point]) -> list[float]:
    return [math.dist(a, b) for a, b in edges(corners)]


def _directions(corners: Sequence[Point]) -> tuple[float, ...]:
    return tuple(angle_up(a, b) for a, b in edges(corners))


def _near(a: float, b: float) -> bool:
    return abs(a - b) < SAME_LENGTH


def _is_regular(corners: Sequence[Point]) -> bool:
    sides, ways = _sides(corners), _directions(corners)
    turn = 360 / len(corners)
    return all(_near(side, sides[0]) for side in sides) and all(
        same_angle(ways[i] - ways[i - 1], turn, 360) for i in range(len(ways))
    )


def _triangle(corners: tuple[Point, ...]) -> Figure:
    sides, ways = _sides(corners), _directions(corners)
    for i in range(3):  # side i and the next meet in corner i + 1
        j = (i + 1) % 3
        if same_angle(ways[i] - ways[j], 90, 180):
            form = Form.RIGHT_ISOSCELES if _near(sides[i], sides[j]) else Form.RIGHT_TRIANGLE
            return Figure(form, corners, (sides[i], sides[j]), (ways[i], ways[j]), None)
    for i in range(3):
        j, k = (i + 1) % 3, (i + 2) % 3
        if _near(sides[j], sides[k]):
            height = math.sqrt(sides[j] ** 2 - (sides[i] / 2) ** 2)
            every = _near(sides[i], sides[j])
            along = ways if every else (ways[i],)
            foot = math.degrees(math.atan2(height, sides[i] / 2))
            return Figure(Form.ISOSCELES, corners, (sides[i], height), along, foot)
    return Figure(Form.OTHER, corners, (), (ways[sides.index(max(sides))],))


def _four_sided(corners: tuple[Point, ...]) -> Figure:
    sides, ways = _sides(corners), _directions(corners)
    level = [same_angle(ways[i], ways[i + 2], 180) for i in range(2)]
    square = same_angle(ways[0] - ways[1], 90, 180)
    if all(level):
        if square:
            form = Form.SQUARE if _near(sides[0], sides[1]) else Form.RECTANGLE
            return Figure(form, corners, (sides[0], sides[1]), (ways[0],))
        long = 0 if sides[0] >= sides[1] - SAME_LENGTH else 1
        angle = _acute(ways[0] - ways[1])
        form = Form.DIAMOND if _near(sides[0], sides[1]) else Form.PARALLELOGRAM
        height = sides[1 - long] * math.sin(math.radians(angle))
        return Figure(form, corners, (sides[long], height), (ways[long], ways[1 - long]), angle)
    if any(level):
        i = 0 if level[0] else 1
        base, top = max(sides[i], sides[i + 2]), min(sides[i], sides[i + 2])
        slant = _acute(ways[i] - ways[i + 1])
        height = sides[i + 1] * math.sin(math.radians(slant))
        return Figure(Form.TRAPEZOID, corners, (base, top, height), (ways[i],), slant)
    return _kite(corners, sides) or Figure(Form.OTHER, corners, (), (ways[0],))


def _kite(corners: tuple[Point, ...], sides: list[float]) -> Figure | None:
    for i in range(2):  # the axis runs from corner i to the opposite one
        if _near(sides[i - 1], sides[i]) and _near(sides[i + 1], sides[(i + 2) % 4]):
            axis = angle_up(corners[i], corners[i + 2])
            turned = laid(corners, axis)
            length, width = extent(turned)
            return Figure(Form.KITE, corners, (length, width), (axis + 90, axis))
    return None


def _acute(degrees: float) -> float:
    angle = degrees % 180
    return min(angle, 180 - angle)
