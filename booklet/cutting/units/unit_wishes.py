"""Floor 7: wishes of `cutting:` that no unit of the pattern can follow, each with the reason."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from booklet.crafts.rotary.ruler import Ruler
from booklet.crafts.unit import Alike, Unfit, Unit, UnitAsked
from booklet.crafts.units import UNITS
from booklet.cutting.cutting_plan import CuttingPlan
from booklet.cutting.units.together import alike_units, found_units, too_large
from booklet.cutting.units.unit_candidates import candidates
from booklet.kit.diagnostic import Diagnostic, warning
from booklet.pattern import UnitWish
from booklet.quilt.sized import SetPattern, SizedQuilt
from booklet.quilt.sums import result


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


def _no_room(
    unit: Unit, alike: Iterable[Alike], quilt: SizedQuilt, pattern: SetPattern
) -> Unfit | None:
    """That cloth sold ready cut is too small for the larger pieces; None where it is not."""
    units = pattern.pattern.units
    ruler = Ruler(allowance=pattern.pattern.allowance, units=units, asked=quilt.size.cutting.ruler)
    widths = {id: fabric.usable for id, fabric in quilt.size.fabrics.items()}
    asked = UnitAsked("U1", quilt.size.cutting.trim, ruler, widths)
    way = next(unit.way(w.choice) for w in quilt.size.cutting.wishes if w.key == unit.key)
    for kind in alike:
        made = way.figures(kind, asked)
        cut = too_large(made, quilt.size) if made is not None else None
        if cut is not None:
            fabric = quilt.size.fabrics[cut.fabric]
            across, along = (result(side, units) for side in cut.cut)
            return Unfit(
                f"finds no unit: a piece of {across} x {along} does not lie on `{fabric.id}`, which is sold ready cut"
                f" (`{fabric.kind}`)",
                f"cut it from yardage, or leave out `{unit.key}`",
            )
    return None


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
        if (small := _no_room(unit, alike, quilt, pattern)) is not None:
            return small
        if alike and unit.unfit is not None:
            written, asked = pattern.pattern, quilt.size.cutting.ruler
            ruler = Ruler(allowance=written.allowance, units=written.units, asked=asked)
            why_not = unit.unfit(alike, ruler, quilt.size.id)
            return Unfit(why_not.says, f"leave out `{unit.key}`, or {why_not.hint}")
    return Unfit(
        f"finds no unit: no step {unit.joins}",
        f"leave out `{unit.key}`, or give such a unit a step of its own: `booklet plan --write` writes the order",
    )
