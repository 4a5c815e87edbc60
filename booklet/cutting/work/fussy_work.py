"""Floor 7: the work of fussy cuts. Their places on the print as settled stretches of cloth."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

from booklet.crafts.rotary.cuts import Rotary
from booklet.cutting.cloth.jobs import Job, LaidStrip
from booklet.cutting.cloth.precuts import stock_of
from booklet.cutting.cutting_plan import Placed
from booklet.cutting.faults import too_wide
from booklet.cutting.work.repeats import Motifs, Repeat, motifs_for
from booklet.cutting.work.workbench import Workbench
from booklet.kit.diagnostic import Span
from booklet.kit.measure import Length
from booklet.kit.outlines.near import NOISE, ONE_POINT, WHOLE
from booklet.kit.outlines.plane import Point, extent, rectangle
from booklet.kit.outlines.polygon import area_of
from booklet.kit.records import Record
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


class FussyPlan(Record):
    """Fussy cuts: the places of the pieces' boxes (upper left corners, by height), and the
    cloth's length; inches.

    `length` holds one more repeat, since the cloth may be cut anywhere in its repeat.
    """

    places: tuple[Point, ...]
    size: tuple[float, float]
    length: float

    def rows(self) -> tuple[tuple[Point, ...], ...]:
        """The places in stretches of cloth that a straight cut parts: level rows, or all that is
        staggered."""
        rows: list[list[Point]] = []
        for place in self.places:
            if rows and place[1] < rows[-1][-1][1] + self.size[1] - ONE_POINT:
                rows[-1].append(place)
            else:
                rows.append([place])
        return tuple(tuple(sorted(row)) for row in rows)


def fussy_plan(pieces: int, outline: Sequence[Point], repeat: Repeat, width: Length) -> FussyPlan:
    """The shortest cloth that gives so many pieces of an outline, the motif in the same place of each.

    Every regular choice of motifs is tried, also staggered ones, as the outline and the print's drop
    allow (own formula). The motif may stand anywhere in its repeat where the cloth begins, so that up to one repeat is
    lost across and along.
    """
    size = extent(outline)
    room = float(width) - size[0] - repeat.across
    best: FussyPlan | None = None
    for motifs in motifs_for(outline, repeat):
        places = motifs.places(pieces, room)
        length = places[-1][1] + size[1] + repeat.along
        if best is None or length < best.length - NOISE:
            best = FussyPlan(places, size, length)
    assert best is not None  # the plain choice is always there
    return best


def least_length(pieces: int, outline: Sequence[Point], repeat: Repeat, width: Length) -> float:
    """The length of cloth, inches, below which no way of cutting gives so many fussy pieces.

    Each piece needs a motif of its own, and the motif stands in one place of the piece. So the motifs
    lie in a stretch of width - w, and no stretch of it with so many motifs is shorter than that of
    adjoining ones (own proof); nor is there less cloth than the pieces have area.
    """
    size = extent(outline)
    places = Motifs(repeat, 1, 1, 0).places(pieces, float(width) - size[0])
    area = abs(area_of(tuple(outline)))
    least = max(places[-1][1] + size[1], pieces * area / float(width))
    if area < size[0] * size[1] - ONE_POINT:
        return least
    return max(least, _least_of_boxes(pieces, size, repeat, float(width) - size[0]))


def _least_of_boxes(pieces: int, size: tuple[float, float], repeat: Repeat, room: float) -> float:
    """The same for rectangles, of which two in columns nearer than their width lie below each other.

    Columns fall into groups as wide as a piece; in a group the motifs used lie apart by their height at
    least, and by a multiple of what the print's repeat and its drop have in common (own proof).
    """
    columns = math.floor(max(room, 0.0) / repeat.across + NOISE) + 1
    groups = math.ceil(columns / math.ceil(size[0] / repeat.across - NOISE))
    along, drop = (Fraction(x).limit_denominator(10_000) for x in (repeat.along, repeat.drop))
    common = along
    while drop:
        common, drop = drop, common % drop
    apart = math.ceil(size[1] / float(common) - WHOLE) * float(common)
    return (math.ceil(pieces / groups) - 1) * apart + size[1]
