"""Floor 11, views: the rows of tables and lists, worked out of a plan so that templates only print."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator, Sequence

from markupsafe import Markup

from booklet.crafts.rotary.marks import ruler_step
from booklet.cutting.cutting_plan import CutPatch, FabricPlan
from booklet.drawing.templates.foundation_sheets import sheets_wanted
from booklet.kit.measure import INCH_MM, ZERO, Length, Printed, UnitSystem, other_units
from booklet.kit.outlines.plane import inward_corners
from booklet.kit.records import Record
from booklet.kit.trade import TEST_STRIP, WEB_WIDTH
from booklet.kit.words import (
    Digits,
    Phrase,
    Text,
    Value,
    area_text,
    by,
    exactly,
    listing,
    phrase,
    plural_phrase,
    with_unit,
)
from booklet.pages.style.paper import sheet_of
from booklet.pages.texts.lists import (
    GLOSSARY,
    SKILLS,
    TOOLS,
    TOOLS_APPLIED,
    TOOLS_BORDERS,
    TOOLS_CLIP,
    TOOLS_FOUNDATION,
    TOOLS_HAND,
    TOOLS_LAYERS,
    TOOLS_MACHINE,
    TOOLS_PAPERS,
    TOOLS_PRESS,
    TOOLS_SEWN_DOWN,
    TOOLS_TEMPLATES,
)
from booklet.pages.texts.true_fractions import NO_BREAK
from booklet.pages.texts.words import Words
from booklet.pattern import By, Fabric, Paper, Pattern
from booklet.plan import BlockPlan, SizePlan
from booklet.plan.cards.chaining import is_chained
from booklet.plan.cards.laid_on import web_length
from booklet.pressing.pressing import JunctionKind
from booklet.quilt.finishing.extras import ENVELOPE
from booklet.quilt.sized import SizedQuilt
from booklet.sewing.assembly import End, StepKind


def beside_text(value: Length, units: UnitSystem) -> Phrase:
    """The exact length that a cutting figure stands for, in the other units than `units`."""
    return with_unit(value, other_units(units), Printed.BESIDE)


def both_note(pattern: Pattern) -> Phrase | None:
    """What the figures in parentheses are, where a pattern prints both units."""
    if not pattern.both_units:
        return None
    if pattern.units == "inch":
        return phrase(
            "In parentheses stands the same size in centimeters, rounded up to the next 1/2 mm. Cut everything by one of "
            "the two rulers: cut by turns, the patches do not fit."
        )
    return phrase(
        "In parentheses stands the same size in inches, rounded up to the next 1/16 in. Cut everything by one of the two "
        "rulers: cut by turns, the patches do not fit."
    )


def to_cut(pattern: Pattern, *sides: Length) -> Phrase:
    """A cutting figure, or width and height, in a pattern's units; where it prints both, in the others, too."""
    own = [with_unit(side, pattern.units, Printed.CUT) for side in sides]
    beside = [beside_text(side, pattern.units) for side in sides]
    first, other = (each[0] if len(each) == 1 else by(each[0], each[1]) for each in (own, beside))
    return phrase("{width} ({other})", width=first, other=other) if pattern.both_units else first


class SizeRow(Record, kw_only=True):
    """One line of the table of sizes; `own` marks the size that is printed."""

    id: str
    title: str
    finished: Text
    blocks: Text
    block: Text
    own: bool


def size_rows(plans: Iterable[SizePlan], own: SizePlan | None = None) -> tuple[SizeRow, ...]:
    """The table of sizes; `own` is the one of them that is printed, where it is only one."""
    rows = []
    for plan in plans:
        size, units = plan.size, plan.pattern.units
        finished = area_text(plan.quilt.finished, units) if plan.quilt.finished else ""
        sides = dict.fromkeys(_block_size(block, units) for block in _told_by_size(plan))
        rows.append(
            SizeRow(
                id=size.id,
                title=size.title,
                finished=finished,
                blocks=_made(plan),
                block=listing(tuple(sides), "commas"),
                own=plan is own,
            )
        )
    return tuple(rows)


def _told_by_size(plan: SizePlan) -> list[BlockPlan]:
    """The blocks whose measures the table of sizes tells: the whole ones, where there are any."""
    made = [block for block in plan.blocks if block.count]
    return [block for block in made if block.block.part is None] or made


