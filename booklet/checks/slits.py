"""Floor 8: slits. A block without a `size` has the outline of its pieces, so two sides that just miss each other stay open."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.geometry.tiling import LaidOut, Outline, Tiling
from booklet.kit.diagnostic import Diagnostic, warning
from booklet.kit.measure import angle_text
from booklet.kit.outlines.plane import Point, turning

NARROW = 5.0  # degrees: no corner is set in between sides that lie so near each other, and no quilt has such a notch


def slits(laid_out: LaidOut) -> Iterator[Diagnostic]:
    """A warning for each block whose outline has a notch so narrow that its sides must be meant to be sewn together."""
    told: set[str] = set()
    for tiling in laid_out.tilings.values():
        found = list(_narrow(tiling.outline))
        if not found or tiling.block in told:
            continue
        told.add(tiling.block)
        before, corner, after, degrees = found[0]
        one, other = _beside(tiling, before, corner), _beside(tiling, corner, after)
        more = f", and {len(found) - 1} more" if len(found) > 1 else ""
        span = tiling.piece(other or one or tiling.pieces[0].id).span
        yield warning(
            "slit-in-outline",
            f"between pieces `{one}` and `{other}` of block `{tiling.block}` a slit of {angle_text(round(degrees, 3))}°"
            f" is left open{more}, so they are not sewn together",
            span,
            "correct an angle or a length until the two sides lie on each other",
        )


def _narrow(outline: Outline) -> Iterator[tuple[Point, Point, Point, float]]:
    """The inward corners whose sides nearly lie on each other: the points before, at and after, and the degrees between."""
    sides = outline.sides
    for n, side in enumerate(sides):
        last = sides[n - 1]
        if side.via or last.via:
            continue
        between = 180 + turning(last.start, side.start, side.end)
        if between < NARROW:
            yield last.start, side.start, side.end, between


def _beside(tiling: Tiling, start: Point, end: Point) -> str:
    """The piece that has an edge of the outline."""
    for id, points in tiling.noded.items():
        if any(
            (a, b) == (start, end) for a, b in zip(points, (*points[1:], points[0]), strict=True)
        ):
            return id
    return ""
