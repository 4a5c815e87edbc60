"""Floor 3: says what an outline is (square, kite, elongated hexagon), from its geometry alone."""

from __future__ import annotations

import math
from dataclasses import dataclass

from booklet.geometry.tiling import Outline
from booklet.kit.alike import same_angle
from booklet.kit.near import DRAWN, SAME_ANGLE, SAME_LENGTH
from booklet.kit.plane import Point, angle_up, mean, turning
from booklet.kit.polygon import without_straight_points
from booklet.pattern import ShapeKind
from booklet.words import phrase

_SIDED = {
    3: phrase("triangle", context="patch"),
    4: phrase("four-sided patch", context="patch"),
    5: phrase("five-sided patch", context="patch"),
    6: phrase("six-sided patch", context="patch"),
    7: phrase("seven-sided patch", context="patch"),
    8: phrase("eight-sided patch", context="patch"),
}
_CURVED = phrase("curved patch", context="patch")
_MANY = {
    5: phrase("pentagon", context="patch"),
    7: phrase("seven-sided patch", context="patch"),
    8: phrase("octagon", context="patch"),
    9: phrase("nine-sided patch", context="patch"),
}


@dataclass(frozen=True, slots=True)
class Recognised:
    """A kind, a plain word for it, and its usual straight grain (degrees clockwise from up, below 180)."""

    kind: ShapeKind
    name: str
    grain: float


@dataclass(frozen=True, slots=True)
class _Figure:
    """A polygon with its side lengths and inner angles; side i runs from corner i."""

    corners: tuple[Point, ...]
    sides: tuple[float, ...]
    angles: tuple[float, ...]

    def equal(self, a: float, b: float) -> bool:
        """Whether two lengths are one."""
        return abs(a - b) <= SAME_LENGTH

    def all_equal(self, values: tuple[float, ...]) -> bool:
        """Whether all are one."""
        return max(values) - min(values) <= SAME_LENGTH * (1 if values is self.sides else 10)

    def is_right(self, i: int) -> bool:
        """Whether the corner is a right angle."""
        return abs(self.angles[i] - 90) <= SAME_LENGTH * 10

    def parallel(self, i: int, j: int) -> bool:
        """Whether two sides run opposite ways, parallel."""
        turn = (self.direction(i) - self.direction(j)) % 360
        return abs(turn - 180) <= SAME_LENGTH * 10

    def direction(self, i: int) -> float:
        """The direction of side i, clockwise from up."""
        return angle_up(self.corners[i], self.corners[(i + 1) % len(self.corners)])


def figure_of(points: tuple[Point, ...]) -> _Figure:
    """The figure of a closed clockwise outline."""
    n = len(points)
    sides = tuple(math.dist(points[i], points[(i + 1) % n]) for i in range(n))
    angles = tuple(180 - turning(points[i - 1], points[i], points[(i + 1) % n]) for i in range(n))
    return _Figure(points, sides, angles)


def recognise(outline: Outline, grain: float | None) -> Recognised:
    """What a clockwise outline is; `grain` decides between half- and quarter-square triangles.

    Without a grain the usual one of the kind is taken: for a right triangle with equal legs a short
    side, else a longest side.
    """
    if outline.is_curved:
        return _curved(outline)
    figure = figure_of(without_straight_points(outline.points))
    usual = long_side(outline)
    kind, name, side = _classify(figure, grain)
    return Recognised(kind, name, usual if side is None else figure.direction(side) % 180)


def long_side(outline: Outline) -> float:
    """The direction of a longest side, degrees clockwise from up, below 180."""
    figure = figure_of(without_straight_points(outline.points))
    longest = max(range(len(figure.sides)), key=lambda i: (round(figure.sides[i], 6), -i))
    return figure.direction(longest) % 180


Found = tuple[
    ShapeKind, str, int | None
]  # kind, name, the side with the usual grain (None: longest)


def _classify(figure: _Figure, grain: float | None) -> Found:
    count = len(figure.sides)
    found: Found | None = None
    if count == 3:
        found = _triangle(figure, grain)
    elif count == 4:
        found = _quadrilateral(figure)
    elif figure.all_equal(figure.sides) and figure.all_equal(figure.angles):
        found = _regular(count)
    elif count == 6:
        found = _elongated(figure)
    if found is not None:
        return found
    if count <= 4:
        return (ShapeKind.POLYGON, _SIDED[count], None)
    many = phrase("{count}-sided patch", context="patch", count=count)
    return (ShapeKind.POLYGON, _SIDED.get(count, many), None)


def _triangle(figure: _Figure, grain: float | None) -> Found | None:
    sides = figure.sides
    if figure.all_equal(sides):
        return (ShapeKind.EQUILATERAL, phrase("equilateral triangle", context="patch"), 0)
    longest = max(range(3), key=lambda i: sides[i])
    legs = ((longest + 1) % 3, (longest + 2) % 3)
    if figure.is_right(legs[1]):  # the corner between the legs is the start of the second
        if not figure.equal(sides[legs[0]], sides[legs[1]]):
            return (
                ShapeKind.RIGHT_TRIANGLE,
                phrase("right triangle", context="patch"),
                max(legs, key=lambda i: sides[i]),
            )
        if grain is not None and same_angle(figure.direction(longest), grain, 180):
            return (
                ShapeKind.QUARTER_SQUARE,
                phrase("quarter-square triangle", context="patch"),
                longest,
            )
        return (ShapeKind.HALF_SQUARE, phrase("half-square triangle", context="patch"), legs[0])
    for i in range(3):
        if figure.equal(sides[(i + 1) % 3], sides[(i + 2) % 3]):
            return (ShapeKind.ISOSCELES, phrase("isosceles triangle", context="patch"), i)
    return None


