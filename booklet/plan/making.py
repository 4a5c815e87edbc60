"""Floor 9: makes the plan from a checked pattern, size by size and block by block."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from booklet.checks.checked import CheckedPattern
from booklet.cutting.cutting_plan import CuttingPlan, FabricPlan
from booklet.geometry.patches.congruence import letter_rank
from booklet.kit.measure import decimal_text, mixed
from booklet.kit.records import replace
from booklet.kit.remembered.memory import Ask, plainly
from booklet.kit.words import (
    Digits,
    Phrase,
    Text,
    area_text,
    at_least,
    large,
    listing,
    phrase,
    small,
)
from booklet.pattern import Fabric, Pattern, SetKind, Size
from booklet.pattern.reads import told, uncoloured, worded
from booklet.plan.cards.chaining import chained_together, feeding_words, laying_words
from booklet.plan.cards.laid_on import layer_cards
from booklet.plan.cards.on_paper import pressed_on_paper
from booklet.plan.cards.routes import hanging_words, thread_words
from booklet.plan.cards.sentences import look_alikes, what_to_do
from booklet.plan.cards.titles import card_title
from booklet.plan.naming import Naming
from booklet.plan.pressed.pressing_conflicts import conflict_words
from booklet.plan.pressed.pressing_joins import joining_words, version_words
from booklet.plan.pressed.pressing_table import press_table
from booklet.plan.pressed.pressing_words import (
    for_steps,
    how_to_press_all,
    over_papers,
    pressing_summary,
    used_in,
)
from booklet.plan.records import BlockPlan, FabricSummary, Plan, SizePlan, StepCard
from booklet.plan.top.join_table import join_table
from booklet.plan.top.top_plan import top_plan
from booklet.plan.workshop.sittings import sittings
from booklet.pressing import rim_meetings
from booklet.pressing.pressing import Pressing
from booklet.quilt.assembling.joining import joining_of
from booklet.quilt.assembling.top_pressing import press_top
from booklet.quilt.sized import SizedQuilt
from booklet.sewing.assembly import Assembly, Step
from booklet.sewing.rectangles import rectangle


def make_plan(
    checked: CheckedPattern, sizes: Sequence[str] | None = None, ask: Ask = plainly
) -> Plan:
    """The plan of the sizes asked for, or of all, in the order of the source."""
    whole = _plan_of(checked, sizes, ask)
    kits = _plan_of(checked.kits, sizes, ask) if checked.kits is not None else None
    parts = tuple(_plan_of(part, sizes, ask) for part in checked.parts)
    others = tuple(make_plan(one, sizes, ask) for one in checked.alternatives)
    whole = replace(whole, kits=kits, parts=parts, alternatives=others)
    if checked.student is None:
        return whole
    return replace(whole, student=replace(_plan_of(checked.student, sizes, ask), kits=kits))


def _plan_of(checked: CheckedPattern, sizes: Sequence[str] | None, ask: Ask) -> Plan:
    """The plan of what was checked, without what its class makes."""
    pattern = checked.pattern
    chosen = [s for s in pattern.sizes if not sizes or s.own_id in sizes]
    return Plan(pattern=pattern, sizes=tuple(_size_plan(checked, size, ask) for size in chosen))


def _size_plan(checked: CheckedPattern, size: Size, ask: Ask) -> SizePlan:
    """The plan of one size, with all that it was made without."""
    pattern, quilt = checked.pattern, checked.quilts[size.id]
    keys = [(size.id, block.id) for block in pattern.blocks if size.uses(block.id)]
    pressings = tuple(checked.pressings[key] for key in keys if key in checked.pressings)
    asked = uncoloured(size)
    made = ask(
        plan_size, told(pattern), asked, pressings, replace(quilt, size=asked), checked.cuts[size.id], ask
    )  # fmt: skip
    return replace(
        made,
        pattern=pattern,
        size=size,
        quilt=quilt,
        blocks=tuple(replace(b, block=pattern.block(b.block.id)) for b in made.blocks),
        materials=tuple(replace(m, fabric=size.fabrics[m.fabric.id]) for m in made.materials),
    )


def plan_size(
    pattern: Pattern, size: Size, pressings: tuple[Pressing, ...], quilt: SizedQuilt,
    cutting: CuttingPlan, ask: Ask = plainly,
) -> SizePlan:  # fmt: skip
    """The plan of one size, whose blocks are pressed so."""
    words = worded(size)
    blocks = tuple(
        _ready_made(ask(plan_block, pattern, words, pressing, quilt.blocks), size, cutting)
        for pressing in pressings
    )
    ready = size.in_class.ready if size.in_class else ()
    blocks = tuple(_sewn_before(b) if b.block.id in ready else b for b in blocks)
    if size.in_class and size.in_class.part and size.quilt is None:
        blocks = tuple(map(_joined_later, blocks))
    blocks = chained_together(blocks, size.fabrics)
    letters = {p.letter: None for block in blocks for p in block.tiling.all_patches}
    ordered = tuple(sorted(letters, key=letter_rank))
    tilings = {block.block.id: block.tiling for block in blocks}
    meet = any(rim_meetings(size, tilings))
    top = press_top(quilt, tilings)
    told = any(block.version_words for block in blocks)
    titles = {block.block.id: block.block.title for block in blocks}
    joined = joining_of(quilt, top, tilings, titles, float(pattern.allowance))
    joining = top_plan(joined, pattern, size) if joined is not None else None
    return SizePlan(
        pattern=pattern,
        size=size,
        blocks=blocks,
        quilt=quilt,
        cutting=cutting,
        materials=_materials(size, cutting, pattern),
        letters=ordered,
        join_words=tuple(joining_words(size, quilt, top, meet, told)),
        sittings=sittings(blocks, size.sewing.pace, joining),
        join_table=join_table(top, joined) if top is not None else (),
        top=top,
        joined_in=joined.order if joined is not None else None,
        joining=joining,
    )


def _joined_later(block: BlockPlan) -> BlockPlan:
    """A block of a part before the one in which the quilt is joined, which shows where its versions lie."""
    told = tuple(version_words(block.pressing, True, False, is_joined_later=True))
    return replace(block, version_words=told)


def _sewn_before(block: BlockPlan) -> BlockPlan:
    """A block that was sewn in an earlier part: nothing of its sewing is told."""
    bare = replace(block.assembly, steps=(), sewn={}, threads=(), batches=(), papers=())
    return replace(
        block, assembly=bare, cards=(), layers=(), press_table=(), thread_words=(), is_ready=True
    )


def plan_block(
    pattern: Pattern, size: Size, pressing: Pressing, counts: Mapping[str, int]
) -> BlockPlan:
    """The plan of one block, pressed so, of which and of others so many are made."""
    assembly, tiling = pressing.assembly, pressing.assembly.tiling
    english = pattern.language.startswith("en")  # other languages keep their capitals
    names = {id: f.name.lower() if english else f.name for id, f in size.fabrics.items()}
    titles = (name for block in pattern.blocks for name in (block.id, block.title))
    naming = Naming.of(assembly, names, titles, pattern.language)
    cards: dict[int, list[Step]] = {}
    for step in assembly.steps:
        cards.setdefault(step.card, []).append(step)
    others = any(made and id != tiling.block for id, made in counts.items())
    kind = size.quilt.set if size.quilt is not None else None
    drawn = others or kind is SetKind.LATTICE
    count = counts.get(tiling.block, 0)
    papers, thread = size.sewing.papers is not None, size.sewing.thread
    laid = layer_cards(tiling, names, pattern.units, thread, assembly, count, papers)
    return BlockPlan(
        block=pattern.block(tiling.block),
        layers=laid,
        over_papers=papers,
        tiling=tiling,
        assembly=assembly,
        pressing=pressing,
        cards=_told_apart(
            tuple(
                _card(pattern, tuple(alike), pressing, naming, count, size)
                for alike in cards.values()
            ),
            assembly.steps,
            naming,
        ),
        count=count,
        press_words=tuple(
            over_papers()
            if size.sewing.papers
            else (*pressed_on_paper(assembly), *pressing_summary(pressing, size.sewing.layers))
        ),
        thread_words=tuple(thread_words(assembly, pattern.units, float(thread), papers=papers)),
        press_table=() if size.sewing.papers else press_table(pressing, naming),
        version_words=tuple(version_words(pressing, drawn, kind is SetKind.ON_POINT)),
        conflict_words=tuple(conflict_words(pressing, naming)),
        measure=_unfinished(pattern, rectangle([p.id for p in tiling.pieces], tiling)),
        patch=naming.clothed(tiling.pieces[0].id) if not assembly.steps else "",
    )


def _told_apart(
    cards: tuple[StepCard, ...], steps: Sequence[Step], naming: Naming
) -> tuple[StepCard, ...]:
    """The cards, with the unit put before the title of those that share their title, or, where they share
    that too, behind it the steps that take what they make: pairs of stripes that run otherwise."""
    shared = _shared_titles(cards)
    named = tuple(
        replace(card, title=_with_unit(card, naming)) if card.title in shared else card
        for card in cards
    )
    still = _shared_titles(named)
    return tuple(
        replace(card, title=_with_use(card, steps)) if other.title in still else other
        for card, other in zip(cards, named, strict=True)
    )


def _shared_titles(cards: Sequence[StepCard]) -> set[Text]:
    """The titles that more than one card has."""
    return {title for title, count in Counter(card.title for card in cards).items() if count > 1}


def _with_use(card: StepCard, steps: Sequence[Step]) -> Text:
    """The title with the steps for which a card's units are made."""
    uses = used_in(card.steps, steps)
    if not uses:
        return card.title
    return phrase("{title}, {uses}", title=card.title, uses=for_steps(uses))


