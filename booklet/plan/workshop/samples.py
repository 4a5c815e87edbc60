"""Floor 9: a board of samples for a class: which stages to sew in advance, and what to cut for them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from booklet.kit.records import Record
from booklet.plan.records import BlockPlan, SizePlan, StepCard

MOST_SAMPLES = 6
"""Stages on a board: more are not taken in at a glance. Our choice."""

Cut = tuple[str, str]
"""Patch letter and fabric."""


class Sample(Record, kw_only=True):
    """A stage to show: a block as far as a card has it, and how many patches of each cloth that takes."""

    block: BlockPlan
    card: StepCard
    patches: tuple[tuple[Cut, int], ...]


def samples(plan: SizePlan) -> tuple[Sample, ...]:
    """The stages to show, in the order of the steps: all where they are few, else of each block the whole, the first
    of every kind of join, and then those that grow the most."""
    cards = [(block, card) for block in plan.blocks if block.count for card in block.cards]
    if len(cards) > MOST_SAMPLES:
        ranked = sorted(range(len(cards)), key=lambda n: _rank(cards, n))
        cards = [cards[n] for n in sorted(ranked[:MOST_SAMPLES])]
    return tuple(
        Sample(block=block, card=card, patches=_patches(block, card)) for block, card in cards
    )


def _rank(cards: Sequence[tuple[BlockPlan, StepCard]], n: int) -> tuple[int, int]:
    """What is shown before what, of the stage that is n-th: lower is sooner."""
    block, card = cards[n]
    if card is block.cards[-1]:
        return 0, n
    kinds = [(other.step.kind, other.step.by) for _, other in cards[:n]]
    if (card.step.kind, card.step.by) not in kinds:
        return 1, n
    return 2, -len(card.step.pieces)


def _patches(block: BlockPlan, card: StepCard) -> tuple[tuple[Cut, int], ...]:
    """The patches of what a card makes, by letter and cloth."""
    pieces = [block.tiling.piece(id) for id in card.step.pieces]
    return tuple(sorted(Counter((piece.patch, piece.fabric) for piece in pieces).items()))


def cut_for(found: Sequence[Sample]) -> tuple[tuple[Cut, int], ...]:
    """The patches of all samples together, by letter and cloth."""
    whole: Counter[Cut] = Counter()
    for sample in found:
        whole.update(dict(sample.patches))
    return tuple(sorted(whole.items()))
