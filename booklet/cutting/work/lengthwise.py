"""Floor 7: borders and other long parts cut along the selvedge. They have no joins; the cloth beside them serves for the rest."""

from __future__ import annotations

from collections.abc import Iterable

from booklet.crafts.method import LENGTHWISE
from booklet.crafts.rotary.marks import by_of
from booklet.cutting.cloth.jobs import Job, LaidStrip
from booklet.cutting.cloth.precuts import stock_of
from booklet.cutting.cutting_plan import PANELS, Placed
from booklet.cutting.work.part_work import stands, sum_of, wish_of
from booklet.cutting.work.workbench import Workbench, strip_patch
from booklet.kit.measure import ZERO, Length
from booklet.kit.outlines.plane import rectangle
from booklet.kit.records import replace
from booklet.pattern import BorderCut, Direction
from booklet.quilt.finishing.binding import strips_for_length
from booklet.quilt.sized import Part, SizedQuilt


def lengthwise_parts(bench: Workbench) -> list[Part]:
    """The parts cut along the selvedge: sides of borders that are asked for, those and other long parts that may be where
    that is tried, and sides of a print with an up that stand. Cloth sold ready cut is too short."""
    return [part for part in bench.quilt.parts if _is_lengthwise(bench, part)]


def _is_lengthwise(bench: Workbench, part: Part) -> bool:
    job, wish = bench.jobs.get(part.fabric), wish_of(bench.quilt, part)
    if job is None or not part.long or stock_of(job.fabric) or min(part.cut) > job.fabric.width:
        return False
    if wish is None:
        return part.name in bench.ways[part.fabric].parts
    tried = bench.ways[part.fabric].lengthwise
    if job.fabric.direction is not Direction.ANY:
        tried = stands(part)
    return wish is BorderCut.LENGTHWISE or (wish is BorderCut.AUTO and tried)


def may_be_lengthwise(quilt: SizedQuilt) -> set[str]:
    """The fabrics with borders that may be cut either way and are longer than the cloth is wide, or of which the back is
    made as well, beside which they may lie."""
    back = quilt.backing.fabric if quilt.backing is not None else None
    return {
        part.fabric
        for part in quilt.parts
        if wish_of(quilt, part) is BorderCut.AUTO
        and part.fabric in quilt.size.fabrics
        and (part.fabric == back or max(part.cut) > quilt.size.fabrics[part.fabric].usable)
        and stock_of(quilt.size.fabrics[part.fabric]) is None
        and quilt.size.fabrics[part.fabric].direction is Direction.ANY
    }


def parts_beside(quilt: SizedQuilt) -> tuple[str, ...]:
    """The names of long parts other than borders, a sleeve and long sashes, that may be cut beside the panels of a back of the
    same cloth."""
    back = quilt.backing
    cloth = quilt.size.fabrics.get(back.fabric) if back is not None else None
    if cloth is None or cloth.direction is not Direction.ANY or stock_of(cloth) is not None:
        return ()
    names = (
        part.name
        for part in quilt.parts
        if part.long and part.fabric == cloth.id and wish_of(quilt, part) is None
    )
    return tuple(dict.fromkeys(names))


def binding_may_lie_beside(quilt: SizedQuilt) -> bool:
    """Whether strips of the binding, for one quilt, may be cut beside the panels of a back of the same cloth."""
    binding, back = quilt.binding, quilt.backing
    return (
        binding is not None
        and back is not None
        and binding.fabric == back.fabric
        and not binding.bias
        and quilt.size.kits == 1
        and back.fabric in quilt.size.fabrics
        and stock_of(quilt.size.fabrics[back.fabric]) is None
    )


def add_lengthwise(bench: Workbench, parts: Iterable[Part]) -> None:
    """Lengths of cloth with long parts side by side along the selvedge, the longest first."""
    by_fabric: dict[str, list[Part]] = {}
    for part in parts:
        by_fabric.setdefault(part.fabric, []).append(part)
    for fabric, some in by_fabric.items():
        job = bench.jobs[fabric]
        job.settled += [(length,) for length in _lengths(job, some)]
        for part in some:
            one_way = (
                job.fabric.direction is Direction.ONE_WAY
            )  # stripes run along the border, as was asked
            if one_way and not stands(part) and min(part.finished) < max(part.finished):
                bench.note_sideways(part, job.fabric, lengthwise=True)
            width, long = min(part.cut), max(part.cut)
            job.area += part.count * float(width) * float(long)
            patch = strip_patch(part.name, part.title, job, width, long, part.count, sum_of(part))
            by = by_of(part.cut, bench.ruler.step)
            job.patches.append(replace(patch, method=LENGTHWISE, by=by))


