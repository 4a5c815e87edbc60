"""Floor 7: the squares and strips of units made together, as work on their cloths."""

from __future__ import annotations

from booklet.crafts.forms import rectangle, square
from booklet.crafts.method import STRIP, Method
from booklet.crafts.rotary.cuts import box_rows, singly
from booklet.crafts.unit import TogetherCut, TogetherUnit
from booklet.cutting.cloth.jobs import Job, level_strip
from booklet.cutting.cutting_plan import CutPatch
from booklet.cutting.work.workbench import Workbench
from booklet.kit.words import phrase


def add_together(bench: Workbench, unit: TogetherUnit) -> None:
    """The items of a kind of unit and their lines in the cutting table."""
    for part in unit.cuts:
        job = bench.jobs[part.fabric]
        width, height = float(part.cut[0]), float(part.cut[1])
        job.area += part.count * width * height
        if unit.how.from_strips and part.cut[0] == job.fabric.usable:
            strip = level_strip(part.name, part.cut[1], part.cut[0])
            job.settled.append((strip,) * part.count)
            job.patches.append(_patch(unit, part, job, STRIP))
            continue
        method = square.METHOD if part.cut[0] == part.cut[1] else rectangle.METHOD
        lay = singly(part.count, box_rows(width, height, not unit.how.from_strips))
        bench.add(job, lay, part.name, method, f"`{part.name}` of a unit")
        job.patches.append(_patch(unit, part, job, method))


def _patch(unit: TogetherUnit, part: TogetherCut, job: Job, method: Method) -> CutPatch:
    strips = unit.how.from_strips
    shape = phrase("strip", context="patch") if strips else phrase("square", context="patch")
    title = phrase("{letter} {shape}", letter=part.name, shape=shape)
    return CutPatch(
        name=part.name, title=title, fabric=job.fabric.id, method=method, cut=part.cut, exact=part.exact,
        pieces=part.count, cuts=part.count, sum=unit.sum, by=part.by,
    )  # fmt: skip