def _with_unit(card: StepCard, naming: Naming) -> Text:
    title = small(card.title) if isinstance(card.title, Phrase) else card.title
    return phrase("{unit}: {title}", unit=large(naming.unit(card.step)), title=title)


def _card(
    pattern: Pattern, steps: tuple[Step, ...], pressing: Pressing, naming: Naming, count: int, size: Size
) -> StepCard:  # fmt: skip
    step, papers = steps[0], size.sewing.papers is not None
    total = len(steps) * count
    notes = (step.note,) if step.note else ()
    return StepCard(
        n=step.card,
        step=step,
        steps=steps,
        title=card_title(step, naming),
        sentences=(
            *laying_words(step, naming, pressing, total),
            *what_to_do(step, naming, total, papers),
            *feeding_words(step, total),
            *hanging_words(steps, naming.assembly),
            *notes,
        ),
        make=len(steps),
        measure=None if papers else _unfinished(pattern, step.rectangle),
        press=() if papers else tuple(how_to_press_all(steps, pressing, naming, size.fabrics)),
        warnings=tuple(look_alikes(step, naming)),
        takes=naming.taken(_taken(step, naming.assembly), step),
        parts=tuple(naming.part(name) for name in step.join),
        total=total,
        setting=_setting(naming.assembly, step),
        makes=naming.made(step),
        picture=step.picture,
    )


