"""Floor 10: which signs the pictures of some sizes use, so that a booklet explains these and no others."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.kit.records import Record
from booklet.pattern import By
from booklet.plan import BlockPlan, SizePlan
from booklet.plan.cards.frames import stages
from booklet.plan.cards.routes import opened_along
from booklet.sewing.assembly import End


class SignsUsed(Record, kw_only=True):
    """What the pictures show, and so which of their signs have to be explained."""

    machine: bool
    hand: bool
    stops: bool  # seams that start or stop at a point
    turns: bool
    opened: bool  # earlier seams that are spread to let a corner in
    through: bool  # allowances that the needle passes through
    threads: bool  # hand routes, which begin and end with a backstitch
    partial: bool
    curved: bool
    to_a_side: bool  # allowances pressed to one side
    pressed_open: bool


def signs_used(sizes: Sequence[SizePlan]) -> SignsUsed:
    """The signs that the pictures of these sizes show."""
    blocks = [block for size in sizes for block in _sewn(size)]
    steps = [step for block in blocks for step in block.assembly.steps]
    runs = [run for step in steps for run in step.runs]
    threads = [thread for block in blocks for thread in block.assembly.threads]
    toward = [one.toward for block in blocks for one in block.pressing.pressed.values()]
    sewn = {run.by for run in runs} | {card.by for block in blocks for card in block.layers}
    ends = {end for block in blocks for seam in block.assembly.sewn.values() for end in seam.ends}
    return SignsUsed(
        machine=By.MACHINE in sewn,
        hand=By.HAND in sewn,
        stops=End.POINT in ends or bool(threads),
        turns=any(run.turns for run in runs) or any(thread.turns for thread in threads),
        opened=any(map(_is_opened, blocks)),
        through=any(thread.through for thread in threads),
        threads=bool(threads),
        partial=any(step.leave is not None or step.finish for step in steps),
        curved=any(len(seam.path) > 2 for block in blocks for seam in block.tiling.seams),
        to_a_side=any(one is not None for one in toward),
        pressed_open=None in toward,
    )


def _sewn(size: SizePlan) -> tuple[BlockPlan, ...]:
    """The blocks of a size, and its top where that is sewn step by step."""
    return (*size.blocks, *(() if size.joining is None else (size.joining,)))


def _is_opened(block: BlockPlan) -> bool:
    """Whether an earlier seam of a block is spread somewhere to let a corner in."""
    return any(
        opened_along(block.assembly, step, stage)
        for step in block.assembly.steps
        if any(run.turns for run in step.runs)
        for stage in stages(step, block.assembly)
    )
