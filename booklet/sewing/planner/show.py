"""Floor 4, the planner: an order as text for the terminal: its steps, its turns, what is proven."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.sewing.assembly import Assembly, Step, StepKind
from booklet.sewing.planner.best_order import Order
from booklet.sewing.planner.judge import Verdict, count

_KINDS = {
    StepKind.STRAIGHT: "straight",
    StepKind.SET_IN: "set-in",
    StepKind.CURVED: "curved",
    StepKind.PARTIAL: "partial seam",
    StepKind.RING: "closes a ring",
}
MOST_NAMES = 6


def order_text(assembly: Assembly, order: Order | None, title: str, own: Verdict | None) -> str:
    """The order of a block, a line for every card, then its sums beside the least that is proven, and
    the verdict on the author's own order if there is one."""
    tiling = assembly.tiling
    head = f"{title}: {count(len(tiling.pieces), 'patch').replace('patchs', 'patches')}, "
    lines = [head + count(len(tiling.seams), "seam")]
    lines += _cards(assembly.steps)
    lines += [f"  {sentence}" for sentence in _sums(assembly, order)]
    if own is not None:
        lines.append(f"  the order in the pattern: {own.sentence}")
    return "\n".join(lines) + "\n"


def sections_text(assembly: Assembly, title: str, own: Assembly | None) -> str:
    """The sections of a block on printed paper, a line for every card, then their number beside the fewest that is
    proven, and that of the author's own if there are any."""
    pieces, least = len(assembly.tiling.pieces), assembly.fewest_papers
    sections, kinds = len(assembly.papers), len({paper.letter for paper in assembly.papers})
    head = count(pieces, "patch").replace("patchs", "patches")
    lines = [f"{title}: {head} on printed paper", *_cards(assembly.steps)]
    different = f", {kinds} of them different" if 1 < kinds < sections else ""
    lines.append(f"  {count(sections, 'section')}{different}")
    lines.append(
        "  no fewer would do"
        if least == sections
        else f"  at least {least} are needed; the search was cut short, so fewer may do"
    )
    if own is not None:
        lines.append(f"  the order in the pattern: {count(len(own.papers), 'section')}")
    return "\n".join(lines) + "\n"


def _cards(steps: Sequence[Step]) -> Iterator[str]:
    """A line for every card: how often, what is made, what is joined, and how it is sewn."""
    cards: dict[int, list[Step]] = {}
    for step in steps:
        cards.setdefault(step.card, []).append(step)
    for alike in cards.values():
        first = alike[0]
        if first.finish:
            what = f"finish the seam between {' and '.join(first.join)}"
        else:
            what = f"{_names(alike)} = {' + '.join(first.join)}"
        often = f"make {len(alike)}: " if len(alike) > 1 else ""
        yield f"  {first.card:3}  {often}{what}  ({', '.join(_manner(first))})"


def _names(alike: Sequence[Step]) -> str:
    """The units a card makes, by name; of many the first and the last."""
    names = [step.make for step in alike]
    return ", ".join(names) if len(names) <= MOST_NAMES else f"{names[0]} … {names[-1]}"


def _manner(step: Step) -> Iterator[str]:
    """How a step is sewn."""
    yield f"by {step.by.value}"
    yield _KINDS[step.kind]
    if step.turns:
        yield count(step.turns, "turn")
    if step.leave:
        yield f"stop short where {step.leave} will come"


def _sums(assembly: Assembly, order: Order | None) -> Iterator[str]:
    """Turns, joins with a turn, partial seams, threads; the bound and how it is known."""
    if order is None:
        yield "one patch: nothing is joined"
        return
    turns = sum(step.turns for step in assembly.steps)
    runs = sum(bool(run.turns) for step in assembly.steps for run in step.runs)
    parts = [f"{count(turns, 'turn')} in {count(runs, 'set-in')}" if turns else "no turns"]
    if order.partials:
        parts.append(count(len(order.partials), "partial seam"))
    if assembly.threads:
        parts.append(count(len(assembly.threads), "hand thread"))
    yield ", ".join(parts)
    rings = " that closes no ring" if "programme" in order.methods else ""
    if not turns and not order.partials:
        yield "sewn straight throughout"
    elif order.costs.count_turns:
        yield _beside_fewest(order, rings)
    else:
        yield _beside_cheapest(order, rings)


def _beside_fewest(order: Order, rings: str) -> str:
    """The turns beside the fewest there can be."""
    if order.proven:
        return f"no order{rings} has fewer"
    least = count(round(order.bound), "turn")
    return f"at least {least} are needed, so this may be up to {order.gap:.0%} above the fewest"


def _beside_cheapest(order: Order, rings: str) -> str:
    """The cost beside the least there can be, with what was reckoned."""
    costs = order.costs
    reckoned = (
        f"costs {order.cost:g}, with {costs.machine:g} for a turn by machine, {costs.hand:g} for one by "
        f"hand, {costs.partial:g} for a partial seam"
    )
    if order.proven:
        return f"{reckoned}: no order{rings} costs less"
    return f"{reckoned}: every order costs at least {order.bound:g}, so {order.gap:.0%} may be saved at most"
