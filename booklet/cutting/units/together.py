"""Floor 7: units sewn from larger pieces and cut afterwards, as the author asks for: which, how many."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from booklet.crafts.ruler import Ruler
from booklet.cutting.units.together_plan import Together, TogetherUnit
from booklet.cutting.units.unit_candidates import candidates
from booklet.cutting.units.unit_finding import (
    flying_geese,
    half_squares,
    rows,
    squares_in_squares,
)
from booklet.cutting.units.unit_kinds import kinds_of
from booklet.cutting.units.unit_sums import (
    geese,
    half_square_units,
    square_in_square_units,
    strip_set,
)
from booklet.pattern import HalfSquares, UnitCutting
from booklet.quilt.sized import SizedQuilt
from booklet.sewing.assembly import Assembled

_AT_A_TIME = {
    HalfSquares.TWO: (Together.TWO, 2),
    HalfSquares.FOUR: (Together.FOUR, 4),
    HalfSquares.EIGHT: (Together.EIGHT, 8),
}


def made_together(pattern: Assembled, quilt: SizedQuilt, ruler: Ruler) -> tuple[TogetherUnit, ...]:
    """The units of a size that are made together, named U1, U2, … in the order of their methods."""
    return _made(pattern, quilt, ruler, quilt.size.cutting)


def offers(
    pattern: Assembled, quilt: SizedQuilt, ruler: Ruler, made: tuple[TogetherUnit, ...]
) -> tuple[TogetherUnit, ...]:
    """The units that could be made together besides those that are: what to offer the author."""
    every = UnitCutting(HalfSquares.EIGHT, True, True, True, quilt.size.cutting.trim)
    taken = {member for unit in made for member in unit.members}
    found = _made(pattern, quilt, ruler, every)
    return tuple(unit for unit in found if not taken & set(unit.members))


def _made(
    pattern: Assembled, quilt: SizedQuilt, ruler: Ruler, wish: UnitCutting
) -> tuple[TogetherUnit, ...]:
    made: list[Callable[[str], TogetherUnit | None]] = []
    trim = wish.trim
    units = tuple(unit for unit in candidates(pattern, quilt) if unit.hindrance is None)
    if wish.half_squares in _AT_A_TIME:
        for kind in kinds_of(half_squares(units), quilt.blocks):
            way = _AT_A_TIME[wish.half_squares]
            made.append(partial(half_square_units, kind, way, trim, ruler))
    if wish.geese_by_four:
        for kind in kinds_of(flying_geese(units), quilt.blocks):
            made.append(partial(geese, kind, trim, ruler))
    if wish.squares_in_squares:
        for kind in kinds_of(squares_in_squares(units), quilt.blocks):
            made.append(partial(square_in_square_units, kind, trim, ruler))
    if wish.strip_sets:
        for kind in kinds_of(rows(units), quilt.blocks):
            made.append(partial(strip_set, kind, quilt, ruler))
    found: list[TogetherUnit] = []
    for make in made:
        unit = make(f"U{len(found) + 1}")
        if unit is not None:
            found.append(unit)
    return tuple(found)