def _quadrilateral(figure: _Figure) -> Found | None:
    a, b, c, d = figure.sides
    if any(angle > 180 for angle in figure.angles):
        return (
            (ShapeKind.KITE, phrase("dart", context="patch"), None)
            if _kite_axis(figure) is not None
            else None
        )
    if all(figure.is_right(i) for i in range(4)):
        if figure.all_equal(figure.sides):
            return (ShapeKind.SQUARE, phrase("square", context="patch"), 0)
        return (ShapeKind.RECTANGLE, phrase("rectangle", context="patch"), 0 if a > b else 1)
    if figure.all_equal(figure.sides):
        return (ShapeKind.DIAMOND, phrase("diamond", context="patch"), 0)
    if figure.equal(a, c) and figure.equal(b, d):
        return (
            ShapeKind.PARALLELOGRAM,
            phrase("parallelogram", context="patch"),
            0 if a > b else 1,
        )
    for i in (0, 1):
        if figure.parallel(i, i + 2) and figure.equal(
            figure.sides[1 - i], figure.sides[(3 - i) % 4]
        ):
            return _trapezoid(figure, i)
    if _kite_axis(figure) is not None:
        return (ShapeKind.KITE, phrase("kite", context="patch"), None)
    return None


def _trapezoid(figure: _Figure, i: int) -> Found:
    base, top = sorted((i, i + 2), key=lambda k: -figure.sides[k])
    leg = figure.sides[(base + 1) % 4]
    long, short = figure.sides[base], figure.sides[top]
    if figure.equal(long, 2 * short) and figure.equal(leg, short):
        return (ShapeKind.HALF_HEXAGON, phrase("half hexagon", context="patch"), base)
    return (ShapeKind.TRAPEZOID, phrase("trapezoid", context="patch"), base)


def _kite_axis(figure: _Figure) -> int | None:
    """The corner between two equal sides whose opposite corner is one too."""
    s = figure.sides
    for i in (0, 1):
        if figure.equal(s[i - 1], s[i]) and figure.equal(s[(i + 1) % 4], s[(i + 2) % 4]):
            return i
    return None


def _regular(count: int) -> Found:
    if count == 6:
        return (ShapeKind.HEXAGON, phrase("hexagon", context="patch"), 0)
    if count == 8:
        return (ShapeKind.OCTAGON, phrase("octagon", context="patch"), 0)
    return (
        ShapeKind.REGULAR_POLYGON,
        _MANY.get(count, phrase("regular {count}-sided patch", context="patch", count=count)),
        0,
    )


def _elongated(figure: _Figure) -> Found | None:
    """Two opposite parallel sides of one length and four of another, symmetric both ways."""
    s, angles = figure.sides, figure.angles
    for i in range(3):
        slanted = tuple(s[k] for k in range(6) if k not in (i, i + 3))
        if not (figure.equal(s[i], s[i + 3]) and max(slanted) - min(slanted) <= SAME_LENGTH):
            continue
        blunt = (angles[i], angles[(i + 1) % 6], angles[i + 3], angles[(i + 4) % 6])
        if max(blunt) - min(blunt) <= SAME_LENGTH * 10 and max(angles) < 180:
            return (ShapeKind.ELONGATED_HEXAGON, phrase("elongated hexagon", context="patch"), i)
    return None


def _curved(outline: Outline) -> Recognised:
    """A patch with a curve: its longest straight side is its usual grain."""
    straight = [side for side in outline.sides if not side.via]
    curved = [side for side in outline.sides if side.via]
    if not straight:
        first = outline.sides[0]
        name = phrase("circle", context="patch") if _is_circle(outline) else _CURVED
        return Recognised(ShapeKind.PATH, name, angle_up(first.start, first.end) % 180)
    longest = max(straight, key=lambda side: round(math.dist(side.start, side.end), 6))
    name = _CURVED
    if len(straight) == 2 and len(curved) == 1 and _is_quarter(outline):
        name = phrase("quarter circle", context="patch")
    return Recognised(ShapeKind.PATH, name, angle_up(longest.start, longest.end) % 180)


def _is_circle(outline: Outline) -> bool:
    points = outline.points
    centre = mean(points)
    radii = [math.dist(centre, point) for point in points]
    return max(radii) - min(radii) <= DRAWN


def _is_quarter(outline: Outline) -> bool:
    """Whether the two straight sides are radii of the curve at a right angle."""
    for n, side in enumerate(outline.sides):
        if side.via:
            after = outline.sides[(n + 1) % 3]
            centre = after.end
            radii = [math.dist(centre, point) for point in side.points]
            right = abs(abs(turning(after.start, centre, side.start)) - 90) <= SAME_ANGLE
            return right and max(radii) - min(radii) <= DRAWN
    return False
