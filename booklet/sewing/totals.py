"""Floor 4: the sums of a block's sewing, as the facts and the booklet give them."""

from __future__ import annotations

from booklet.kit.records import Record
from booklet.pattern import By
from booklet.sewing.assembly import Assembly


class Totals(Record, kw_only=True):
    """Seams of the block, inches sewn by machine and by hand (a partial seam counted once), joins
    with a turn, turns over all joins, and how often a hand thread is begun."""

    seams: int
    machine_in: float
    hand_in: float
    set_in_joins: int
    turns: int
    thread_starts: int


def totals(assembly: Assembly) -> Totals:
    """The sums of one block."""
    tiling = assembly.tiling
    inches = dict.fromkeys(By, 0.0)
    for sewn in assembly.sewn.values():
        inches[sewn.by] += tiling.seam(sewn.seam).length
    return Totals(
        seams=len(tiling.seams),
        machine_in=inches[By.MACHINE],
        hand_in=inches[By.HAND],
        set_in_joins=sum(1 for step in assembly.steps for run in step.runs if run.turns),
        turns=sum(step.turns for step in assembly.steps),
        thread_starts=len(assembly.threads),
    )
