"""Floor 7: the long work of a quilt. Panels of the back, binding, and parts longer than the cloth is wide."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from booklet.crafts.method import LENGTHWISE, STRIP
from booklet.crafts.rotary.cuts import box_rows, singly
from booklet.crafts.rotary.marks import by_of
from booklet.crafts.rotary.sums import say
from booklet.cutting.cloth.jobs import Job, LaidStrip, level_strip, side_by_side
from booklet.cutting.cloth.precuts import stock_of
from booklet.cutting.cutting_plan import LAST_WIDTH, JoinedPart, Placed, StripJoin
from booklet.cutting.faults import too_narrow_to_join
from booklet.cutting.work.lengthwise import beside_bands
from booklet.cutting.work.long_parts import Segment, joined_strips
from booklet.cutting.work.part_work import stands, sum_of
from booklet.cutting.work.workbench import Workbench, border_number, strip_patch
from booklet.kit.measure import Length
from booklet.kit.outlines.plane import rectangle
from booklet.kit.records import replace
from booklet.kit.trade import LEAST_STRETCH
from booklet.kit.words import in_units, listing, phrase
from booklet.pattern import Direction
from booklet.quilt.finishing.binding import last_strip
from booklet.quilt.sized import BackingPlan, BindingPlan, Part, SizedQuilt


def add_backing(bench: Workbench, shared: bool) -> None:
    """The panels of the back, before all else from their cloth: those of several kits side by side where the cloth holds
    them.

    Where the cloth is `shared`, by pieces that lie beside them or by other kits, the last width is cut only as wide as it
    must be.
    """
    backing = bench.back
    if backing is None or backing.widths < 1:
        return
    job, kits = bench.jobs[backing.fabric], bench.quilt.size.kits
    across, along = backing.panel or (job.fabric.width, backing.length / backing.widths)
    text = listing(backing.sums, "semicolons")
    narrow = shared or kits > 1 or backing.strips
    last = backing.last if narrow and backing.last is not None else across
    whole = (backing.widths - (1 if last < across else 0)) * kits
    strips = list(side_by_side("backing", along, across, whole, job.fabric.usable))
    job.patches.append(
        strip_patch("backing", phrase("backing", context="part"), job, along, across, whole, text)
    )
    job.area += float(along) * whole * float(across)
    if backing.strips:
        job.settled.append(tuple(strips))
        _add_last_across(bench, job, backing, along, last)
        return
    if last < across:
        units = bench.ruler.units
        title = phrase(
            "backing, last width, {length} of it", length=in_units(say(last.inches, units), units)
        )
        strips += side_by_side(LAST_WIDTH, along, last, kits, across)
        job.patches.append(strip_patch(LAST_WIDTH, title, job, along, last, kits, backing.last_sum))
        job.area += float(along) * kits * float(last)
    job.settled.append(tuple(strips))


def _add_last_across(
    bench: Workbench, job: Job, backing: BackingPlan, along: Length, last: Length
) -> None:
    """The last panels of the back from strips across the cloth, joined where one is too short for them."""
    kits, least = bench.quilt.size.kits, LEAST_STRETCH.said_in(bench.ruler.units)
    _join(job, [(LAST_WIDTH, along)] * kits, last, 2 * backing.allowance, least)
    title = phrase("backing, last panel", context="part")
    job.patches.append(strip_patch(LAST_WIDTH, title, job, last, along, kits, backing.last_sum))


def add_binding(bench: Workbench) -> None:
    """Binding: strips across the cloth, or squares for continuous bias."""
    binding = bench.quilt.binding
    if binding is None or binding.fabric not in bench.jobs:
        return
    job, kits = bench.jobs[binding.fabric], bench.quilt.size.kits
    text = listing(binding.sums, "semicolons")
    if binding.bias:
        side = float(binding.square or binding.strip)
        squares = binding.strips * kits  # one continuous strip from each
        lay = singly(squares, box_rows(side, side, False))
        bench.add(job, lay, "binding", STRIP, "the square for the bias `binding`")
        job.area += squares * side * side
        cut = Length.of(side)
        job.patches.append(
            strip_patch("binding", phrase("binding", context="part"), job, cut, cut, squares, text)
        )
        return
    beside = None
    if kits == 1:
        panels, strip = bench.ways[binding.fabric].beside, binding.strip
        beside = beside_bands(job, "binding", strip, binding.length, strip, binding.strips, panels)
    if beside:
        count, long = beside
        job.area += count * float(binding.strip) * float(long)
        patch = strip_patch(
            "binding", phrase("binding", context="part"), job, binding.strip, long, count, text
        )
        job.patches.append(replace(patch, method=LENGTHWISE))
        return
    usable, units = job.fabric.usable, bench.ruler.units
    end = last_strip(binding, usable, units)
    strips = _across(binding, end, usable, kits)
    job.settled.append(strips)
    job.area += float(binding.strip) * sum(strip.used for strip in strips)
    count = binding.strips * kits
    job.patches.append(
        strip_patch(
            "binding",
            phrase("binding", context="part"),
            job,
            binding.strip,
            usable,
            count,
            text,
        )
    )


def _across(binding: BindingPlan, end: Length, usable: Length, kits: int) -> tuple[LaidStrip, ...]:
    """The strips of the binding across the cloth, so many for each kit: whole ones, and of the last of each no more than its
    `end`, those of several kits from one strip."""
    whole = [level_strip("binding", binding.strip, usable)] * ((binding.strips - 1) * kits)
    return (*whole, *side_by_side("binding", binding.strip, end, kits, usable))


def joined_parts(bench: Workbench) -> list[Part]:
    """The parts longer than the cloth is wide, which are joined from strips."""
    return [part for part in bench.quilt.parts if _is_joined(bench, part)]


def _is_joined(bench: Workbench, part: Part) -> bool:
    job = bench.jobs.get(part.fabric)
    if job is None or not part.long:
        return False
    usable = job.fabric.usable
    return max(part.cut) > usable or (
        bench.ways[part.fabric].ends
        and any(max(long.cut) > usable for long in long_beside(bench.quilt, part))
    )


def long_beside(quilt: SizedQuilt, part: Part) -> list[Part]:
    """The other strips of the border of a part that are as wide."""
    border = border_number(part.name)
    return [
        other
        for other in quilt.parts
        if border is not None
        and part.long
        and other.long
        and other.name != part.name
        and other.fabric == part.fabric
        and border_number(other.name) == border
        and min(other.cut) == min(part.cut)
    ]


def with_short_strips(quilt: SizedQuilt) -> set[str]:
    """The fabrics with borders of which some strips are longer than the cloth is wide and some are not, of several kits: of
    one, what is left of the ends' strip holds the two short ones."""
    if quilt.size.kits < 2:
        return set()
    return {
        part.fabric
        for part in quilt.parts
        if (cloth := quilt.size.fabrics.get(part.fabric)) is not None
        and cloth.direction is Direction.ANY
        and stock_of(cloth) is None
        and max(part.cut) <= cloth.usable
        and any(max(long.cut) > cloth.usable for long in long_beside(quilt, part))
    }