def _made(plan: SizePlan) -> Text:
    """How many blocks are made, and how they lie: of those across and down, and of those beside them."""
    size, made = plan.size, plan.blocks_made
    if not plan.quilt.finished:
        each = set(plan.quilt.blocks.values())
        if len(plan.quilt.blocks) < 2 or len(each) > 1:
            return str(made)
        return phrase("{made} ({n} of each)", made=made, n=each.pop())
    if size.quilt is not None and size.quilt.filled is not None:
        parts = sum(block.count for block in plan.blocks if block.block.part is not None)
        return plural_phrase(
            "{made} ({whole} whole, {n} part block)",
            "{made} ({whole} whole, {n} part blocks)",
            parts,
            made=made,
            whole=made - parts,
        )
    more = made - size.across * size.down
    across, down = size.across, size.down
    if not more:
        return phrase("{n} ({across} × {down})", n=made, across=across, down=down)
    return phrase(
        "{n} ({across} × {down} and {more} between them)",
        n=made,
        across=across,
        down=down,
        more=more,
    )


def _block_size(block: BlockPlan, units: UnitSystem) -> Text:
    """The finished measure of a block."""
    return area_text((block.tiling.width, block.tiling.height), units)


class Amount(Record):
    """What to buy in one size: the amount, and the same in the other measure."""

    buy: Text
    other: Text


class MaterialRow(Record):
    """One fabric over all sizes; an amount is None where a size does without it."""

    fabric: Fabric
    letter: str
    use: Markup
    amounts: tuple[Amount | None, ...]


def material_rows(
    plans: tuple[SizePlan, ...], words: Words, own: SizePlan | None
) -> tuple[MaterialRow, ...]:
    """The materials of all sizes in one table, in the order of the first size that has each; what a
    cloth is used for is told of the size `own`, or of all without counts, since they differ by size."""
    order: dict[str, Fabric] = {}
    for plan in plans:
        for line in plan.materials:
            order.setdefault(line.fabric.id, line.fabric)
    rows = []
    for number, (id, fabric) in enumerate(order.items(), 1):
        lines = [next((m for m in plan.materials if m.fabric.id == id), None) for plan in plans]
        named: list[Text] = [
            use
            for plan, line in zip(plans, lines, strict=True)
            if line is not None and own in (plan, None)
            for use in line.use
        ]
        told: Iterable[Value] = named
        if own is None and len(plans) > 1:
            told = dict.fromkeys(map(_uncounted, named))
        use = words.markup(
            listing(tuple(told), "semicolons") if named else phrase("not in this size")
        )
        use = Markup(str(use).replace(" × ", f"{NO_BREAK}×{NO_BREAK}"))
        amounts = tuple(Amount(m.buy, m.buy_other) if m else None for m in lines)
        rows.append(MaterialRow(fabric, str(number), use, amounts))
    return tuple(rows)


def _uncounted(use: Text) -> Value:
    """What a cloth is used for, without how many: "A square" of "A square × 12"."""
    if isinstance(use, Phrase):
        return dict(use.values).get("name", use)
    return use.split(" × ")[0]


class ClothView(Record):
    """What is cut from one fabric of one size."""

    fabric: Fabric
    plan: FabricPlan
    patches: tuple[CutPatch, ...]


def cloth_views(plan: SizePlan) -> tuple[ClothView, ...]:
    """The fabrics of a size in cutting order, each with its patches and parts."""
    return tuple(
        ClothView(
            plan.fabric(cloth.fabric),
            cloth,
            tuple(p for p in plan.cutting.patches if p.fabric == cloth.fabric),
        )
        for cloth in plan.cutting.fabrics
    )


