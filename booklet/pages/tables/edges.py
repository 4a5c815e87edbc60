"""Floor 11, the edge of the quilt: what the pages say of continuous bias and of a hanging sleeve."""

from __future__ import annotations

from booklet.kit.measure import Length
from booklet.kit.records import Record
from booklet.kit.words import Text, phrase
from booklet.pages.tables.view import cut_text, to_cut
from booklet.pages.texts.values import exactly, with_unit
from booklet.plan import SizePlan
from booklet.plan.cuts.joined import joined_words
from booklet.quilt.finishing.extras import sleeve_rule


class BiasView(Record):
    """Continuous bias binding: how many squares of which side, the width of the strips, the seam."""

    squares: int
    side: Text
    width: Text
    seam: Text


class SleeveView(Record, kw_only=True):
    """A hanging sleeve: the strip to cut, the hem at each end, the seam, the width of the tube, and what
    the strip is joined from where the cloth is too narrow."""

    size: Text
    hem: Text
    seam: Text
    width: Text
    joined: Text | None


def bias_view(plan: SizePlan) -> BiasView | None:
    """The words of bias binding; None where it is cut straight or there is none."""
    binding, units = plan.quilt.binding, plan.pattern.units
    if binding is None or not binding.bias or binding.square is None:
        return None
    seam = exactly(plan.pattern.allowance, units)
    side, width = (to_cut(plan.pattern, each) for each in (binding.square, binding.strip))
    return BiasView(binding.strips, side, width, seam)


def sleeve_view(plan: SizePlan) -> SleeveView | None:
    """The words of a hanging sleeve; None without one."""
    part = next((part for part in plan.quilt.parts if part.name == "sleeve"), None)
    if part is None:
        return None
    units = plan.pattern.units
    tube: Length = part.finished[1]
    rule = sleeve_rule(tube, units)
    joined = joined_words(plan.cutting, [("sleeve", phrase("the sleeve", context="for …"))], units)
    size = to_cut(plan.pattern, part.cut[1], part.cut[0])
    return SleeveView(
        size=size,
        hem=cut_text(rule.hem, units),
        seam=cut_text(rule.seam, units),
        width=with_unit(tube, units),
        joined=joined.sentence if joined is not None else None,
    )
