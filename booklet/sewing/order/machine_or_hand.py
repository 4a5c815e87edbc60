"""Floor 4: who sews a stretch, the machine or the hand, and what kind of step it makes."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.geometry.tiling import Seam, Tiling
from booklet.kit.outlines.near import DRAWN
from booklet.pattern import By, DeclaredStep, Sewing, ShortSeams
from booklet.sewing.assembly import StepKind
from booklet.sewing.order.stretches import Stretch


def sewers(
    stretches: Sequence[Stretch], declared: DeclaredStep, sewing: Sewing, tiling: Tiling
) -> tuple[By, ...]:
    """Who sews each stretch of one step. Where the hand sews one, it sews the short ones, too: nobody goes to the machine
    for an inch in between."""
    found = tuple(sewn_by(stretch, declared, sewing, tiling) for stretch in stretches)
    if By.HAND not in found or declared.by is not None:
        return found
    least = least_by_machine(sewing)
    lengths = [sum(tiling.seam(id).length for id in stretch.seams) for stretch in stretches]
    return tuple(
        By.HAND if length < least else by for by, length in zip(found, lengths, strict=True)
    )


def least_by_machine(sewing: Sewing) -> float:
    """The inches from which on a seam is long enough for the machine, whatever its corners are rounded to."""
    return float(sewing.machine_from) - DRAWN


def sewn_by(stretch: Stretch, declared: DeclaredStep, sewing: Sewing, tiling: Tiling) -> By:
    """Who sews a stretch: as declared, else the hand where a seam is too short for the machine, else
    `set in by` where it turns or goes all the way round, else the machine."""
    if declared.by is not None:
        return declared.by
    if is_too_short(stretch, sewing, tiling):
        return By.HAND
    return sewing.set_in_by if _is_set_in(stretch) else By.MACHINE


def is_too_short(stretch: Stretch, sewing: Sewing, tiling: Tiling) -> bool:
    """Whether a stretch is too short for the machine, which is guided badly over a short way to a dot: where it turns,
    or ends at a corner to be set in, by each of its seams. Others run edge to edge, as rows of small squares do: the
    machine sews them, unless the author says from which length on."""
    seams = [tiling.seam(id) for id in stretch.seams]
    least = least_by_machine(sewing)
    if _is_set_in(stretch):
        return any(seam.length < least for seam in seams)
    if sewing.short is ShortSeams.AT_CORNERS:
        return any(is_short(seam, sewing) for seam in seams)
    return sum(seam.length for seam in seams) < least


def is_short(seam: Seam, sewing: Sewing) -> bool:
    """Whether a seam is too short for the machine even where sewing goes straight on over it as far as it can."""
    least = least_by_machine(sewing)
    if sewing.short is ShortSeams.AT_CORNERS:
        return seam.cornered and seam.length < least
    return max(seam.line, seam.length) < least


def _is_set_in(stretch: Stretch) -> bool:
    """Whether a stretch turns or goes all the way round."""
    return bool(stretch.turns) or stretch.closed


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