def add_joined(bench: Workbench, long: Iterable[Part]) -> None:
    """Parts longer than the cloth is wide: whole strips joined end to end."""
    groups: dict[tuple[str, int | str, Length], list[Part]] = {}
    for part in long:
        if stands(part):
            bench.note_sideways(part, bench.jobs[part.fabric].fabric)
        owner = border_number(part.name) or part.name
        groups.setdefault((part.fabric, owner, min(part.cut)), []).append(part)
    for parts in groups.values():
        _add_group(bench, bench.jobs[parts[0].fabric], parts)


def _add_group(bench: Workbench, job: Job, parts: list[Part]) -> None:
    """The strips of some parts of one width, the ends of one joined to the other."""
    usable, height = job.fabric.usable, min(parts[0].cut)
    loss, least = 2 * bench.ruler.allowance, LEAST_STRETCH.said_in(bench.ruler.units)
    if any(part.shape == "mitred strip" for part in parts):
        # the corner seam crosses as much of the strip as the ones beside it are wide
        beside = [
            max(b.widths)
            for b in bench.quilt.borders
            if parts[0].name.startswith(f"border {b.number} ")
        ]
        least = least + max((height, *beside))
    if usable < 2 * loss:
        what, units = f"`{parts[0].title}`", bench.ruler.units
        where = bench.place_of(parts[0].name)
        bench.faults.append(too_narrow_to_join(what, job.fabric, usable, units, where))
        return
    _join(
        job,
        [(part.name, max(part.cut)) for part in parts for _ in range(part.count)],
        height,
        loss,
        least,
    )
    for part in parts:
        job.patches.append(
            replace(
                strip_patch(
                    part.name, part.title, job, height, max(part.cut), part.count, sum_of(part)
                ),
                by=by_of(part.cut, bench.ruler.step),
            )
        )


def _join(
    job: Job, each: Sequence[tuple[str, Length]], height: Length, loss: Length, least: Length
) -> None:
    """Strips across the cloth, so high, for parts (name, length) of which any longer than a strip is joined."""
    usable = job.fabric.usable
    laid = joined_strips(each, usable, loss, least)
    stretches = [
        tuple(s.length for strip in laid for s in strip if s.part == n) for n in range(len(each))
    ]
    joined = {n for n, some in enumerate(stretches) if len(some) > 1}
    if joined:
        job.joins.append(
            StripJoin(
                fabric=job.fabric.id,
                width=height,
                usable=usable,
                loss=loss,
                strips=sum(any(s.part in joined for s in strip) for strip in laid),
                parts=tuple(JoinedPart(*each[n], stretches[n]) for n in sorted(joined)),
            )
        )
    strips = _drawn(laid, height, Counter(name for name, _ in each))
    job.settled.append(strips)
    job.area += float(height) * sum(strip.used for strip in strips)


def _drawn(
    laid: tuple[tuple[Segment, ...], ...], height: Length, counts: Mapping[str, int]
) -> tuple[LaidStrip, ...]:
    """The strips drawn; a part counts as given where its last stretch lies."""
    made = []
    for strip in laid:
        placed = tuple(
            Placed(
                name=s.name,
                outline=rectangle(float(s.start), 0.0, float(s.length), float(height)),
                method=STRIP,
                stretch=s.length,
            )
            for s in strip
        )
        names = dict.fromkeys(s.name for s in strip)
        gives = tuple((n, sum(1 for s in strip if s.name == n), 0) for n in names)
        used = strip[-1].start + strip[-1].length
        made.append(LaidStrip(height=height, placed=placed, gives=gives, used=float(used)))
    seen: dict[str, int] = {}
    for number in range(len(made) - 1, -1, -1):
        gives = tuple(
            (name, cuts, min(cuts, counts[name] - seen.get(name, 0)))
            for name, cuts, _ in made[number].gives
        )
        for name, _, pieces in gives:
            seen[name] = seen.get(name, 0) + pieces
        made[number] = replace(made[number], gives=gives)
    return tuple(made)
