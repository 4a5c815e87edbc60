"""Floor 7: borders cut along the selvedge. They have no joins; the cloth beside them serves for the rest."""

from __future__ import annotations

from collections.abc import Iterable

from booklet.crafts.method import LENGTHWISE
from booklet.cutting.cloth.jobs import Job, LaidStrip
from booklet.cutting.cloth.precuts import stock_of
from booklet.cutting.cutting_plan import Placed
from booklet.cutting.work.part_work import stands, sum_of, wish_of
from booklet.cutting.work.workbench import Workbench, strip_patch
from booklet.kit.measure import ZERO, Length
from booklet.kit.outlines.plane import rectangle
from booklet.kit.records import replace
from booklet.pattern import BorderCut, Direction
from booklet.quilt.finishing.strips import strips_for_length
from booklet.quilt.sized import Part, SizedQuilt


def lengthwise_parts(bench: Workbench) -> list[Part]:
    """The sides of borders cut along the selvedge: those asked for, those that may be where that is tried,
    and those of a print with an up that stand. Cloth sold ready cut is too short."""
    return [part for part in bench.quilt.parts if _is_lengthwise(bench, part)]


def _is_lengthwise(bench: Workbench, part: Part) -> bool:
    job, wish = bench.jobs.get(part.fabric), wish_of(bench.quilt, part)
    if job is None or wish is None or stock_of(job.fabric) or min(part.cut) > job.fabric.width:
        return False
    tried = bench.ways[part.fabric].lengthwise
    if job.fabric.direction is not Direction.ANY:
        tried = stands(part)
    return wish is BorderCut.LENGTHWISE or (wish is BorderCut.AUTO and tried)


def may_be_lengthwise(quilt: SizedQuilt) -> set[str]:
    """The fabrics with borders that are longer than the cloth is wide and may be cut either way."""
    return {
        part.fabric
        for part in quilt.parts
        if wish_of(quilt, part) is BorderCut.AUTO
        and part.fabric in quilt.size.fabrics
        and max(part.cut) > quilt.size.fabrics[part.fabric].usable
        and stock_of(quilt.size.fabrics[part.fabric]) is None
        and quilt.size.fabrics[part.fabric].direction is Direction.ANY
    }


def add_lengthwise(bench: Workbench, parts: Iterable[Part]) -> None:
    """Lengths of cloth with border strips side by side along the selvedge, the longest first."""
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
            job.patches.append(replace(patch, method=LENGTHWISE))


def beside_borders(
    job: Job, name: str, width: Length, needs: Length, loss: Length, most: int
) -> int:
    """How many strips along the selvedge, beside lengthwise borders, make up a length; they are added there.

    Each join takes `loss`, and one more closes the ring. 0, and nothing added, where there is no room, or more than
    `most` were needed: short borders leave short strips, and each is one more join.
    """
    for number, group in enumerate(job.settled):
        band = group[0]
        if not band.lengthwise or band.height <= loss:
            continue
        count = strips_for_length(needs, band.height, loss)
        used = Length.of(band.used)
        if count > most or used + count * width > job.fabric.width:
            continue
        boxes = [
            Placed(
                name=name,
                outline=rectangle(float(used + k * width), 0.0, float(width), float(band.height)),
                method=LENGTHWISE,
            )
            for k in range(count)
        ]
        job.settled[number] = (
            replace(
                band,
                placed=(*band.placed, *boxes),
                gives=(*band.gives, (name, count, count)),
                used=float(used + count * width),
            ),
        )
        return count
    return 0


def _lengths(job: Job, parts: list[Part]) -> list[LaidStrip]:
    """The lengths of cloth, each as long as its longest border strip, filled across first fit."""
    each = [part for part in parts for _ in range(part.count)]
    each.sort(key=lambda part: (-max(part.cut).inches, -min(part.cut).inches))
    rows: list[list[Part]] = []
    for part in each:
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
    """One length of cloth with its border strips side by side."""
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
