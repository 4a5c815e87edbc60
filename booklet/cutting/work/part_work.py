"""Floor 7: the parts of a quilt that one strip can hold. Sashes, cornerstones, short borders, triangles."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from booklet.crafts.forms import rectangle as oblong, square
from booklet.crafts.rotary.boxes import HALF_SQUARES, QUARTER_SQUARES
from booklet.crafts.rotary.cuts import AlikeCuts, box_rows, gives_of, singly, wedge_lays
from booklet.crafts.rotary.marks import by_of
from booklet.crafts.rotary.ruler import Ruler
from booklet.crafts.rotary.sums import added
from booklet.crafts.rotary.wedges import Wedge, wedge_of
from booklet.cutting.cloth.precuts import stock_of
from booklet.cutting.cutting_plan import CutPatch
from booklet.cutting.demand import TURNS
from booklet.cutting.work.workbench import Workbench, border_number
from booklet.kit.measure import EIGHTH
from booklet.kit.outlines.near import ONE_POINT, SAME_LENGTH
from booklet.kit.outlines.plane import Point, extent, turn_point
from booklet.kit.outlines.polygon import slants
from booklet.kit.records import replace
from booklet.kit.words import listing
from booklet.pattern import BorderCut, Direction
from booklet.quilt.sized import Part, SizedQuilt
from booklet.quilt.top.setting_squares import rule_for

Outline = Sequence[Point]
_PER_CUT = {"half-square triangle": 2, "quarter-square triangle": 4}
_METHODS = {1: oblong.METHOD, 2: HALF_SQUARES, 4: QUARTER_SQUARES}


def add_part(bench: Workbench, part: Part) -> None:
    """The items of a part and its line in the cutting table."""
    if part.fabric not in bench.jobs or part.count <= 0:
        return
    job = bench.jobs[part.fabric]
    per_cut = _PER_CUT.get(part.shape, 1)
    method = _METHODS[per_cut]
    if per_cut == 1 and part.cut[0] == part.cut[1]:
        method = square.METHOD
    width, height = float(part.cut[0]), float(part.cut[1])
    direction = job.fabric.direction
    if part.long and stands(part) and not _may_stand(bench, part):
        bench.note_sideways(part, job.fabric)
        direction = Direction.ANY
    lays = _lays(part, per_cut, (width, height), direction)
    for lay in lays:
        bench.add(job, lay, part.name, method, f"`{part.title}`")
    job.area += part.count / per_cut * width * height
    line = CutPatch(
        name=part.name,
        title=part.title,
        fabric=part.fabric,
        method=method,
        cut=part.cut,
        exact=_exact(part, per_cut, bench.ruler),
        pieces=part.count,
        cuts=sum(lay.cuts for lay in lays),
        sum=sum_of(part),
        gives=gives_of(lays),
        by=by_of(part.cut, bench.ruler.step),
    )
    job.patches += _as_laid(line, lays) if direction is not Direction.ANY else [line]


def _exact(part: Part, per_cut: int, ruler: Ruler) -> tuple[float, float]:
    """What is cut for a part, before rounding. Of triangles it is the square that gives them; what is
    cut longer on purpose, as a mitred border or a sleeve is, is cut as it is."""
    if per_cut > 1:
        rule = rule_for(ruler.allowance, ruler.units)
        side = float(max(part.finished) + (rule.side_add if per_cut == 4 else rule.corner_add))
        return side, side
    wide, high = (
        exact if abs(float(cut) - exact) < float(EIGHTH) else float(cut)
        for cut, exact in zip(
            part.cut, (float(f) + 2 * ruler.s for f in part.finished), strict=True
        )
    )
    return wide, high


def _as_laid(line: CutPatch, lays: Iterable[AlikeCuts]) -> Iterator[CutPatch]:
    """The line of a part of a print with an up, parted where some of its cuts lie and others stand."""
    if line.gives:
        yield line
        return
    for lay in lays:
        lies = abs(lay.rows[0].width - float(line.cut[0])) < ONE_POINT
        cut, exact = (line.cut, line.exact) if lies else (line.cut[::-1], line.exact[::-1])
        yield replace(line, cut=cut, exact=exact, pieces=lay.cuts, cuts=lay.cuts)


def sum_of(part: Part) -> str:
    """The sum of a part: the quilt floor's, or the plain one from its finished size."""
    if part.sums:
        return listing(part.sums, "semicolons")
    pairs = zip(part.finished, part.cut, strict=True)
    return listing((added(float(f), float(c), c, "inch") for f, c in pairs), "semicolons")


def _lays(
    part: Part, per_cut: int, cut: tuple[float, float], direction: Direction
) -> tuple[AlikeCuts, ...]:
    """How the cuts of a part lie on a cloth of this direction."""
    if per_cut > 1:
        rows = box_rows(*cut, False)
        return wedge_lays(_wedges(part, per_cut, direction), TURNS[direction], rows)
    if direction is not Direction.ANY and (part.places or not part.long):
        return _upright(part, cut)
    if part.long:
        return (singly(part.count, box_rows(max(cut), min(cut), False)),)
    return (singly(part.count, box_rows(*cut, True)),)


def _wedges(part: Part, per_cut: int, direction: Direction) -> dict[Wedge, int]:
    """How many triangles of a part lie in each way; any way will do for cloth that may be turned."""
    if direction is Direction.ANY or not part.places:
        return {Wedge.TOP_LEFT if per_cut == 2 else Wedge.TOP: part.count}
    return Counter(wedge_of(place) for place in part.places)


def _upright(part: Part, cut: tuple[float, float]) -> tuple[AlikeCuts, ...]:
    """The lays of a part of a print that may not be turned a quarter: those that lie in the quilt as the
    part is described, and those that stand. Strips that slant lie as the blocks beside them do."""
    standing = sum(1 for place in part.places if not is_level(part, place))
    counts = (part.count - standing, cut), (standing, (cut[1], cut[0]))
    return tuple(singly(n, box_rows(*size, False)) for n, size in counts if n)


def _may_stand(bench: Workbench, part: Part) -> bool:
    """Whether an upright strip of a border may be cut upright: unless the author wants it across, or a piece
    of stock is too short for it."""
    stock = stock_of(bench.jobs[part.fabric].fabric)
    fits = stock is None or max(part.cut) <= stock.along
    return fits and wish_of(bench.quilt, part) is not BorderCut.ACROSS


def wish_of(quilt: SizedQuilt, part: Part) -> BorderCut | None:
    """How the author wants a side of a border cut; None of any other part."""
    number = border_number(part.name)
    if number is None or not part.long or quilt.size.quilt is None:
        return None
    return quilt.size.quilt.borders[number - 1].cut


def stands(part: Part) -> bool:
    """Whether a long part stands in the quilt, higher than it is wide."""
    sizes = (extent(place) for place in part.places)
    return any(high > wide + SAME_LENGTH for wide, high in sizes)


def is_level(part: Part, place: Outline) -> bool:
    """Whether a rectangle lies in the quilt with its first side level, or slanting as blocks on point do."""
    if slants(place):
        place = [turn_point(point, -45) for point in place]
    return all(
        abs(a - float(b)) < SAME_LENGTH for a, b in zip(extent(place), part.finished, strict=True)
    )