def techniques(plans: Sequence[SizePlan]) -> frozenset[str]:
    """What is done in some sizes, by the keys of `GLOSSARY` and of `SKILLS`, and by who sews (`by_hand`, `by_machine`: where
    blocks have no steps, the top) and whether a seam `stops` at a matching point."""
    blocks = [block for plan in plans for block in plan.blocks]
    steps = [step for block in blocks for step in block.assembly.steps]
    layers = [layer for block in blocks for layer in block.layers]
    quilts = [plan.size.quilt for plan in plans if plan.size.quilt is not None]
    kinds, ways = {step.kind for step in steps}, {step.by for step in steps}
    meetings = {junction.kind for block in blocks for junction in block.pressing.junctions}
    seams = [seam for block in blocks for seam in block.assembly.sewn.values()]
    sets_in, by_hand = StepKind.SET_IN in kinds, By.HAND in ways
    over_papers = any(plan.size.sewing.papers for plan in plans)
    on_paper = any(block.assembly.papers for block in blocks)
    fused = any(layer.allowance is None for layer in layers)
    used = {
        "by_hand": by_hand,
        "by_machine": not steps or By.MACHINE in ways,
        "stops": any(End.POINT in seam.ends for seam in seams),
        "straight": True,
        "curved": any(len(seam.path) > 2 for block in blocks for seam in block.tiling.seams),
        "hand": by_hand and not over_papers,
        "papers": by_hand and over_papers,
        "backstitch": by_hand,
        "set_in": sets_in,
        "run": sets_in,
        "partial": StepKind.PARTIAL in kinds or any(step.leave for step in steps),
        "chain": any(is_chained(card) for block in blocks for card in block.cards),
        "nest": JunctionKind.NEST in meetings,
        "fan": JunctionKind.FAN in meetings,
        "applied": bool(layers),
        "turned under": any(layer.allowance is not None for layer in layers),
        "fused": fused,
        "web": fused,
        "foundation": on_paper,
        "section": on_paper,
        "fussy": any(patch.motif for block in blocks for patch in block.tiling.patches),
        "sashing": any(quilt.sashing for quilt in quilts),
        "cornerstone": any(quilt.sashing and quilt.sashing.cornerstones for quilt in quilts),
        "border": any(quilt.borders for quilt in quilts),
        "binding": any(quilt.binding for quilt in quilts),
        "backing": any(quilt.backing for quilt in quilts),
        "batting": any(quilt.batting for quilt in quilts),
    }
    return frozenset(key for key, is_used in used.items() if is_used)


_ALWAYS = frozenset(
    ("allowance", "block", "finished", "grain", "matching_point", "patch", "selvedge", "template", "unit")
)  # fmt: skip


def words_used(used: frozenset[str], words: Words) -> tuple[tuple[str, str], ...]:
    """The glossary: (word, meaning) of just the words that a booklet of some techniques uses, in alphabetical order."""
    keys = used | _ALWAYS
    told = [each for key, each in GLOSSARY.items() if key in keys]
    pairs = [(words.text(word), words.text(means)) for word, means in told]
    return tuple(sorted(pairs, key=lambda pair: _sorted_as(pair[0])))


def _sorted_as(word: str) -> str:
    """A word as it stands in alphabetical order: accents and capitals count for nothing."""
    return "".join(c for c in unicodedata.normalize("NFKD", word.casefold()) if c.isalpha())


def skills(used: frozenset[str], words: Words) -> tuple[Markup, ...]:
    """What the sewer needs to know for some techniques."""
    return tuple(words.markup(said) for key, said in SKILLS.items() if key in used)


def allowance_test(pattern: Pattern) -> tuple[Phrase, Phrase]:
    """The strips to sew and the width three of them must measure: 1 1/2 in and 3 1/2 in at 1/4 in.

    Each strip is 1 in and two allowances; three joined are 3 in and the two outer allowances.
    """
    one = TEST_STRIP.said_in(pattern.units)
    strip = one + 2 * pattern.allowance
    whole = 3 * one + 2 * pattern.allowance
    return exactly(strip, pattern.units), exactly(whole, pattern.units)


def tools(
    plans: tuple[SizePlan, ...], words: Words, paper: Paper, is_cut: bool = False
) -> tuple[Markup, ...]:
    """What is needed beside cloth; sheets for foundations are counted for a paper. No rotary cutter where all cloth `is_cut`
    and nothing is cut or trimmed after sewing."""
    found = [_ruler(plan) for plan in plans if not is_cut or _cuts_later(plan)]
    patches = (
        patch for plan in plans for block in plan.made_here for patch in block.tiling.all_patches
    )
    if any(not patch.on_paper for patch in patches):
        found += TOOLS_TEMPLATES
    found += TOOLS
    if inner_corners(plans):
        found += TOOLS_CLIP
    used = techniques(plans)
    if "by_machine" in used:
        found += TOOLS_MACHINE
    if "by_hand" in used:
        found += TOOLS_HAND
    if any(plan.size.sewing.papers for plan in plans):
        found += TOOLS_PAPERS
    layers = [layer for plan in plans for block in plan.made_here for layer in block.layers]
    if any(layer.by is By.HAND for layer in layers):
        found += TOOLS_HAND
    if layers:
        found += TOOLS_APPLIED
    found += [line for plan in plans for line in _web_words(plan, len(plans) > 1)]
    if sheets := [(plan, count) for plan in plans if (count := _sheets(plan, paper))]:
        found += [*_paper_words(sheets), *TOOLS_FOUNDATION]
    found += _finishing_tools([plan.quilt for plan in plans])
    found += [line for plan in plans for line in _pad_words(plan, len(plans) > 1)]
    return tuple(words.markup(tool) for tool in dict.fromkeys((*found, *TOOLS_PRESS)))


