"""Floor 10: which signs the pictures of some sizes use, so that a booklet explains these and no others."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record
from booklet.pattern import By
from booklet.plan import BlockPlan, SizePlan
from booklet.plan.cards.frames import Stage, stages
from booklet.plan.cards.routes import clipped_at, opened_along
from booklet.sewing.assembly import Assembly, End, Step, Thread


class SignsUsed(Record, kw_only=True):
    """What the pictures show, and so which of their signs have to be explained."""

    machine: bool
    hand: bool
    stops: bool  # seams that start or stop at a point
    turns: bool
    clipped: bool  # inner corners of patches, whose allowance is clipped
    opened: bool  # earlier seams that are spread to let a corner in
    through: bool  # allowances that the needle passes through
    threads: bool  # hand routes, which begin and end with a backstitch
    papers: (
        bool  # or, where all of them join edges folded over papers, with a few stitches on one spot
    )
    partial: bool
    curved: bool
    to_a_side: bool  # allowances pressed to one side
    pressed_open: bool


def signs_used(sizes: Sequence[SizePlan]) -> SignsUsed:
    """The signs that the pictures of these sizes show."""
    blocks = [block for size in sizes for block in _sewn(size)]
    steps = [step for block in blocks for step in block.assembly.steps]
    runs = [run for step in steps for run in step.runs]
    in_allowances = [block for block in blocks if not block.over_papers]
    threads = _threads(blocks)
    toward = [one.toward for block in blocks for one in block.pressing.pressed.values()]
    sewn = {run.by for run in runs} | {card.by for block in blocks for card in block.layers}
    ends = {end for block in blocks for seam in block.assembly.sewn.values() for end in seam.ends}
    return SignsUsed(
        machine=By.MACHINE in sewn,
        hand=By.HAND in sewn,
        stops=End.POINT in ends or bool(threads),
        turns=any(run.turns for run in runs) or any(thread.turns for thread in threads),
        clipped=any(_any_stage(clipped_at, block) for block in in_allowances),
        opened=any(_any_stage(opened_along, block) for block in in_allowances),
        through=any(thread.through for thread in _threads(in_allowances)),
        threads=bool(threads),
        papers=not _threads(in_allowances),
        partial=any(step.leave is not None or step.finish for step in steps),
        curved=any(len(seam.path) > 2 for block in blocks for seam in block.tiling.seams),
        to_a_side=any(one is not None for one in toward),
        pressed_open=None in toward,
    )


def _threads(blocks: Sequence[BlockPlan]) -> list[Thread]:
    """The hand threads of some blocks."""
    return [thread for block in blocks for thread in block.assembly.threads]


def _sewn(size: SizePlan) -> tuple[BlockPlan, ...]:
    """The blocks of a size, and its top where that is sewn step by step."""
    return (*size.blocks, *(() if size.joining is None else (size.joining,)))


def _any_stage(
    found: Callable[[Assembly, Step, Stage], Mapping[Point, object]], block: BlockPlan
) -> bool:
    """Whether anything is found at a turn of any step of a block."""
    return any(
        found(block.assembly, step, stage)
        for step in block.assembly.steps
        if any(run.turns for run in step.runs)
        for stage in stages(step, block.assembly)
    )
