"""Floor 4: the steps of a block whose order the tool is to find (`sew: auto`)."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from booklet.geometry.tiling import Tiling
from booklet.kit.records import Record, replace
from booklet.kit.remembered.memory import Ask, plainly
from booklet.pattern import DeclaredStep, Fabric, Sewing
from booklet.pattern.reads import prints, rules
from booklet.sewing.auto.choosing import Chosen, chosen
from booklet.sewing.auto.unscaled import Question, question_of, whoever_sews
from booklet.sewing.mosaic.likeness import Likeness
from booklet.sewing.mosaic.mosaic import mosaic_of
from booklet.sewing.order.ends import blocked_set_ins
from booklet.sewing.order.joins import draft_steps
from booklet.sewing.planner import Order, drawn_anew, find_order, steps_of, without_partials


class FoundOrder(Record):
    """The answer to a question: the best order found, and its steps."""

    order: Order
    steps: tuple[DeclaredStep, ...]


def planned(
    tiling: Tiling, sewing: Sewing, fabrics: Mapping[str, Fabric] = MappingProxyType({}),
    ask: Ask = plainly, first_told: bool = False, share: float = 1.0,
) -> tuple[Order | None, tuple[DeclaredStep, ...]]:  # fmt: skip
    """The best order found and its steps; no order for a block of one piece. If `first_told`, none as cheap is
    looked for that takes fewer cards or less thread, which is by far the longest part of the work. `share` is this block's
    part of the effort that a whole pattern may cost."""
    if len(tiling.pieces) < 2:
        return None, ()
    known = None if first_told else ways_known(tiling, sewing, fabrics, ask, share)
    if known is not None:
        return known.best.order, _placed(known.best.steps, tiling)
    found = ask(search_order, question_of(tiling, sewing, fabrics, first_told), ask)
    return found.order, _placed(found.steps, tiling)


def ways_known(
    tiling: Tiling, sewing: Sewing, fabrics: Mapping[str, Fabric], ask: Ask, share: float = 1.0
) -> Chosen | None:
    """The orders found with their routes; None of a block in which nothing is sewn by hand."""
    if len(tiling.pieces) < 2:
        return None
    return ask(with_routes, replace(tiling, size=""), rules(sewing), prints(fabrics), ask, share)


def with_routes(
    tiling: Tiling, sewing: Sewing, fabrics: Mapping[str, Fabric], ask: Ask, share: float
) -> Chosen | None:
    """The order found, which has the fewest turns, beside others that cost less with the routes of their threads."""
    found = ask(search_order, question_of(tiling, sewing, fabrics), ask)
    return chosen(tiling, sewing, fabrics, found.order, _placed(found.steps, tiling), share)


def _placed(steps: tuple[DeclaredStep, ...], tiling: Tiling) -> tuple[DeclaredStep, ...]:
    """The steps with a place in the source."""
    span = tiling.pieces[0].span
    return tuple(replace(s, span=span, join_spans=(span,) * len(s.join)) for s in steps)


def search_order(asked: Question, ask: Ask = plainly) -> FoundOrder:
    """The best order found of a block of two pieces or more.

    Partial seams that cannot be closed are taken as turns. Every tree of joins can be sewn then.
    """
    tiling, sewing = asked.tiling, asked.sewing
    order = ask(search_tree, whoever_sews(asked))
    order = drawn_anew(order, mosaic_of(tiling, sewing, order.costs))
    steps = steps_of(order, tiling)
    if order.partials and not _can_be_sewn(tiling, steps, sewing):
        order = without_partials(order)
        steps = steps_of(order, tiling)
    return FoundOrder(order, steps)


def search_tree(asked: Question) -> Order:
    """The best tree of joins found, by far the longest part of the work. What was found alike on the way is left out:
    it is large, and whoever remembers the order has no more need of it."""
    order = find_order(asked.tiling, asked.sewing, asked.fabrics, first_told=asked.first_told)
    return replace(order, likeness=Likeness(order.likeness.looks))


def _can_be_sewn(tiling: Tiling, steps: tuple[DeclaredStep, ...], sewing: Sewing) -> bool:
    drafts, _, faults = draft_steps(tiling, steps, sewing, tiling.pieces[0].span)
    return not faults and not list(blocked_set_ins(drafts, tiling, sewing))
