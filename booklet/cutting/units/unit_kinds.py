"""Floor 7: alike units of a quilt counted together, and the record that their figures make."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from booklet.crafts.ruler import Ruler
from booklet.cutting.units.together_plan import Together, TogetherCut, TogetherUnit
from booklet.cutting.units.unit_finding import Found
from booklet.measure import Length


@dataclass(frozen=True, slots=True)
class UnitKind:
    """Alike units: one of them, the members, how many the quilt needs."""

    model: Found
    members: tuple[tuple[str, frozenset[str]], ...]
    count: int


def kinds_of(found: Iterable[Found], blocks: Mapping[str, int]) -> tuple[UnitKind, ...]:
    """The units by size and fabrics, the smallest first."""
    groups: dict[tuple[tuple[float, ...], tuple[str, ...]], list[Found]] = {}
    for unit in found:
        groups.setdefault((tuple(round(s, 4) for s in unit.sizes), unit.fabrics), []).append(unit)
    return tuple(
        UnitKind(
            units[0],
            tuple((unit.block, unit.pieces) for unit in units),
            sum(blocks[unit.block] for unit in units),
        )
        for _, units in sorted(groups.items())
    )


def as_unit(
    name: str,
    how: Together,
    kind: UnitKind,
    finished: tuple[float, float],
    each: int,
    cuts: tuple[TogetherCut, ...],
    across: Length | None,
    trim: Length,
    text: str,
    ruler: Ruler,
) -> TogetherUnit:
    """The record of a kind of unit: `finished` in inches, `each` of them from one round, `text` its sum."""
    sizes = Length.of(finished[0]), Length.of(finished[1])
    both = 2 * ruler.allowance
    return TogetherUnit(
        name,
        how,
        sizes,
        (sizes[0] + both, sizes[1] + both),
        kind.count,
        -(-kind.count // each),
        each,
        cuts,
        across,
        trim,
        text,
        kind.members,
    )