def _ready_made(block: BlockPlan, size: Size, cutting: CuttingPlan) -> BlockPlan:
    """The block with its cards marked that units made together save, and those to be trimmed."""
    units = [
        (unit, pieces)
        for unit in cutting.together
        for id, pieces in unit.members
        if id == block.tiling.block
    ]
    trims = cutting.trims.get(block.tiling.block, frozenset())

    def marked(card: StepCard) -> StepCard:
        own = frozenset(card.step.pieces)
        ready = {
            step.n: unit
            for step in card.steps
            for unit, pieces in units
            if pieces.issuperset(step.pieces)
        }
        names = listing(tuple(dict.fromkeys(unit.name for unit in ready.values())))
        if len(ready) == len(card.steps):
            whole = any(own == pieces for _, pieces in units)
            each = min(unit.each for unit in ready.values())
            return replace(card, together=names, together_whole=whole, together_each=each)
        if ready:
            card = replace(
                card, sentences=(*card.sentences, _partly_ready(len(ready), card, names))
            )
        return replace(card, trim=card.measure is not None and card.step.n in trims)

    return replace(block, cards=tuple(marked(card) for card in block.cards))


def _partly_ready(count: int, card: StepCard, names: Text) -> Text:
    """What a card says where some of its units come with larger ones that are made together."""
    return phrase(
        "{n} of the {make} in a block come with {units} of the cutting page: make only the others.",
        n=count,
        make=len(card.steps),
        units=names,
    )


