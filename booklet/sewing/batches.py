"""Floor 4: chains. Alike machine joins without a turn are fed under the needle one behind the other."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from booklet.geometry.tiling import Tiling
from booklet.pattern import By
from booklet.sewing.assembly import Batch, Step
from booklet.sewing.drafts import Draft
from booklet.sewing.stitches import best_setting


def batch_numbers(drafts: Sequence[Draft], card: Mapping[int, int]) -> dict[int, int]:
    """The batch of every step, counted from 1 in sewing order.

    Steps of one card that run through the machine without a turn are chained; every other step is a
    batch of its own. Steps of one card are on one level, since their parts are alike too.
    """
    numbers: dict[int, int] = {}
    last = 0
    chain: dict[int, int] = {}
    for draft in drafts:
        fresh = last + 1
        if draft.step_by is By.MACHINE and not draft.turns and not draft.declared.finish:
            fresh = chain.setdefault(card[draft.n], fresh)
        numbers[draft.n] = fresh
        last = max(last, fresh)
    return numbers


def batches(steps: Sequence[Step], tiling: Tiling) -> tuple[Batch, ...]:
    """The batches sewn by machine, each with the stitch length that fills its seams."""
    together: dict[int, list[Step]] = {}
    for step in steps:
        if step.by is By.MACHINE:
            together.setdefault(step.batch, []).append(step)
    return tuple(
        Batch(number, tuple(step.n for step in chained), best_setting(_lengths(chained, tiling)))
        for number, chained in sorted(together.items())
    )


def _lengths(steps: Sequence[Step], tiling: Tiling) -> list[float]:
    """The lengths in inches of all seams of the steps."""
    return [tiling.seam(seam).length for step in steps for run in step.runs for seam in run.seams]