def beside_bands(
    job: Job, name: str, width: Length, needs: Length, loss: Length, most: int, panels: bool
) -> tuple[int, Length] | None:
    """How many strips along the selvedge, and how long, make up a length: beside lengthwise borders, with `panels` beside
    those of the back too; they are added there.

    Each join between them takes `loss`. None, and nothing added, where there is no room, or more than `most` were needed:
    short borders leave short strips, and each is one more join.
    """
    for at, band in _bands(job):
        if not (band.lengthwise or panels) or band.height <= loss:
            continue
        count = strips_for_length(needs, band.height, loss)
        if count > most or Length.of(band.used) + count * width > job.fabric.width:
            continue
        for _ in range(count):
            band = _with(band, name, width, band.height)
        _put(job, at, band)
        return count, band.height
    return None


def _bands(job: Job) -> list[tuple[tuple[int, int], LaidStrip]]:
    """The settled lengths of cloth, panels of the back and borders along the selvedge: which of which group, and what it
    is."""
    return [
        ((number, index), band)
        for number, group in enumerate(job.settled)
        for index, band in enumerate(group)
        if band.lengthwise or band.placed[0].name in PANELS
    ]


def _put(job: Job, at: tuple[int, int], band: LaidStrip) -> None:
    """A settled length of cloth with more beside what lay in it."""
    group = list(job.settled[at[0]])
    group[at[1]] = band
    job.settled[at[0]] = tuple(group)


def _with(band: LaidStrip, name: str, width: Length, long: Length) -> LaidStrip:
    """A length of cloth with one strip more along the selvedge."""
    outline = rectangle(band.used, 0.0, float(width), float(long))
    placed = Placed(name=name, outline=outline, method=LENGTHWISE)
    gives = {each: (cuts, pieces) for each, cuts, pieces in band.gives}
    cuts, pieces = gives.get(name, (0, 0))
    gives[name] = (cuts + 1, pieces + 1)
    return replace(
        band,
        placed=(*band.placed, placed),
        gives=tuple((each, *counts) for each, counts in gives.items()),
        used=band.used + float(width),
        lengthwise=True,
    )


def _beside_panels(job: Job, each: Iterable[Part]) -> list[Part]:
    """Strips laid beside the panels of the back, each beside the first that has room; what is left of them."""
    rest = []
    for part in each:
        width, long = min(part.cut), max(part.cut)
        for at, band in _bands(job):
            room = job.fabric.width - Length.of(band.used)
            if band.placed[0].name in PANELS and long <= band.height and width <= room:
                _put(job, at, _with(band, part.name, width, long))
                break
        else:
            rest.append(part)
    return rest


def _lengths(job: Job, parts: list[Part]) -> list[LaidStrip]:
    """The lengths of cloth, each as long as its longest strip, filled across first fit: those for which there is no
    room beside the back."""
    each = [part for part in parts for _ in range(part.count)]
    each.sort(key=lambda part: (-max(part.cut).inches, -min(part.cut).inches))
    rows: list[list[Part]] = []
    for part in _beside_panels(job, each):
        for row in rows:
            if _across(row) + min(part.cut) <= job.fabric.width:
                row.append(part)
                break
        else:
            rows.append([part])
    return [_laid(row) for row in rows]


def _across(row: list[Part]) -> Length:
    return sum((min(part.cut) for part in row), ZERO)


def _laid(row: list[Part]) -> LaidStrip:
    """One length of cloth with its strips side by side."""
    placed, x = [], ZERO
    for part in row:
        width, long = min(part.cut), max(part.cut)
        outline = rectangle(float(x), 0.0, float(width), float(long))
        placed.append(Placed(name=part.name, outline=outline, method=LENGTHWISE))
        x = x + width
    names = [part.name for part in row]
    gives = tuple((name, names.count(name), names.count(name)) for name in dict.fromkeys(names))
    high = max(max(part.cut) for part in row)
    return LaidStrip(height=high, placed=tuple(placed), gives=gives, used=float(x), lengthwise=True)
