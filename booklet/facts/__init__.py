"""Floor 9: the facts. Everything the booklet says in numbers, as one JSON object, and its schema, both from the tables of
this room.

The names of the keys are an interface for other programs: keys may be added, never renamed. Lengths
are decimal inches (`_in`), areas square inches, coordinates inches in the block's own frame.
"""

from __future__ import annotations

import json

from booklet.crafts.rotary.marks import ruler_step
from booklet.cutting.cutting_plan import InParts, KeptForLater
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
    pair,
    record,
    several,
)
from booklet.facts.quilts import FINISHING, QUILT
from booklet.kit.measure import ZERO, Length
from booklet.kit.trade import WEB_WIDTH
from booklet.pattern import (
    BETWEEN,
    Alternative,
    AlternativeKind,
    CoverWish,
    Edition,
    Imprint,
    Instalment,
    Pattern,
    Session,
    Voice,
)
from booklet.pattern.spoken import voice_of
from booklet.plan.cards.laid_on import web_length
from booklet.plan.records import Plan, Portion, Sitting, SizePlan
from booklet.plan.workshop.kits import KitItem, Stack, StackedStrips, kit_items, stacked

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
    # fusible web for shapes with a raw edge: how wide it is, and how much of it
    maybe("fusible_web_in", pair(LENGTH), lambda size: _web(size)),
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
KIT_ITEM: FactKind[KitItem] = record(
    key("for", TEXT, lambda item: item.name),
    key("fabric", TEXT, lambda item: item.fabric),
    key("pieces", COUNT, lambda item: item.pieces),
    key("reversed", COUNT, lambda item: item.reversed),
)
STACK: FactKind[Stack] = record(
    key("layers", COUNT, lambda stack: stack.layers),
    key("cuts", COUNT, lambda stack: stack.cuts),
)
STACKED: FactKind[StackedStrips] = record(
    key("fabric", TEXT, lambda of: of.fabric),
    key("width_in", LENGTH, lambda of: of.width),
    key("strips", COUNT, lambda of: of.strips),
    key("stacks", several(STACK), lambda of: of.stacks),
    key("cuts", COUNT, lambda of: of.cuts),
    key("cuts_singly", COUNT, lambda of: of.cuts_singly),
    key("gives", by_name(COUNT), lambda of: dict(of.gives)),
)
# All kits of a size: what each holds, and the plan by which the cloth of all is cut.
KITS: FactKind[SizePlan] = record(
    key("kits", COUNT, lambda size: size.size.kits),
    key("each", several(KIT_ITEM), lambda size: kit_items(size)),
    key("cutting", by_name(CLOTH), lambda size: _cloths(size)),
    key("rotary", several(LINE), lambda size: _lines(size)),
    key("stacked", several(STACKED), lambda size: _stacked(size)),
)
# What one student makes of a size, where the class does not make the whole of it.
STUDENT: FactKind[SizePlan] = record(
    key("makes", by_name(COUNT), lambda size: {b.block.id: b.count for b in size.blocks}),
    key("cutting", by_name(CLOTH), lambda size: _cloths(size)),
    key("rotary", several(LINE), lambda size: _lines(size)),
    key("sittings", several(SITTING), lambda size: size.sittings),
)
SESSION: FactKind[Session] = record(
    key("title", TEXT, lambda session: session.title),
    key("minutes", COUNT, lambda session: session.minutes),
    key("break", FLAG, lambda session: session.is_break),
    maybe("start", TEXT, lambda session: _clock(session.start)),
    key("homework", several(TEXT), lambda session: session.homework),
    key("do", several(TEXT), lambda session: session.do),
)
CLASS: FactKind[Plan] = record(
    maybe("start", TEXT, lambda plan: _clock(plan.pattern.booklet.lesson.start)),
    key("homework", several(TEXT), lambda plan: plan.pattern.booklet.lesson.homework),
    maybe("sessions", several(SESSION), lambda plan: plan.pattern.booklet.lesson.sessions or None),
    maybe("students", COUNT, lambda plan: plan.pattern.booklet.lesson.students),
    maybe("spare_kits", COUNT, lambda plan: _spares(plan)),
    maybe("student", by_name(STUDENT), lambda plan: _by_size(plan.student)),
    maybe("kits", by_name(KITS), lambda plan: _by_size(plan.kits)),
)
KEPT: FactKind[KeptForLater] = record(
    key("for", TEXT, lambda kept: kept.name),
    maybe("fabric", TEXT, lambda kept: kept.fabric),
    key("count", COUNT, lambda kept: kept.count),
    key("part", COUNT, lambda kept: kept.until),
)
# What is made of a size in one part. Cuts and strips of all parts add up to those of the size; `buys` names the cloths whose
# amount is bought in it, for all parts.
IN_PART: FactKind[SizePlan] = record(
    key("makes", by_name(COUNT), lambda size: _makes(size)),
    key("joins_quilt", FLAG, lambda size: size.quilt.finished is not None),
    key("buys", several(TEXT), lambda size: _buys(size)),
    key("cutting", by_name(CLOTH), lambda size: _cloths(size)),
    key("rotary", several(LINE), lambda size: _lines(size)),
    key("together", several(TOGETHER), lambda size: size.cutting.together),
    key("ready", several(KEPT), lambda size: _stands(size).ready),
    key("kept", several(KEPT), lambda size: _stands(size).kept),
    key("cloth_left_in", by_name(LENGTH), lambda size: _stands(size).cloth_left),
    key("sittings", several(SITTING), lambda size: size.sittings),
)
PART: FactKind[tuple[Instalment, Plan]] = record(
    key("title", TEXT, lambda told: told[0].title),
    key("sizes", by_name(IN_PART), lambda told: {s.size.id: s for s in told[1].sizes}),
)
# What a size takes in a colourway or a layout.
IN_ALTERNATIVE: FactKind[SizePlan] = record(
    key("blocks", by_name(COUNT), lambda size: size.quilt.blocks),
    maybe("finished_in", several(LENGTH), lambda size: size.quilt.finished),
    key("cutting", by_name(CLOTH), lambda size: _cloths(size)),
    key("rotary", several(LINE), lambda size: _lines(size)),
)
# A colourway, a layout, or one of each combined; `own`: the pattern as it is, whose figures stand here again beside the others.
ALTERNATIVE: FactKind[tuple[Alternative, Plan]] = record(
    maybe("name", TEXT, lambda told: told[0].id or None),
    maybe("title", TEXT, lambda told: _called(*told)),
    key("own", FLAG, lambda told: told[0].is_own),
    key("sizes", by_name(IN_ALTERNATIVE), lambda told: {s.size.id: s for s in told[1].sizes}),
)
# An edition in one of its languages; `both_units`: the figures of cutting stand in the other units, too.
EDITION: FactKind[tuple[Edition, Voice]] = record(
    key("name", TEXT, lambda told: told[0].id),
    key("language", TEXT, lambda told: told[1].language),
    key("units", TEXT, lambda told: told[1].units),
    key("both_units", FLAG, lambda told: told[1].both),
    key("address", TEXT, lambda told: told[1].address.value),
    maybe("part", COUNT, lambda told: told[0].part or None),
    maybe("alternative", TEXT, lambda told: told[0].alternative or None),
)
# What a shop lists: each only where the author says it.
PUBLISHED: FactKind[Plan] = record(
    maybe("isbn", TEXT, lambda plan: _isbn(plan.pattern)),
    maybe("copyright", TEXT, lambda plan: plan.pattern.booklet.imprint.copyright or None),
    maybe("price", TEXT, lambda plan: plan.pattern.booklet.imprint.price or None),
    maybe("difficulty", TEXT, lambda plan: _difficulty(plan.pattern)),
    key("skills", several(TEXT), lambda plan: plan.pattern.booklet.cover.skills),
    key("contact", several(TEXT), lambda plan: _contacts(plan.pattern)),
)
FACTS: FactKind[Plan] = record(
    key("title", TEXT, lambda plan: plan.pattern.title),
    key("version", TEXT, lambda plan: plan.pattern.version),
    key("allowance_in", LENGTH, lambda plan: plan.pattern.allowance),
    key("language", TEXT, lambda plan: plan.pattern.language),
    key("editions", several(EDITION), lambda plan: _editions(plan.pattern)),
    key("sizes", by_name(SIZE), lambda plan: {size.size.id: size for size in plan.sizes}),
    maybe("parts", several(PART), lambda plan: _parts(plan)),
    maybe(
        "colourways",
        several(ALTERNATIVE),
        lambda plan: _side_by_side(plan, AlternativeKind.COLOURWAY),
    ),
    maybe(
        "layouts", several(ALTERNATIVE), lambda plan: _side_by_side(plan, AlternativeKind.LAYOUT)
    ),
    maybe("combined", several(ALTERNATIVE), lambda plan: _side_by_side(plan, AlternativeKind.BOTH)),
    maybe("published", PUBLISHED, lambda plan: plan if _is_published(plan.pattern) else None),
    maybe("class", CLASS, lambda plan: plan if _has_class(plan) else None),
)


