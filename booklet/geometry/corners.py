"""Floor 3: the corners of every shape of the format from its measures, in inches.

Corners come in the order of the format's table, clockwise; x runs right, y down. Where the origin lies is
settled elsewhere.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from booklet.kit.plane import Point, cosine, rectangle, sine
from booklet.measure import Length
from booklet.pattern import Shape, ShapeKind

ROOT_3 = math.sqrt(3)
SMALLEST = 1e-3  # inches: no side and no measure of a patch is shorter


class ShapeError(ValueError):
    """Measures that make no shape; the message is a lower-case sentence for the reader."""


class Measures:
    """The measures of a shape by name, in inches; a missing or impossible one is a ShapeError."""

    def __init__(self, shape: Shape, unit: Length) -> None:
        self._shape, self._unit = shape, unit

    def length(self, name: str, default: float | None = None) -> float:
        """A length greater than nothing."""
        extent = self._shape.extents.get(name)
        value = default if extent is None else extent.inches(self._unit)
        if value is None:
            raise ShapeError(f"a {self._shape.kind.value} needs `{name}`")
        if not SMALLEST <= value < math.inf:
            raise ShapeError(f"the `{name}` of a {self._shape.kind.value} must be greater than 0")
        return value

    def shift(self, name: str) -> float:
        """A length that may be nothing or negative."""
        extent = self._shape.extents.get(name)
        return 0.0 if extent is None else extent.inches(self._unit)

    def angle(self, default: float | None = None) -> float:
        """The angle of the shape, between 0 and 180 degrees."""
        value = self._shape.numbers.get("angle", default)
        if value is None:
            raise ShapeError(f"a {self._shape.kind.value} needs `angle`")
        if not 0 < float(value) < 180:
            raise ShapeError(
                f"the `angle` of a {self._shape.kind.value} must lie between 0 and 180 degrees, "
                f"not {float(value):g}"
            )
        return float(value)

    def count(self) -> int:
        """The number of sides of a regular polygon."""
        value = self._shape.numbers.get("sides")
        if value is None:
            raise ShapeError("a regular polygon needs `sides`")
        if float(value) != int(value) or not 3 <= value <= 360:
            raise ShapeError(
                f"the `sides` of a regular polygon are a whole number from 3, not {float(value):g}"
            )
        return int(value)


def _square(m: Measures) -> tuple[Point, ...]:
    return rectangle(0.0, 0.0, m.length("side"), m.length("side"))


def _rectangle(m: Measures) -> tuple[Point, ...]:
    return rectangle(0.0, 0.0, m.length("width"), m.length("height"))


def _right_triangle(width: float, height: float) -> tuple[Point, ...]:
    return ((0, 0), (width, height), (0, height))


def _half_square(m: Measures) -> tuple[Point, ...]:
    return _right_triangle(m.length("side"), m.length("side"))


def _any_right(m: Measures) -> tuple[Point, ...]:
    return _right_triangle(m.length("width"), m.length("height"))


def _gable(base: float, height: float) -> tuple[Point, ...]:
    return ((base / 2, 0), (base, height), (0, height))


def _quarter_square(m: Measures) -> tuple[Point, ...]:
    return _gable(m.length("base"), m.length("base") / 2)


def _equilateral(m: Measures) -> tuple[Point, ...]:
    return _gable(m.length("side"), m.length("side") * ROOT_3 / 2)


def _isosceles(m: Measures) -> tuple[Point, ...]:
    return _gable(m.length("base"), m.length("height"))


def _diamond(m: Measures) -> tuple[Point, ...]:
    half = m.angle() / 2
    x, y = m.length("side") * sine(half), m.length("side") * cosine(half)
    return ((0, -y), (x, 0), (0, y), (-x, 0))


def _parallelogram(m: Measures) -> tuple[Point, ...]:
    base, height, shift = m.length("base"), m.length("height"), m.shift("shift")
    return ((shift, 0), (shift + base, 0), (base, height), (0, height))


def _symmetric(base: float, top: float, height: float) -> tuple[Point, ...]:
    return ((-top / 2, 0), (top / 2, 0), (base / 2, height), (-base / 2, height))


def _trapezoid(m: Measures) -> tuple[Point, ...]:
    return _symmetric(m.length("base"), m.length("top"), m.length("height"))


def _half_hexagon(m: Measures) -> tuple[Point, ...]:
    side = m.length("side")
    return _symmetric(2 * side, side, side * ROOT_3 / 2)


def _hexagon(m: Measures) -> tuple[Point, ...]:
    side = m.length("side")
    return tuple((side * sine(60 * k), -side * cosine(60 * k)) for k in range(6))


def _elongated_hexagon(m: Measures) -> tuple[Point, ...]:
    side = m.length("side")
    half = m.angle(default=90) / 2
    middle = m.length("middle", default=side)
    x, y = side * cosine(half), side * sine(half)
    half_middle = middle / 2
    return (
        (-half_middle, -y), (half_middle, -y), (half_middle + x, 0),
        (half_middle, y), (-half_middle, y), (-half_middle - x, 0),
    )  # fmt: skip


def _octagon(m: Measures) -> tuple[Point, ...]:
    s = m.length("side") / 2
    w = s * (1 + math.sqrt(2))
    return ((-s, -w), (s, -w), (w, -s), (w, s), (s, w), (-s, w), (-w, s), (-w, -s))


def _kite(m: Measures) -> tuple[Point, ...]:
    length, half, cross = m.length("length"), m.length("width") / 2, m.length("cross")
    return ((0, 0), (half, cross), (0, length), (-half, cross))


def _regular(m: Measures) -> tuple[Point, ...]:
    n = m.count()
    radius = m.length("side") / (2 * sine(180 / n))
    first = 0.0 if n % 2 else -180 / n  # the top corner, or the left one of two
    angles = (first + 360 * k / n for k in range(n))
    return tuple((radius * sine(a), -radius * cosine(a)) for a in angles)


CORNERS: dict[ShapeKind, Callable[[Measures], tuple[Point, ...]]] = {
    ShapeKind.SQUARE: _square,
    ShapeKind.RECTANGLE: _rectangle,
    ShapeKind.HALF_SQUARE: _half_square,
    ShapeKind.QUARTER_SQUARE: _quarter_square,
    ShapeKind.RIGHT_TRIANGLE: _any_right,
    ShapeKind.EQUILATERAL: _equilateral,
    ShapeKind.ISOSCELES: _isosceles,
    ShapeKind.DIAMOND: _diamond,
    ShapeKind.PARALLELOGRAM: _parallelogram,
    ShapeKind.TRAPEZOID: _trapezoid,
    ShapeKind.HALF_HEXAGON: _half_hexagon,
    ShapeKind.HEXAGON: _hexagon,
    ShapeKind.ELONGATED_HEXAGON: _elongated_hexagon,
    ShapeKind.OCTAGON: _octagon,
    ShapeKind.KITE: _kite,
    ShapeKind.REGULAR_POLYGON: _regular,
}
