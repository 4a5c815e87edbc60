"""Floor 3: the outline of every shape of the format, in inches for a given unit, about its origin.

The origin is the middle
of the bounding box unless the shape says otherwise; free outlines keep their own (0, 0).
"""

from __future__ import annotations

from booklet.crafts.measures import SMALLEST, ShapeError as ShapeError
from booklet.geometry.placing.paths import path_line, path_outline
from booklet.geometry.placing.ribbons import ribbon
from booklet.geometry.tiling import Outline
from booklet.geometry.vectors import backwards, outline_of, shifted
from booklet.kit.measure import Length
from booklet.kit.outlines.path_data import PathError
from booklet.kit.outlines.plane import Point, angle_up, box_of, midpoint
from booklet.kit.outlines.polygon import area_of
from booklet.pattern import Anchor, AnchorKind, Shape


def shape_outline(shape: Shape, unit: Length) -> Outline:
    """The clockwise outline about the shape's origin, in inches; side N is `sides[N - 1]`.

    Free corners or paths written against the clock are run through the other way round from the same
    first corner. Raises ShapeError where the measures make no shape.
    """
    outline = _raw_outline(shape, unit)
    if area_of(outline.points) < 0:
        outline = backwards(outline)
    if area_of(outline.points) < SMALLEST**2:
        raise ShapeError("this outline has no area")
    if any(
        abs(s.start[0] - s.end[0]) + abs(s.start[1] - s.end[1]) < SMALLEST and not s.via
        for s in outline.sides
    ):
        raise ShapeError("two corners of this outline lie on each other")
    origin = _origin(outline, shape)
    return shifted(outline, (-origin[0], -origin[1]))


def _raw_outline(shape: Shape, unit: Length) -> Outline:
    corners = shape.form.laid_out({**shape.extents, **shape.numbers}, unit)
    if corners is not None:
        return outline_of(corners)
    if shape.outline is not None:
        try:
            if shape.stem is not None:
                return ribbon(path_line(shape.outline, float(unit)), shape.stem.inches(unit))
            return path_outline(shape.outline, _unit_of(shape, unit))
        except PathError as fault:
            raise ShapeError(str(fault)) from None
    drawn = [(x.inches(unit), y.inches(unit)) for x, y in shape.corners]
    if len(drawn) > 3 and drawn[0] == drawn[-1]:
        drawn.pop()
    if len(drawn) < 3:
        raise ShapeError("an outline needs at least 3 corners")
    return outline_of(drawn)


def _unit_of(shape: Shape, unit: Length) -> float:
    """How many inches a number of a path stands for: the design unit, or what makes the path as wide as it shall be."""
    if shape.width is None or shape.outline is None:
        return float(unit)
    found = 0.01  # small enough for any drawing; then again in the size of cloth, in which curves are drawn finely
    for _ in range(2):
        left, _, right, _ = box_of(path_outline(shape.outline, found).points)
        if right - left <= 0:
            raise ShapeError("this outline has no area")
        found *= shape.width.inches(unit) / (right - left)
    return found


def _origin(outline: Outline, shape: Shape) -> Point:
    """The point of the outline that the shape is placed by."""
    anchor = shape.anchor
    if anchor is None:
        if shape.form.is_free:
            return (0.0, 0.0)
        anchor = Anchor()
    if anchor.kind is AnchorKind.CENTRE:
        left, top, right, bottom = box_of(outline.points)
        return midpoint((left, top), (right, bottom))
    if not 1 <= anchor.number <= len(outline.sides):
        raise ShapeError(
            f"this shape has {len(outline.sides)} {anchor.kind}s; there is no {anchor.kind} {anchor.number}"
        )
    side = outline.sides[anchor.number - 1]
    if anchor.kind is AnchorKind.CORNER:
        return side.start
    points = side.points
    if len(points) % 2:  # the middle along a curve
        return points[len(points) // 2]
    return midpoint(points[len(points) // 2 - 1], points[len(points) // 2])


def grain_wish(shape: Shape, outline: Outline) -> float | None:
    """The straight grain the author asks for, degrees clockwise from up in [0, 180), or None.

    Raises ShapeError for a side that the shape does not have.
    """
    wish = shape.grain
    if wish is None:
        return None
    if wish.side is None:
        return float(wish.angle or 0.0) % 180
    if not 1 <= wish.side <= len(outline.sides):
        raise ShapeError(
            f"this shape has {len(outline.sides)} sides; there is no side {wish.side} for the grain"
        )
    side = outline.sides[wish.side - 1]
    return angle_up(side.start, side.end) % 180