def _has_class(plan: Plan) -> bool:
    lesson = plan.pattern.booklet.lesson
    return bool(plan.student or plan.kits or lesson.sessions or lesson.homework)


def _clock(minute: int | None) -> str | None:
    """A minute of the day by the clock: "9:30"."""
    return None if minute is None else f"{minute // 60}:{minute % 60:02d}"


def _editions(pattern: Pattern) -> list[tuple[Edition, Voice]]:
    return [(edition, voice_of(pattern, edition)) for edition in pattern.booklet.editions]


def _parts(plan: Plan) -> list[tuple[Instalment, Plan]] | None:
    """The parts, each with its plan; None where there are none."""
    return list(zip(plan.pattern.booklet.parts, plan.parts, strict=True)) or None


def _called(one: Alternative, plan: Plan) -> str | None:
    """The title of a colourway or layout, or those of both; None where it has none."""
    titles = [each.title for each in plan.pattern.alternatives_in(one.id)]
    return BETWEEN.join(titles) if one.kind is AlternativeKind.BOTH else one.title or None


def _side_by_side(plan: Plan, kind: AlternativeKind) -> list[tuple[Alternative, Plan]] | None:
    """The colourways, or the layouts; None where there are none."""
    return list(plan.side_by_side(kind)) or None


def _makes(size: SizePlan) -> dict[str, int]:
    return {b.block.id: b.count for b in size.blocks if not b.is_ready}


