"""Floor 7: the work of fussy cuts. Their places on the print as settled stretches of cloth."""

from __future__ import annotations

from booklet.crafts.rotary.cuts import Rotary
from booklet.cutting.cloth.jobs import Job, LaidStrip
from booklet.cutting.cloth.precuts import stock_of
from booklet.cutting.cutting_plan import Placed
from booklet.cutting.faults import too_wide
from booklet.cutting.work.fussy import fussy_plan, least_length
from booklet.cutting.work.repeats import Repeat
from booklet.cutting.work.workbench import Workbench
from booklet.kit.diagnostic import Span
from booklet.kit.measure import Length
from booklet.kit.outlines.plane import rectangle
from booklet.kit.words import phrase


def add_fussy(
    bench: Workbench, job: Job, letter: str, made: Rotary, pieces: int, span: Span
) -> None:
    """Fussy cuts on the print's repeat, in stretches that straight cuts part."""
    repeat, width = Repeat.of(job.fabric), job.fabric.usable
    assert repeat is not None
    row = made.lays[0].rows[0]
    if Length.of(row.width) > width:
        stock, units = stock_of(job.fabric), bench.ruler.units
        needs, what = bench.ruler.up(row.width), f"patch `{letter}`"
        bench.faults.append(too_wide(what, needs, job.fabric, stock, units, span))
        return
    outline = row.shapes[0] if len(made.lays) == 1 else rectangle(0.0, 0.0, row.width, row.height)
    plan = fussy_plan(pieces, outline, repeat, width)
    stretches = plan.rows()
    strips = []
    waiting = iter([lay for lay in made.lays for _ in range(lay.cuts)])
    for number, places in enumerate(stretches):
        top = min(y for _, y in places)
        if number + 1 < len(stretches):
            end = min(y for _, y in stretches[number + 1])
        else:
            end = max(y for _, y in places) + row.height
        placed = tuple(
            Placed(
                name=letter,
                outline=tuple((x + px, y + py - top) for px, py in lay.rows[0].shapes[0]),
                method=made.method,
                reversed=lay.reversed,
            )
            for (x, y), lay in zip(places, waiting, strict=False)
        )
        used = max(x for x, _ in places) + row.width
        gives = ((letter, len(places), len(places)),)
        strips.append(
            LaidStrip(height=bench.ruler.up(end - top), placed=placed, gives=gives, used=used)
        )
    job.settled.append(tuple(strips))
    along = Length.of(repeat.along)
    words = phrase(
        "one more repeat for {letter}, as the cloth may begin anywhere in its repeat", letter=letter
    )
    job.more.append((words, along))
    planned = sum((strip.height for strip in strips), along)
    least = least_length(pieces, outline, repeat, width)
    job.fussy.append((planned, min(planned, bench.ruler.up(least))))
