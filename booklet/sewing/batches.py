"""Floor 4: chains. Alike machine joins without a turn are fed under the needle one behind the other, at the stitch length
that fills their seams with whole stitches."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

from booklet.geometry.tiling import Tiling
from booklet.kit.measure import MM_PER_INCH
from booklet.kit.outlines.near import WHOLE
from booklet.pattern import By
from booklet.sewing.assembly import Batch, Step
from booklet.sewing.drafts import Draft


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


_TENTHS = range(20, 31)  # the settings 2.0, 2.1, … 3.0 mm
_LARGEST_SHORTFALL_MM = 0.6


def stitches(length_mm: float, setting_mm: float) -> int:
    """How many whole stitches of a setting fit into a seam; both in millimetres."""
    return math.floor(length_mm / setting_mm + WHOLE)


def shortfall(length_mm: float, setting_mm: float) -> float:
    """How many millimetres of a seam are left after its whole stitches."""
    return max(0.0, length_mm - stitches(length_mm, setting_mm) * setting_mm)


def best_setting(lengths_in: Iterable[float]) -> float | None:
    """The stitch length in mm that leaves at most 0.6 mm of every seam (given in inches) unfilled.

    Of those that do, the one nearest to 2.5 mm; of two equally near, the smaller shortfall. None if
    no setting from 2.0 to 3.0 mm serves all the seams, or there are none.
    """
    seams = sorted({round(length * float(MM_PER_INCH), 4) for length in lengths_in})
    good = [
        (abs(tenths - 25), worst, tenths / 10)
        for tenths in _TENTHS
        if seams
        and (worst := max(shortfall(s, tenths / 10) for s in seams))
        <= _LARGEST_SHORTFALL_MM + WHOLE
    ]
    return min(good)[2] if good else None
