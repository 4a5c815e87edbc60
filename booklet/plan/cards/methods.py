"""Floor 9: how each block is sewn in each size: which steps by machine, which by hand, and how much."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from booklet.kit.records import Record
from booklet.pattern import By
from booklet.plan.records import BlockPlan, SizePlan, StepCard
from booklet.sewing.totals import totals


class BlockMethod(Record, kw_only=True):
    """One block in one size. A card counts as `both` where some of its seams are sewn by machine and
    some by hand. Inches, corners set in (points at which a seam turns) and threads are those of one block."""

    size: str  # the size's title
    block: str  # the block's title
    machine: tuple[int, ...]  # card numbers
    hand: tuple[int, ...]
    both: tuple[int, ...]
    machine_in: float
    hand_in: float
    corners: int
    threads: int


def methods(sizes: Iterable[SizePlan]) -> tuple[BlockMethod, ...]:
    """How every block that is made is sewn: block by block, the sizes of each side by side. Part blocks, which have
    their own kinds in every size, are left to their cards."""
    made = [
        (size, block)
        for size in sizes
        for block in size.blocks
        if block.cards and block.block.part is None
    ]
    order = list(dict.fromkeys(block.block.id for _, block in made))
    made.sort(key=lambda pair: order.index(pair[1].block.id))
    return tuple(_method(size, block) for size, block in made)


def other_orders(sizes: Iterable[SizePlan]) -> tuple[str, ...]:
    """The titles of blocks that are not sewn in the same steps in every size."""
    orders: dict[str, set[tuple[tuple[str, ...], ...]]] = {}
    for size in sizes:
        for block in size.blocks:
            if block.block.part is not None:
                continue
            steps = tuple(step.join for step in block.assembly.steps)
            orders.setdefault(block.block.title, set()).add(steps)
    return tuple(title for title, found in orders.items() if len(found) > 1)


def _method(size: SizePlan, block: BlockPlan) -> BlockMethod:
    sums = totals(block.assembly)
    ways = {card.n: ways_of(card) for card in block.cards}
    return BlockMethod(
        size=size.size.title,
        block=block.block.title,
        machine=tuple(n for n, way in ways.items() if way == {By.MACHINE}),
        hand=tuple(n for n, way in ways.items() if way == {By.HAND}),
        both=tuple(n for n, way in ways.items() if len(way) > 1),
        machine_in=sums.machine_in,
        hand_in=sums.hand_in,
        corners=sums.turns,
        threads=sums.thread_starts,
    )


def ways_of(card: StepCard) -> set[By]:
    """By machine, by hand, or both."""
    return {run.by for step in card.steps for run in step.runs} or {card.step.by}


def in_ranges(numbers: Sequence[int]) -> str:
    """Numbers in words, neighbours drawn together: "1–3, 5"."""
    groups: list[list[int]] = []
    for n in sorted(numbers):
        if groups and n == groups[-1][-1] + 1:
            groups[-1].append(n)
        else:
            groups.append([n])
    return ", ".join(str(g[0]) if len(g) == 1 else f"{g[0]}–{g[-1]}" for g in groups)
