"""Floor 11: what is cut for one block, where an edition goes block by block: its patches, from the strips of the plan of all."""

from __future__ import annotations

from functools import partial

from booklet.crafts.method import Family
from booklet.cutting.cutting_plan import CutPatch
from booklet.kit.records import Record
from booklet.kit.words import Text, listing, phrase
from booklet.pages.tables.view import to_cut
from booklet.pattern import Fabric, Pattern
from booklet.plan import BlockPlan, SizePlan
from booklet.plan.cuts.cut_words import by_shape, how_cut, is_drawn_round


class BlockCut(Record, kw_only=True):
    """A line of a block's own cutting table: so many of a patch of one cloth in one block and in all blocks of this kind,
    its figure, how it is cut from there, and the widths of the strips that hold it."""

    title: Text
    fabric: Fabric
    figure: Text
    how: Text
    strips: Text
    each: int
    whole: int


def block_cuts(plan: SizePlan, block: BlockPlan) -> tuple[BlockCut, ...]:
    """What is cut for the blocks of one kind, in the order of cutting; pieces of units made together stand on the page of
    these."""
    found: dict[tuple[str, str], BlockCut] = {}
    said = partial(to_cut, plan.pattern)
    for patch in plan.cutting.patches:
        each = dict(patch.per_block).get(block.block.id, 0)
        if not each:
            continue
        key, before = (patch.name, patch.fabric), found.get((patch.name, patch.fabric))
        each += before.each if before is not None else 0
        found[key] = BlockCut(
            title=patch.title,
            fabric=plan.fabric(patch.fabric),
            figure=_figure(patch, plan.pattern),
            how=listing(how_cut(patch, (), plan.fabric(patch.fabric).direction, said), "sentences"),
            strips=_strips(plan, patch),
            each=each,
            whole=each * block.count,
        )
    return tuple(found.values())


def _figure(patch: CutPatch, pattern: Pattern) -> Text:
    """The figure that is cut from the strip: a template, a square's side, a rectangle's sides; nothing where the strip's
    width says it."""
    if by_shape(patch) or is_drawn_round(patch):
        return phrase("Template {name}", name=patch.name)
    if patch.method.family in (Family.SLANTED, Family.IN_A_ROW):
        return ""
    return to_cut(pattern, *dict.fromkeys(patch.cut))


def _strips(plan: SizePlan, patch: CutPatch) -> Text:
    """The widths of the strips from which a patch is cut."""
    widths = {
        strip.width
        for cloth in plan.cutting.fabrics
        if cloth.fabric == patch.fabric
        for strip in cloth.strips
        if any(use.name == patch.name for use in strip.uses)
    }
    return listing(
        [to_cut(plan.pattern, width) for width in sorted(widths, reverse=True)], "commas"
    )
