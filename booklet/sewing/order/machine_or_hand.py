"""Floor 4: who sews a stretch, the machine or the hand, and what kind of step it makes."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from booklet.geometry.tiling import Tiling
from booklet.measure import SNAP
from booklet.pattern import By, DeclaredStep, Sewing
from booklet.sewing.assembly import StepKind
from booklet.sewing.order.stretches import Stretch


def sewn_by(stretch: Stretch, declared: DeclaredStep, sewing: Sewing, tiling: Tiling) -> By:
    """Who sews a stretch: as declared, else the hand where any of its seams is shorter than
    `machine from`, else `set in by` where it turns or goes all the way round, else the machine."""
    if declared.by is not None:
        return declared.by
    if shortest(stretch.seams, tiling) < float(sewing.machine_from) - SNAP:
        return By.HAND
    return sewing.set_in_by if stretch.turns or stretch.closed else By.MACHINE


def shortest(seams: Iterable[str], tiling: Tiling) -> float:
    """The length in inches of the shortest of the seams."""
    return min(tiling.seam(seam).length for seam in seams)


def kind_of(joins: Sequence[Sequence[Stretch]], tiling: Tiling, partial: bool) -> StepKind:
    """What a step is at the needle; `joins` holds the stretches of each join within it.

    A join in two stretches or more, or all the way round, closes a ring.
    """
    if partial:
        return StepKind.PARTIAL
    if any(len(join) > 1 or any(s.closed for s in join) for join in joins):
        return StepKind.RING
    flat = [stretch for join in joins for stretch in join]
    if any(stretch.turns for stretch in flat):
        return StepKind.SET_IN
    if any(len(tiling.seam(seam).path) > 2 for stretch in flat for seam in stretch.seams):
        return StepKind.CURVED
    return StepKind.STRAIGHT
