"""Floor 9: the facts. Everything the booklet says in numbers, as one JSON object, and its schema, both from the tables of
this room.

The names of the keys are an interface for other programs: keys may be added, never renamed. Lengths
are decimal inches (`_in`), areas square inches, coordinates inches in the block's own frame.
"""

from __future__ import annotations

import json

from booklet.crafts.marks import ruler_step
from booklet.facts.blocks import BLOCK, BY, BlockFacts
from booklet.facts.cloths import CLOTH, JOINED, LINE, TOGETHER, ClothFacts, LineFacts
from booklet.facts.kinds import (
    COUNT,
    FLAG,
    LENGTH,
    TENTHS,
    TEXT,
    FactKind,
    Json,
    Schema,
    by_name,
    key,
    maybe,
    record,
    several,
)
from booklet.facts.quilts import FINISHING, QUILT
from booklet.measure import Length
from booklet.plan.records import Plan, Portion, Sitting, SizePlan

TASK: FactKind[Portion] = record(
    key("block", TEXT, lambda portion: portion.block),
    key("cards", several(COUNT), lambda portion: portion.cards),
    key("by", BY, lambda portion: portion.by),
    key("chain", FLAG, lambda portion: portion.chain),
    maybe("together", TEXT, lambda portion: portion.together or None),
    key("count", COUNT, lambda portion: portion.count),
    key("routes", COUNT, lambda portion: portion.routes * portion.count),
    key("minutes", TENTHS, lambda portion: portion.minutes),
)
# A sitting, or several alike; minutes are estimates at the pattern's pace, for one of them.
SITTING: FactKind[Sitting] = record(
    key("first", COUNT, lambda sitting: sitting.first),
    key("last", COUNT, lambda sitting: sitting.last),
    key("minutes", TENTHS, lambda sitting: sitting.minutes),
    key("tasks", several(TASK), lambda sitting: sitting.portions),
)
SIZE: FactKind[SizePlan] = record(
    key("unit_in", LENGTH, lambda size: size.size.unit),
    # where patches are basted over papers, what is folded over them
    maybe("paper_allowance_in", LENGTH, lambda size: size.size.sewing.papers),
    # of blocks sewn on printed paper, what their pieces are cut beyond their allowance
    maybe("foundation_margin_in", LENGTH, lambda size: _foundation_margin(size)),
    key(
        "ruler_in",
        LENGTH,
        lambda size: Length(ruler_step(size.size.cutting.ruler, size.pattern.units)),
    ),
    key("blocks", by_name(BLOCK), lambda size: _blocks(size)),
    key("quilt", QUILT, lambda size: size),
    key("cutting", by_name(CLOTH), lambda size: _cloths(size)),
    key("rotary", several(LINE), lambda size: _lines(size)),
    key("together", several(TOGETHER), lambda size: size.cutting.together),
    key("together_offers", several(TOGETHER), lambda size: size.cutting.offers),
    key("joined", several(JOINED), lambda size: size.cutting.joins),
    key("finishing", FINISHING, lambda size: size),
    key("sittings", several(SITTING), lambda size: size.sittings),
)
FACTS: FactKind[Plan] = record(
    key("title", TEXT, lambda plan: plan.pattern.title),
    key("version", TEXT, lambda plan: plan.pattern.version),
    key("allowance_in", LENGTH, lambda plan: plan.pattern.allowance),
    key("sizes", by_name(SIZE), lambda plan: {size.size.id: size for size in plan.sizes}),
)


def _blocks(size: SizePlan) -> dict[str, BlockFacts]:
    trims = size.cutting.trims
    return {b.block.id: BlockFacts(b, trims.get(b.block.id, ())) for b in size.blocks}


def _foundation_margin(size: SizePlan) -> Length | None:
    on_paper = any(block.assembly.papers for block in size.blocks)
    return size.size.sewing.foundation_margin if on_paper else None


def _cloths(size: SizePlan) -> dict[str, ClothFacts]:
    plans = size.cutting.fabrics
    return {plan.fabric: ClothFacts(plan, size.fabric(plan.fabric)) for plan in plans}


def _lines(size: SizePlan) -> list[LineFacts]:
    return [LineFacts(patch, size.fabric(patch.fabric)) for patch in size.cutting.patches]


def facts(plan: Plan) -> Json:
    """The facts of every size of the plan."""
    return FACTS.printed(plan)


def facts_text(plan: Plan) -> str:
    """The facts as JSON text that ends with a line break; the same plan gives the same bytes."""
    return json.dumps(facts(plan), indent=1, ensure_ascii=False) + "\n"


def facts_schema() -> Schema:
    """The schema (JSON Schema 2020-12) that every printed facts object satisfies."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Facts of a pattern",
        **FACTS.schema,
    }
