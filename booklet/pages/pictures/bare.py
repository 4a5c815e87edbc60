"""Floor 11, bare: a plan without the words and colours that no picture is made of.

Pictures are drawn of it, so that nothing but what is left can be in them: whoever keeps pictures need not ask
whether a text or a colour was changed. Colours come to pictures with the looks of the cloths.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from booklet.kit.records import replace
from booklet.pattern import Fabric, Pattern, Size
from booklet.plan import Plan, SizePlan


def bare_plan(plan: Plan) -> Plan:
    """The plan without texts, without the names on the cover, and without colours."""
    pattern = bare_pattern(plan.pattern)
    sizes = tuple(_bare_size(size, pattern) for size in plan.sizes)
    student, kits = plan.student and bare_plan(plan.student), plan.kits and bare_plan(plan.kits)
    parts = tuple(bare_plan(part) for part in plan.parts)
    others = tuple(bare_plan(one) for one in plan.alternatives)
    return Plan(
        pattern=pattern, sizes=sizes, student=student, kits=kits, parts=parts, alternatives=others
    )


def named_only(plan: Plan, size: SizePlan) -> SizePlan:
    """A bare size with the names that a template bears."""
    pattern = plan.pattern
    named = replace(
        size.pattern,
        title=pattern.title,
        designer=pattern.designer,
        version=pattern.version,
        date=pattern.date,
    )
    return replace(size, pattern=named)


def bare_pattern(pattern: Pattern) -> Pattern:
    """The pattern without what its pictures do not show."""
    empty: Mapping[str, str] = MappingProxyType({})
    return replace(
        pattern,
        title="",
        designer="",
        version="",
        date=None,
        summary="",
        texts=empty,
        templates=empty,
        style="",
        span=replace(pattern.span, end=pattern.span.column),  # it ends with the title
        pictures=MappingProxyType({}),
        fonts=MappingProxyType({}),
        sizes=tuple(_colourless(size) for size in pattern.sizes),
        alternatives=(),
    )


def _bare_size(size: SizePlan, pattern: Pattern) -> SizePlan:
    own = pattern.size(size.size.id)
    materials = tuple(replace(line, fabric=own.fabrics[line.fabric.id]) for line in size.materials)
    quilt = replace(size.quilt, size=own)
    return replace(size, pattern=pattern, size=own, quilt=quilt, materials=materials)


def _colourless(size: Size) -> Size:
    fabrics: dict[str, Fabric] = {id: replace(f, colour="") for id, f in size.fabrics.items()}
    return replace(size, fabrics=MappingProxyType(fabrics))
