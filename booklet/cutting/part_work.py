"""Floor 7: the parts of a quilt that one strip can hold. Sashes, cornerstones, short borders, triangles."""

from __future__ import annotations

from booklet.cutting.cutting_plan import CutPatch, Method
from booklet.cutting.figures import extent
from booklet.cutting.jobs import Owner
from booklet.cutting.ruler import Lay, box_rows
from booklet.cutting.sums import added
from booklet.cutting.workbench import Workbench
from booklet.pattern import Direction
from booklet.quilt.sized import Part
from booklet.words import listing

_PER_CUT = {"half-square triangle": 2, "quarter-square triangle": 4}
_METHODS = {1: Method.RECTANGLE, 2: Method.HALF_SQUARE, 4: Method.QUARTER_SQUARE}


def add_part(bench: Workbench, part: Part) -> None:
    """The items of a part and its line in the cutting table."""
    if part.fabric not in bench.jobs or part.count <= 0:
        return
    job = bench.jobs[part.fabric]
    per_cut = _PER_CUT.get(part.shape, 1)
    method = _METHODS[per_cut]
    if per_cut == 1 and part.cut[0] == part.cut[1]:
        method = Method.SQUARE
    width, height = float(part.cut[0]), float(part.cut[1])
    lays = [Lay(-(-part.count // per_cut), box_rows(width, height, True))]
    if part.long:
        lays = [Lay(part.count, box_rows(max(width, height), min(width, height), False))]
    elif job.fabric.direction is not Direction.ANY and per_cut == 1:
        lays = _upright(part, width, height)
    owner = Owner(part.name, per_cut, part.count)
    for lay in lays:
        bench.add(job, lay, owner, f"`{part.title}`")
    job.area += part.count / per_cut * width * height
    exact = tuple(float(f) + 2 * bench.ruler.s for f in part.finished)
    job.patches.append(
        CutPatch(
            part.name,
            part.title,
            part.fabric,
            method,
            part.cut,
            (exact[0], exact[1]),
            part.count,
            0,
            sum(lay.cuts for lay in lays),
            sum_of(part),
            None,
            None,
            0.0,
            (),
        )
    )


def sum_of(part: Part) -> str:
    """The sum of a part: the quilt floor's, or the plain one from its finished size."""
    if part.sums:
        return listing(part.sums, "semicolons")
    pairs = zip(part.finished, part.cut, strict=True)
    return listing((added(float(f), float(c), c, "inch") for f, c in pairs), "semicolons")


def _upright(part: Part, width: float, height: float) -> list[Lay]:
    """The lays of a part of a print that may not be turned a quarter: those that lie and those that
    stand in the quilt."""
    swapped = 0
    for place in part.places:
        wide, high = extent(place)
        level = (
            abs(wide - float(part.finished[0])) < 1e-4
            and abs(high - float(part.finished[1])) < 1e-4
        )
        swapped += 0 if level else 1
    plain = part.count - swapped
    lays = [
        Lay(plain, box_rows(width, height, False)),
        Lay(swapped, box_rows(height, width, False)),
    ]
    return [lay for lay in lays if lay.cuts > 0]