def _finishing_tools(quilts: Sequence[SizedQuilt]) -> Iterator[Phrase]:
    """What joining and finishing need beyond the blocks: borders are measured for, layers held and quilted, and a binding
    or a sleeve is sewn down by hand."""
    if any(quilt.borders for quilt in quilts):
        yield from TOOLS_BORDERS
    if any(quilt.backing or quilt.batting for quilt in quilts):
        yield from TOOLS_LAYERS
    if any(quilt.binding or any(p.name == "sleeve" for p in quilt.parts) for quilt in quilts):
        yield from TOOLS_SEWN_DOWN


def inner_corners(plans: Iterable[SizePlan]) -> bool:
    """Whether any patch that is sewn has an inner corner, in which its allowance is clipped."""
    patches = (
        patch for plan in plans for block in plan.made_here for patch in block.tiling.patches
    )
    return any(inward_corners(patch.outline.points) for patch in patches)


def _pad_words(plan: SizePlan, several: bool) -> Iterator[Text]:
    """What fills a cushion, as large as its front; of `several` sizes each by its name."""
    if plan.quilt.finished is not None and any(p.name == ENVELOPE for p in plan.quilt.parts):
        size = area_text(plan.quilt.finished, plan.pattern.units)
        said = phrase("Pillow form or cushion pad, {size}", size=size)
        yield phrase("{size}: {what}", size=plan.size.title, what=said) if several else said


def _web_words(plan: SizePlan, several: bool) -> Iterator[Text]:
    """The fusible web that a size takes; of `several` sizes each by its name."""
    width = WEB_WIDTH.said_in(plan.pattern.units)
    length = web_length(plan.cutting, width)
    if length > ZERO:
        said = phrase(
            "Paper-backed fusible web, {width} wide: {length}",
            width=with_unit(width, plan.pattern.units, Printed.CUT),
            length=with_unit(length, plan.pattern.units, Printed.CUT),
        )
        yield phrase("{size}: {what}", size=plan.size.title, what=said) if several else said


def _sheets(plan: SizePlan, paper: Paper) -> int:
    """How many sheets of paper the foundations of a size take."""
    return sheets_wanted(plan, *sheet_of(paper).template_area_mm)


def _paper_words(sheets: Sequence[tuple[SizePlan, int]]) -> Iterator[Text]:
    """The paper for foundations: of several sizes how much each takes."""
    if len(sheets) == 1:
        yield plural_phrase(
            "Thin paper for the foundations, {n} sheet", "Thin paper for the foundations, {n} sheets",
            sheets[0][1],
        )  # fmt: skip
        return
    each = [phrase("{title} {n}", title=plan.size.title, n=count) for plan, count in sheets]
    yield phrase("Thin paper for the foundations, sheets: {each}", each=listing(each, "commas"))


def _cuts_later(plan: SizePlan) -> bool:
    """Whether anything is cut or trimmed once it is sewn: units made together, units cut large, papers."""
    trims = any(plan.cutting.trims.values())
    return bool(plan.cutting.together) or trims or any(b.assembly.papers for b in plan.blocks)


def _ruler(plan: SizePlan) -> Text:
    """The ruler by whose marks a size is cut."""
    units = plan.pattern.units
    step = Length(ruler_step(plan.size.cutting.ruler, units))
    figure = (
        Digits(f"{float(step.inches) * INCH_MM:.3g} mm") if units == "cm" else exactly(step, units)
    )
    return phrase(
        "Rotary cutter, cutting mat, and a ruler with marks every {figure}", figure=figure
    )
