"""Floor 11, values: the names that may stand in a text as `{{ name }}`, and what each says.

The table is fixed: a name is looked up and nothing is computed. Names that begin with `size.`, and
figures and tables, belong to one size; a text with such a name is set once for each size.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.kit.words import Text, area_text, by, exactly, with_unit
from booklet.pattern import Pattern, Size

if TYPE_CHECKING:
    from booklet.plan import SizePlan

FIGURE_NAMES = ("cover", "quilt", "patches", "colouring", "practice")
TABLE_NAMES = ("sizes", "materials", "sittings")
_SIZE_KEYS = ("title", "unit", "blocks", "made", "width", "height", "finished")
VALUE_NAMES = (
    "title", "designer", "version", "date", "summary", "allowance",
    *(f"size.{key}" for key in _SIZE_KEYS),
)  # fmt: skip
"""The names of values that every pattern has."""


def known_names(pattern: Pattern) -> tuple[str, ...]:
    """Every name a text of this pattern may use, in order."""
    names = [*VALUE_NAMES]
    fabrics = sorted({id for size in pattern.sizes for id in size.fabrics})
    names += [f"fabric.{id}.{key}" for id in fabrics for key in ("name", "buy")]
    names += [f"block.{block.id}.{key}" for block in pattern.blocks for key in ("title", "count")]
    names += [f"figure.{name}" for name in FIGURE_NAMES]
    names += [f"figure.block.{block.id}" for block in pattern.blocks]
    names += [f"figure.pressing.{block.id}" for block in pattern.blocks]
    names += [f"table.{name}" for name in TABLE_NAMES]
    return tuple(names)


def is_sized(name: str) -> bool:
    """Whether the value of a name depends on the size."""
    if name in ("table.sizes", "table.materials") or name.endswith((".name", ".title")):
        return name == "size.title"
    return "." in name


def pattern_values(pattern: Pattern) -> dict[str, Text]:
    """The values that hold for the whole pattern."""
    return {
        "title": pattern.title,
        "designer": pattern.designer,
        "version": pattern.version,
        "date": date_text(pattern),
        "summary": pattern.summary,
        "allowance": exactly(pattern.allowance, pattern.units),
        **{f"block.{block.id}.title": block.title for block in pattern.blocks},
        **{f"fabric.{f.id}.name": f.name for size in pattern.sizes for f in size.fabrics.values()},
    }


def size_values(plan: SizePlan) -> dict[str, Text]:
    """The values of one size, added to the pattern's."""
    units = plan.pattern.units
    values = pattern_values(plan.pattern) | {
        "size.title": plan.size.title,
        "size.unit": with_unit(plan.size.unit, units),
        "size.made": str(plan.blocks_made),
    }
    if plan.size.in_class is None or not plan.size.in_class.blocks:  # blocks alone lie in no rows
        values["size.blocks"] = blocks_text(plan.size)
    finished = plan.quilt.finished
    if finished is not None:
        values["size.width"] = with_unit(finished[0], units)
        values["size.height"] = with_unit(finished[1], units)
        values["size.finished"] = area_text(finished, units)
    values |= {f"block.{b.block.id}.count": str(b.count) for b in plan.blocks}
    values |= {f"fabric.{m.fabric.id}.name": m.fabric.name for m in plan.materials}
    return values | {f"fabric.{m.fabric.id}.buy": m.buy for m in plan.materials}


def blocks_text(size: Size) -> Text:
    """Across x down, or the plain count."""
    return by(size.across, size.down) if size.quilt is not None else str(size.count)


def date_text(pattern: Pattern) -> str:
    """The printed date in figures, or nothing."""
    return pattern.date.isoformat() if pattern.date else ""
