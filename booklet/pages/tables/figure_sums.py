"""Floor 11, sums of figures: how every cut size and every part of the quilt came about."""

from __future__ import annotations

from collections.abc import Iterable

from markupsafe import Markup

from booklet.crafts.method import LENGTHWISE
from booklet.cutting.cutting_plan import CutPatch
from booklet.kit.records import Record
from booklet.kit.words import Text, phrase
from booklet.pages.texts.words import Words
from booklet.plan import SizePlan
from booklet.plan.cuts.joined import join_sum
from booklet.quilt.finishing.binding import join_loss, last_strip_sum, strips_sum
from booklet.quilt.sized import BindingPlan, Part


class SumGroup(Record):
    """Sums under one heading."""

    heading: Markup
    lines: tuple[Markup, ...]


def figure_sums(plan: SizePlan, words: Words) -> tuple[SumGroup, ...]:
    """The sums of the cut sizes of patches, and of the parts of the quilt; each said once."""
    quilt = plan.quilt
    parts = [
        *quilt.sums,
        *(line for part in quilt.parts for line in (*part.sums, *_join_sums(plan, part))),
        *(_binding_sums(plan, quilt.binding) if quilt.binding else ()),
        *(quilt.backing.sums if quilt.backing else ()),
        *quilt.batting_sums,
        *(quilt.bed.sums if quilt.bed else ()),
    ]
    groups = (
        (
            phrase("How the cut sizes were worked out"),
            _patch_sums(plan.cutting.patches, plan, words),
        ),
        (phrase("How the parts of the quilt were worked out"), _said(parts, words)),
    )
    return tuple(SumGroup(words.markup(head), lines) for head, lines in groups if lines)


def _binding_sums(plan: SizePlan, binding: BindingPlan) -> tuple[Text, ...]:
    """How long the binding is, and how many strips it takes as they are cut: across the cloth, or beside a border
    along the selvedge."""
    cut = next((patch for patch in plan.cutting.patches if patch.name == "binding"), None)
    if binding.bias or cut is None:
        return binding.sums
    around, units = binding.sums[0], plan.pattern.units
    strips, loss = cut.pieces // plan.size.kits, join_loss(binding.strip)
    counted = strips_sum(binding.length, max(cut.cut), loss, strips, units)
    last = () if cut.method == LENGTHWISE else last_strip_sum(binding, max(cut.cut), units)
    return around, counted, *last


def _join_sums(plan: SizePlan, part: Part) -> tuple[Text, ...]:
    """How a part longer than the cloth is wide comes together; nothing of one cut whole."""
    made = plan.cutting.joined(part.name)
    if made is None:
        return ()
    join, pieces = made
    sums = (join_sum(join, piece, plan.pattern.units) for piece in pieces)
    return tuple(phrase("{part}, joined: {sum}", part=part.title, sum=line) for line in sums)


def _patch_sums(patches: Iterable[CutPatch], plan: SizePlan, words: Words) -> tuple[Markup, ...]:
    """A line for each patch and each way it is cut; units made together have one between their pieces."""
    lines: list[Text] = []
    named = {cut.name: unit.name for unit in plan.cutting.together for cut in unit.cuts}
    for patch in patches:
        if patch.outline is not None or patch.is_applied or patch.name in named:
            name = named.get(patch.name, patch.title)
            lines.append(phrase("{name}: {sum}", name=name, sum=patch.sum))
    return _said(lines, words)


def _said(lines: Iterable[Text], words: Words) -> tuple[Markup, ...]:
    return tuple(dict.fromkeys(words.markup(line) for line in lines))
