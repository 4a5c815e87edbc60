"""Floor 7: wishes of `cutting:` that no unit of the pattern can follow, each with the reason."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from booklet.crafts.rotary.ruler import Ruler
from booklet.crafts.unit import Unfit, Unit
from booklet.crafts.units import UNITS
from booklet.cutting.cutting_plan import CuttingPlan
from booklet.cutting.units.together import alike_units, found_units
from booklet.cutting.units.unit_candidates import candidates
from booklet.kit.diagnostic import Diagnostic, warning
from booklet.pattern import UnitWish
from booklet.quilt.sized import SetPattern, SizedQuilt


def unkept_wishes(pattern: SetPattern, plans: Mapping[str, CuttingPlan]) -> Iterator[Diagnostic]:
    """A warning for each wish, where it is written, that makes a unit in none of its sizes."""
    asked: dict[UnitWish, list[str]] = {}
    for size, quilt in pattern.quilts.items():
        for wish in quilt.size.cutting.wishes:
            asked.setdefault(wish, []).append(size)
    for wish, sizes in asked.items():
        made = {unit.how for size in sizes for unit in plans[size].together}
        if made.isdisjoint(UNITS[wish.key].ways):
            why = _unfit(UNITS[wish.key], [pattern.quilts[size] for size in sizes], pattern)
            yield warning("no-unit-to-make", f"`{wish.key}` {why.says}", wish.span, why.hint)


def _unfit(unit: Unit, quilts: Iterable[SizedQuilt], pattern: SetPattern) -> Unfit:
    """Why none is made, in the first size that has such a unit at all, and what to do."""
    for quilt in quilts:
        every = candidates(pattern, quilt)
        for candidate, _ in found_units(unit, every):
            if candidate.hindrance is not None:
                where = (
                    f"finds no unit: the one in block `{candidate.block}` cannot be made so, for"
                )
                why = candidate.hindrance
                return Unfit(f"{where} {why.reason}", f"{why.remedy}, or leave out `{unit.key}`")
        alike = alike_units(unit, every, quilt.blocks)
        if alike and unit.unfit is not None:
            written, asked = pattern.pattern, quilt.size.cutting.ruler
            ruler = Ruler(allowance=written.allowance, units=written.units, asked=asked)
            why_not = unit.unfit(alike, ruler, quilt.size.id)
            return Unfit(why_not.says, f"leave out `{unit.key}`, or {why_not.hint}")
    return Unfit(
        f"finds no unit: no step {unit.joins}",
        f"leave out `{unit.key}`, or give such a unit a step of its own: `booklet plan --write` writes the order",
    )
