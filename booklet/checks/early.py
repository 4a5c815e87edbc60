"""Floor 8: what is looked at before anything is sewn, pressed or cut, so that a slip does not keep the machine busy.

Small blocks go on with such a fault and are told all others in the same run.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.checks.near_alike import cut_as_drawn, near_alike
from booklet.cutting.faults import too_wide
from booklet.geometry.overlay import narrowest
from booklet.geometry.tiling import LaidOut, Outline, PlacedPiece, Tiling
from booklet.geometry.words import length_words
from booklet.kit.bounds import MOST_CURVE_POINTS, MOST_SIDES, MOST_WORKED
from booklet.kit.diagnostic import Diagnostic, Outcome, warning
from booklet.kit.measure import EIGHTH, Length, Rounding, angle_text
from booklet.kit.outlines.near import DRAWN
from booklet.kit.outlines.plane import Point, turning
from booklet.pattern import Pattern, Size, SoldAs

_MUCH = 1_000  # points of the outlines of a block: fewer take no time worth a second look


def before_sewing(laid_out: LaidOut) -> Outcome[LaidOut]:
    """The same blocks; no value if they ask for more work than can be done, or for cloth that there is not. With warnings of
    outlines that are hardly meant."""
    found = tuple(
        fault
        for look in (_too_many, _too_fine, _wider_than_cloth, _narrow_patches, near_alike, _slits)
        for fault in look(laid_out)
    )
    return Outcome(None if any(d.is_error for d in found) else laid_out, found)


def _too_many(laid_out: LaidOut) -> Iterator[Diagnostic]:
    """An error if all blocks of all sizes have too many pieces together."""
    pieces = sum(len(tiling.laid) for tiling in laid_out.tilings.values())
    if pieces > MOST_WORKED:
        sizes = laid_out.pattern.sizes
        yield Diagnostic(
            code="too-large",
            message=f"the blocks have {pieces} pieces in all sizes together; at most {MOST_WORKED} can be worked with",
            span=sizes[-1].span,
            hint="make several patterns of the sizes, or simpler blocks",
        )


def _too_fine(laid_out: LaidOut) -> Iterator[Diagnostic]:
    """An error for a piece with too many sides, and for a block with too many points along its curves."""
    for tiling in laid_out.tilings.values():
        for piece in tiling.laid:
            if len(piece.outline.sides) > MOST_SIDES:
                yield Diagnostic(
                    code="too-large",
                    message=f"piece `{piece.id}` of block `{tiling.block}` has {len(piece.outline.sides)} sides; "
                    f"at most {MOST_SIDES} can be worked with",
                    span=piece.span,
                    hint="draw it simpler, or make several pieces of it",
                )
                break
        points = sum(len(side.via) for piece in tiling.laid for side in piece.outline.sides)
        if points > MOST_CURVE_POINTS:
            yield Diagnostic(
                code="too-large",
                message=f"the curves of block `{tiling.block}` have {points} points in size `{tiling.size}`; "
                f"at most {MOST_CURVE_POINTS} can be worked with",
                span=tiling.pieces[0].span,
                hint="make several blocks of it, or a smaller size",
            )


def _wider_than_cloth(laid_out: LaidOut) -> Iterator[Diagnostic]:
    """An error for each piece of a laborious block that fits its cloth in no direction."""
    pattern = laid_out.pattern
    told: set[tuple[str, str, str]] = set()
    for tiling in laid_out.tilings.values():
        if sum(len(piece.outline.points) for piece in tiling.pieces) <= _MUCH:
            continue
        size = pattern.size(tiling.size)
        for piece in tiling.pieces:
            key = (tiling.size, piece.patch, piece.fabric)
            if key not in told and (fault := _too_wide(pattern, size, tiling, piece)):
                told.add(key)
                yield fault


def _narrow_patches(laid_out: LaidOut) -> Iterator[Diagnostic]:
    """A warning for each size with a patch narrower than its allowance, which then reaches over the next seam. On printed
    paper narrow strings are usual, and their allowances are trimmed on the way."""
    pattern = laid_out.pattern
    for size in pattern.sizes:
        allowance = size.patch_allowance(pattern.allowance)
        first: dict[tuple[str, str], PlacedPiece] = {}
        for block, piece in cut_as_drawn(laid_out, size):
            first.setdefault((block, piece.patch), piece)
        widths = {key: narrowest(piece.outline.points) for key, piece in first.items()}
        narrow = [key for key, width in widths.items() if width < float(allowance) - DRAWN]
        if narrow:
            yield _narrow_patch(pattern, size, *min(narrow, key=widths.__getitem__), widths)


def _narrow_patch(
    pattern: Pattern, size: Size, block: str, patch: str, widths: dict[tuple[str, str], float]
) -> Diagnostic:
    """The warning of the narrowest patch of a size."""
    width = length_words(widths[block, patch], pattern.units)
    allowance = length_words(float(size.patch_allowance(pattern.allowance)), pattern.units)
    return warning(
        "narrow-patch",
        f"patch `{patch}` of block `{block}` is {width} wide in size `{size.id}`, narrower than its allowance of "
        f"{allowance}",
        size.span,
        "write a smaller `allowance` or a larger `unit`, or tell in a text to trim each allowance once it is sewn",
    )


def _too_wide(
    pattern: Pattern, size: Size, tiling: Tiling, piece: PlacedPiece
) -> Diagnostic | None:
    """The fault of a piece that is wider than its cloth, however it is turned."""
    fabric = size.fabrics[piece.fabric]
    needs = narrowest(piece.outline.points) + 2 * float(size.patch_allowance(pattern.allowance))
    if fabric.kind is not SoldAs.YARDAGE or needs <= float(fabric.width):
        return None
    rounded = Length.of(needs).rounded(EIGHTH, Rounding.UP)
    return too_wide(f"patch `{piece.patch}`", rounded, fabric, None, pattern.units, piece.span)


_NARROW = 5.0  # degrees: no corner is set in between sides that lie so near each other, and no quilt has such a notch


def _slits(laid_out: LaidOut) -> Iterator[Diagnostic]:
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
        if between < _NARROW:
            yield last.start, side.start, side.end, between


def _beside(tiling: Tiling, start: Point, end: Point) -> str:
    """The piece that has an edge of the outline."""
    for id, points in tiling.noded.items():
        if any(
            (a, b) == (start, end) for a, b in zip(points, (*points[1:], points[0]), strict=True)
        ):
            return id
    return ""
