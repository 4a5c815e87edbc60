"""Floor 7: the kinds of unit that can be sewn from larger pieces and cut afterwards, found among candidates."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from booklet.crafts.form import Form
from booklet.crafts.forms import half_square_triangle, recognised, rectangle, square
from booklet.cutting.units.unit_candidates import Candidate, Hindrance
from booklet.geometry.recognise import figure_in
from booklet.geometry.tiling import PlacedPiece
from booklet.kit.near import SAME_LENGTH
from booklet.kit.plane import extent
from booklet.sewing.assembly import Step

_TRIANGLE = half_square_triangle.FORM
_BOXES = (square.FORM, rectangle.FORM)


@dataclass(frozen=True, slots=True)
class Found:
    """A unit of a block: its pieces; finished sizes in inches, and its fabrics in their order.

    Of two half squares the leg; of a flying goose its width and height, the goose's fabric first; of a
    row the height it is cut across at, then the widths of its strips, from the end that sorts first; of a
    square in a square the side of the unit, the centre's fabric first. `hindrance` is the candidate's.
    """

    block: str
    pieces: frozenset[str]
    sizes: tuple[float, ...]
    fabrics: tuple[str, ...]
    hindrance: Hindrance | None = None


def half_squares(units: Iterable[Candidate]) -> Iterator[Found]:
    """The units of two half-square triangles of two fabrics."""
    for unit in _of(units, 2):
        figures = [_figure(piece) for piece in unit.pieces]
        legs = [figure.sizes[0] for figure in figures if figure.form is _TRIANGLE]
        if len(legs) == 2 and _is_box(unit.step, legs[0], legs[0]):
            fabrics = tuple(sorted({piece.fabric for piece in unit.pieces}))
            if len(fabrics) == 2:
                yield _found(unit, (legs[0],), fabrics)


def flying_geese(units: Iterable[Candidate]) -> Iterator[Found]:
    """The units of one large triangle and two of half its size of another fabric on its short sides."""
    for unit in _of(units, 3):
        figures = [(_figure(piece), piece) for piece in unit.pieces]
        step = unit.step
        if any(figure.form is not _TRIANGLE for figure, _ in figures) or step.rectangle is None:
            continue
        (large, goose), (one, sky), (two, other) = sorted(figures, key=lambda f: -f[0].sizes[0])
        wide, high = max(step.rectangle), min(step.rectangle)
        fits = (
            abs(wide - 2 * high) < SAME_LENGTH and abs(large.sizes[0] * 2**0.5 - wide) < SAME_LENGTH
        )
        small = all(abs(figure.sizes[0] - high) < SAME_LENGTH for figure in (one, two))
        if fits and small and sky.fabric == other.fabric != goose.fabric:
            yield _found(unit, (wide, high), (goose.fabric, sky.fabric))


def squares_in_squares(units: Iterable[Candidate]) -> Iterator[Found]:
    """The units of a square and four triangles of one other fabric, their long sides on its sides."""
    for unit in _of(units, 5):
        figures = [(_figure(piece), piece) for piece in unit.pieces]
        centres = [(figure, piece) for figure, piece in figures if figure.form is _BOXES[0]]
        corners = [(figure, piece) for figure, piece in figures if figure.form is _TRIANGLE]
        if len(centres) != 1 or len(corners) != 4:
            continue
        ((square, centre),) = centres
        side = square.sizes[0] * 2**0.5
        # A box of twice the centre's area holds the centre and four such triangles in this way only.
        fits = all(abs(figure.sizes[0] - side / 2) < SAME_LENGTH for figure, _ in corners)
        around = {piece.fabric for _, piece in corners}
        if fits and _is_box(unit.step, side, side) and len(around) == 1:
            fabrics = centre.fabric, *around
            if len(set(fabrics)) == 2:
                yield _found(unit, (side,), fabrics)


def rows(units: Iterable[Candidate]) -> Iterator[Found]:
    """The longest rows of squares and rectangles of one height, of more than one fabric."""
    taken: set[tuple[str, str]] = set()
    for unit in sorted(units, key=lambda unit: -len(unit.pieces)):
        ids = {(unit.block, piece.id) for piece in unit.pieces}
        row = _row(unit.pieces)
        if row is None or ids & taken:
            continue
        taken |= ids
        across, widths, fabrics = row
        back = (widths[::-1], fabrics[::-1])
        first = min(
            (tuple(round(w, 4) for w in w_), f_, w_) for w_, f_ in ((widths, fabrics), back)
        )
        yield _found(unit, (across, *first[2]), first[1])


def _row(
    pieces: Sequence[PlacedPiece],
) -> tuple[float, tuple[float, ...], tuple[str, ...]] | None:
    """The height, widths and fabrics of pieces that stand in one upright row; None if they do not."""
    if any(_figure(piece).form not in _BOXES for piece in pieces):
        return None
    for along in (0, 1):
        starts = [min(p[1 - along] for p in piece.outline.corners) for piece in pieces]
        ends = [max(p[1 - along] for p in piece.outline.corners) for piece in pieces]
        if max(starts) - min(starts) > SAME_LENGTH or max(ends) - min(ends) > SAME_LENGTH:
            continue
        line = sorted(pieces, key=lambda piece: min(p[along] for p in piece.outline.corners))
        widths = tuple(extent(piece.outline.corners)[along] for piece in line)
        fabrics = tuple(piece.fabric for piece in line)
        area = sum(widths) * (ends[0] - starts[0])
        upright = abs(area - sum(_area(piece) for piece in pieces)) < SAME_LENGTH
        return (ends[0] - starts[0], widths, fabrics) if upright and len(set(fabrics)) > 1 else None
    return None


def _area(piece: PlacedPiece) -> float:
    sizes = _figure(piece).sizes
    return sizes[0] * sizes[-1]


def _is_box(step: Step, width: float, height: float) -> bool:
    if step.rectangle is None:
        return False
    found = sorted(step.rectangle)
    wanted = sorted((width, height))
    return all(abs(a - b) < SAME_LENGTH for a, b in zip(found, wanted, strict=True))


class _Figure(NamedTuple):
    form: Form
    sizes: tuple[float, ...]


def _figure(piece: PlacedPiece) -> _Figure:
    figure = figure_in(piece.outline)
    form, _ = recognised(figure, None)
    return _Figure(form, (min(figure.sides), max(figure.sides)) if figure.sides else ())


def _of(units: Iterable[Candidate], count: int) -> Iterator[Candidate]:
    """The units of so many pieces."""
    return (unit for unit in units if len(unit.pieces) == count)


def _found(unit: Candidate, sizes: tuple[float, ...], fabrics: tuple[str, ...]) -> Found:
    ids = frozenset(piece.id for piece in unit.pieces)
    sizes = tuple(round(size, 6) for size in sizes)
    return Found(unit.block, ids, sizes, fabrics, unit.hindrance)
