"""Floor 7: units that can be sewn from larger pieces and cut afterwards, found in the order of sewing.

A unit counts only where its own steps make it by machine, from cloth that may lie as it likes.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from booklet.cutting.figures import Figure, Form, extent, recognise
from booklet.geometry.tiling import PlacedPiece
from booklet.pattern import By, Direction, Fabric, Size
from booklet.quilt.sized import SetPattern, SizedQuilt
from booklet.sewing.assembly import Assembly, Kind, Step

NEAR = 1e-4  # inches
_TRIANGLE = Form.RIGHT_ISOSCELES
_BOXES = (Form.SQUARE, Form.RECTANGLE)


@dataclass(frozen=True, slots=True)
class Found:
    """A unit of a block: its pieces; finished sizes in inches, and its fabrics in their order.

    Of two half squares the leg; of a flying goose its width and height, the goose's fabric first; of a
    row the height it is cut across at, then the widths of its strips, from the end that sorts first.
    """

    block: str
    pieces: frozenset[str]
    sizes: tuple[float, ...]
    fabrics: tuple[str, ...]


def half_squares(pattern: SetPattern, quilt: SizedQuilt) -> Iterator[Found]:
    """The units of two half-square triangles of two fabrics."""
    for assembly, step, pieces in _units(pattern, quilt, 2):
        figures = [_figure(piece) for piece in pieces]
        legs = [figure.sizes[0] for figure in figures if figure.form is _TRIANGLE]
        if len(legs) == 2 and _is_box(step, legs[0], legs[0]):
            fabrics = tuple(sorted({piece.fabric for piece in pieces}))
            if len(fabrics) == 2:
                yield _found(assembly, pieces, (legs[0],), fabrics)


def flying_geese(pattern: SetPattern, quilt: SizedQuilt) -> Iterator[Found]:
    """The units of one large triangle and two of half its size of another fabric on its short sides."""
    for assembly, step, pieces in _units(pattern, quilt, 3):
        figures = [(_figure(piece), piece) for piece in pieces]
        if any(figure.form is not _TRIANGLE for figure, _ in figures) or step.rectangle is None:
            continue
        (large, goose), (one, sky), (two, other) = sorted(figures, key=lambda f: -f[0].sizes[0])
        wide, high = max(step.rectangle), min(step.rectangle)
        fits = abs(wide - 2 * high) < NEAR and abs(large.sizes[0] * 2**0.5 - wide) < NEAR
        small = all(abs(figure.sizes[0] - high) < NEAR for figure in (one, two))
        if fits and small and sky.fabric == other.fabric != goose.fabric:
            yield _found(assembly, pieces, (wide, high), (goose.fabric, sky.fabric))


def rows(pattern: SetPattern, quilt: SizedQuilt) -> Iterator[Found]:
    """The longest rows of squares and rectangles of one height, of more than one fabric."""
    taken: set[tuple[str, str]] = set()
    found = sorted(_units(pattern, quilt), key=lambda unit: -len(unit[2]))
    for assembly, _, pieces in found:
        ids = {(assembly.tiling.block, piece.id) for piece in pieces}
        row = _row(pieces)
        if row is None or ids & taken:
            continue
        taken |= ids
        across, widths, fabrics = row
        back = (widths[::-1], fabrics[::-1])
        first = min(
            (tuple(round(w, 4) for w in w_), f_, w_) for w_, f_ in ((widths, fabrics), back)
        )
        yield _found(assembly, pieces, (across, *first[2]), first[1])


def _row(
    pieces: Sequence[PlacedPiece],
) -> tuple[float, tuple[float, ...], tuple[str, ...]] | None:
    """The height, widths and fabrics of pieces that stand in one upright row; None if they do not."""
    if any(_figure(piece).form not in _BOXES for piece in pieces):
        return None
    for along in (0, 1):
        starts = [min(p[1 - along] for p in piece.outline.corners) for piece in pieces]
        ends = [max(p[1 - along] for p in piece.outline.corners) for piece in pieces]
        if max(starts) - min(starts) > NEAR or max(ends) - min(ends) > NEAR:
            continue
        line = sorted(pieces, key=lambda piece: min(p[along] for p in piece.outline.corners))
        widths = tuple(extent(piece.outline.corners)[along] for piece in line)
        fabrics = tuple(piece.fabric for piece in line)
        area = sum(widths) * (ends[0] - starts[0])
        upright = abs(area - sum(_area(piece) for piece in pieces)) < NEAR
        return (ends[0] - starts[0], widths, fabrics) if upright and len(set(fabrics)) > 1 else None
    return None


def _area(piece: PlacedPiece) -> float:
    sizes = _figure(piece).sizes
    return sizes[0] * sizes[-1]


def _units(
    pattern: SetPattern, quilt: SizedQuilt, count: int = 0
) -> Iterator[tuple[Assembly, Step, tuple[PlacedPiece, ...]]]:
    """The units of `count` pieces (of two or more, if 0) that their own steps make by machine."""
    assembled = pattern.pressed.assembled
    for tiling in assembled.laid_out.of_size(quilt.size):
        assembly = assembled.assemblies.get((quilt.size.id, tiling.block))
        if assembly is None or not quilt.blocks.get(tiling.block, 0):
            continue
        for step in assembly.steps:
            if len(step.pieces) != (count or len(step.pieces)) or len(step.pieces) < 2:
                continue
            pieces = tuple(tiling.piece(id) for id in step.pieces)
            if _is_plain(assembly, step) and all(_is_free(p, quilt.size) for p in pieces):
                yield assembly, step, pieces


def _is_plain(assembly: Assembly, step: Step) -> bool:
    """Whether a unit is made by straight machine seams alone."""
    own = [s for s in assembly.steps if set(s.pieces) <= set(step.pieces)]
    return all(s.by is By.MACHINE and s.kind is Kind.STRAIGHT and not s.finish for s in own)


def _is_free(piece: PlacedPiece, size: Size) -> bool:
    """Whether a piece may be cut from any cloth laid in any way."""
    fabric: Fabric | None = size.fabrics.get(piece.fabric)
    plain = fabric is not None and fabric.direction is Direction.ANY and fabric.kind == "yardage"
    return plain and not piece.motif


def _is_box(step: Step, width: float, height: float) -> bool:
    if step.rectangle is None:
        return False
    found = sorted(step.rectangle)
    wanted = sorted((width, height))
    return all(abs(a - b) < NEAR for a, b in zip(found, wanted, strict=True))


def _figure(piece: PlacedPiece) -> Figure:
    return recognise(piece.outline.points, not piece.outline.is_curved)


def _found(
    assembly: Assembly,
    pieces: Sequence[PlacedPiece],
    sizes: tuple[float, ...],
    fabrics: tuple[str, ...],
) -> Found:
    ids = frozenset(piece.id for piece in pieces)
    return Found(assembly.tiling.block, ids, tuple(round(s, 6) for s in sizes), fabrics)