def _taken(step: Step, assembly: Assembly) -> tuple[str, ...]:
    """The parts a step takes in hand; for the rest of a partial seam it is the one unit it lies in."""
    if not step.finish:
        return step.join
    before = [s.make for s in assembly.steps[: step.n - 1] if set(s.pieces) == set(step.pieces)]
    return tuple(before[-1:]) or step.join


def _unfinished(pattern: Pattern, rectangle: tuple[float, float] | None) -> Text | None:
    """The unfinished size of a rectangle: finished plus an allowance on every side."""
    if rectangle is None:
        return None
    both = 2 * float(pattern.allowance)
    width, height = rectangle
    return area_text((width + both, height + both), pattern.units)


def _setting(assembly: Assembly, step: Step) -> Text | None:
    """The stitch length of the step's batch, where one fills its seams with whole stitches."""
    for batch in assembly.batches:
        if step.n in batch.steps and batch.setting_mm is not None:
            return phrase("{figure} mm", figure=Digits(f"{batch.setting_mm:.1f}"))
    return None


def _materials(size: Size, cutting: CuttingPlan, pattern: Pattern) -> tuple[FabricSummary, ...]:
    plans = {plan.fabric: plan for plan in cutting.fabrics}
    return tuple(
        _summary(fabric, plans[id], cutting, pattern)
        for id, fabric in size.fabrics.items()
        if id in plans
    )


def _summary(
    fabric: Fabric, plan: FabricPlan, cutting: CuttingPlan, pattern: Pattern
) -> FabricSummary:
    pieces: dict[str, int] = {}  # one patch may be cut in several lines, as of a print with an up
    for patch in cutting.patches:
        if patch.fabric == fabric.id:
            pieces[patch.title] = pieces.get(patch.title, 0) + patch.pieces
    uses = tuple(phrase("{name} × {n}", name=title, n=count) for title, count in pieces.items())
    stands = cutting.in_parts
    if stands and plan.buy.count is None and stands.bought_in[fabric.id] < stands.number:
        return FabricSummary(
            fabric, uses, phrase("bought in part {n}", n=stands.bought_in[fabric.id]), ""
        )
    yards = phrase("{figure} yd", figure=Digits(mixed(plan.buy.yards)))
    metres = phrase("{figure} m", figure=Digits(decimal_text(float(plan.buy.metres), 2)))
    if plan.buy.count is not None:
        amount = phrase("{n} × {unit}", n=plan.buy.count, unit=plan.buy.unit)
        width = at_least(plan.width, pattern.units)
        return FabricSummary(fabric, uses, amount, phrase("cloth {width} wide", width=width))
    metric_first = fabric.sold.metric or not pattern.language.startswith("en")
    first, other = (metres, yards) if metric_first else (yards, metres)
    return FabricSummary(fabric, uses, first, other)
