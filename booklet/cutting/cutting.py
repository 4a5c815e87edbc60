"""Floor 7: the stage. A set pattern becomes a cutting plan for every size."""

from __future__ import annotations

from booklet.cutting.cloth import plan_cloth
from booklet.cutting.cutting_plan import CutPattern, CuttingPlan
from booklet.cutting.faults import (
    bias_on_rim,
    grain_conflicts,
    motif_without_repeat,
    turned_prints,
)
from booklet.cutting.gather import gather
from booklet.cutting.ruler import Ruler
from booklet.diagnostic import Diagnostic, Outcome
from booklet.quilt.sized import SetPattern, SizedQuilt


def cut(set_pattern: SetPattern) -> Outcome[CutPattern]:
    """The cutting plan of every size, with what cannot be cut as asked (errors) or is unwise (warnings)."""
    written = set_pattern.pressed.assembled.laid_out.pattern
    ruler = Ruler(written.allowance, written.units)
    plans: dict[str, CuttingPlan] = {}
    faults: list[Diagnostic] = []
    for size in written.sizes:
        quilt = set_pattern.quilts.get(size.id)
        if quilt is not None:
            plans[size.id] = _plan(set_pattern, quilt, ruler, faults)
    unique = tuple(dict.fromkeys(faults))
    return Outcome(CutPattern(set_pattern, plans), unique)


def _plan(
    set_pattern: SetPattern, quilt: SizedQuilt, ruler: Ruler, faults: list[Diagnostic]
) -> CuttingPlan:
    """The plan of one size; its faults are added to `faults`."""
    gathered = gather(set_pattern, quilt, ruler)
    faults += gathered.faults
    for want, made in gathered.wants:
        faults += grain_conflicts(want)
        faults += bias_on_rim(want, made.grain)
        faults += motif_without_repeat(want)
    faults += turned_prints(quilt, tuple(want for want, _ in gathered.wants))
    cloths = tuple(plan_cloth(job, ruler.units, ruler.step) for job in gathered.jobs)
    patches = tuple(patch for job in gathered.jobs for patch in job.patches)
    return CuttingPlan(quilt.size.id, patches, cloths)