def _stands(size: SizePlan) -> InParts:
    stands = size.cutting.in_parts
    assert stands is not None
    return stands


def _buys(size: SizePlan) -> list[str]:
    """The cloths that are bought in a part; of cloth sold ready cut each part buys its own."""
    stands = _stands(size)
    return [
        cloth.fabric
        for cloth in size.cutting.fabrics
        if cloth.stock is not None or stands.bought_in[cloth.fabric] == stands.number
    ]


def _isbn(pattern: Pattern) -> str | None:
    """The 13 digits."""
    return pattern.booklet.imprint.isbn.digits if pattern.booklet.imprint.isbn else None


def _difficulty(pattern: Pattern) -> str | None:
    found = pattern.booklet.cover.difficulty
    return found.value if found else None


def _contacts(pattern: Pattern) -> list[str]:
    return [link.address for link in pattern.booklet.imprint.contact]


def _is_published(pattern: Pattern) -> bool:
    return pattern.booklet.imprint != Imprint() or pattern.booklet.cover != CoverWish()


def _spares(plan: Plan) -> int | None:
    return plan.pattern.booklet.lesson.spares if plan.kits is not None else None


def _by_size(plan: Plan | None) -> dict[str, SizePlan] | None:
    """The sizes of a plan of the class by their own names; None without one."""
    if plan is None:
        return None
    return {size.size.own_id: size for size in plan.sizes}


def _stacked(size: SizePlan) -> list[StackedStrips]:
    return [found for cloth in size.cutting.fabrics for found in stacked(size.cutting, cloth)]


def _blocks(size: SizePlan) -> dict[str, BlockFacts]:
    trims = size.cutting.trims
    return {b.block.id: BlockFacts(b, trims.get(b.block.id, ())) for b in size.blocks}


def _web(size: SizePlan) -> tuple[Length, Length] | None:
    width = WEB_WIDTH.said_in(size.pattern.units)
    length = web_length(size.cutting, width)
    return (width, length) if length > ZERO else None


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
