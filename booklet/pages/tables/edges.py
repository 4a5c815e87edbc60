"""Floor 11, the edge of the quilt: what the pages say of continuous bias, of a hanging sleeve and of the back that closes a cushion."""

from __future__ import annotations

from booklet.kit.measure import Length, Printed
from booklet.kit.records import Record
from booklet.kit.trade import ENVELOPE_HEM
from booklet.kit.words import Text, exactly, phrase, with_unit
from booklet.pages.tables.view import to_cut
from booklet.plan import SizePlan
from booklet.plan.cuts.joined import joined_words
from booklet.quilt.finishing.extras import ENVELOPE, sleeve_rule
from booklet.quilt.sums import sewable


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


class EnvelopeView(Record, kw_only=True):
    """The back that closes a cushion: the size of a half as cut, how long its hem is, what is folded over twice, how far
    one half lies over the other, and what the front measures under the ruler."""

    size: Text
    long: Text
    fold: Text
    lap: Text
    front: Text


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
        hem=with_unit(rule.hem, units, Printed.CUT),
        seam=with_unit(rule.seam, units, Printed.CUT),
        width=with_unit(tube, units),
        joined=joined.sentence if joined is not None else None,
    )


def envelope_view(plan: SizePlan) -> EnvelopeView | None:
    """The words of the back that closes a cushion; None without one."""
    part = next((part for part in plan.quilt.parts if part.name == ENVELOPE), None)
    wish = plan.size.quilt.envelope if plan.size.quilt is not None else None
    if part is None or wish is None or plan.quilt.finished is None:
        return None
    units = plan.pattern.units
    # trimmed to the mark to which the halves are cut: they are sewn to it raw edge on raw edge
    front_high = sewable(plan.quilt.finished[1] + 2 * plan.pattern.allowance, units)
    return EnvelopeView(
        size=to_cut(plan.pattern, *part.cut),
        long=to_cut(plan.pattern, part.cut[0]),
        fold=with_unit(ENVELOPE_HEM.said_in(units) / 2, units, Printed.CUT),
        lap=with_unit(wish.lap, units),
        front=to_cut(plan.pattern, part.cut[0], front_high),
    )
