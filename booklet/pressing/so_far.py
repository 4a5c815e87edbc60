"""Floor 5: how the allowances lie of a block that is only begun: of what is sewn so far, alone."""

from __future__ import annotations

from collections.abc import Mapping

from booklet.kit.records import replace
from booklet.kit.remembered.memory import Ask
from booklet.pattern import Size
from booklet.pattern.reads import meeting
from booklet.pressing.pressing import Pressing
from booklet.pressing.stage import press_size
from booklet.sewing.assembly import Assembly


def press_so_far(size: Size, begun: Assembly, allowance: float, ask: Ask) -> Pressing:
    """The pressing of the seams sewn so far, whatever will lie beside the block; its points are those whose seams are all
    sewn. `allowance` in inches."""
    alone = replace(meeting(size), quilt=None)
    made, _ = ask(press_size, alone, {begun.tiling.block: begun}, allowance)
    return made[begun.tiling.block]


def press_in_place(
    size: Size,
    whole: Assembly,
    others: Mapping[str, Assembly],
    allowance: float,
    ask: Ask,
) -> Pressing:
    """The pressing of a block that is sewn, where it lies among the other blocks of its size."""
    block = whole.tiling.block
    order = [*others, block] if block not in others else list(others)
    beside = {id: whole if id == block else others[id] for id in order}
    made, _ = ask(press_size, meeting(size), beside, allowance)
    return made[block]
