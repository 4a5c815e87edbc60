"""Floor 7: gathers the work on every cloth of a size: patches of blocks, parts of the quilt, binding, back."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Sequence

from booklet.crafts.forms import rectangle, square
from booklet.crafts.method import STRIP, Method
from booklet.crafts.rotary.cuts import AlikeCuts, Rotary, box_rows, gives_of, singly, wedge_lays
from booklet.crafts.rotary.marks import CutBy, grain_of
from booklet.crafts.rotary.ruler import Ruler
from booklet.crafts.rotary.wedges import Wedge
from booklet.crafts.unit import TogetherCut, TogetherUnit
from booklet.cutting.cloth.jobs import Job, level_strip
from booklet.cutting.cloth.precuts import stock_of
from booklet.cutting.cutting_plan import CutPatch
from booklet.cutting.demand import TURNS, Want, wants_of
from booklet.cutting.faults import too_high
from booklet.cutting.patches.cut_outlines import cut_outline, laid_on_outline
from booklet.cutting.patches.interlocking import interlocked
from booklet.cutting.patches.rotary import rotary
from booklet.cutting.units.together import made_together
from booklet.cutting.units.unit_candidates import Candidate
from booklet.cutting.work.folded_pairs import folded_strips, pairs_of, unfoldable
from booklet.cutting.work.fussy_work import add_fussy
from booklet.cutting.work.lengthwise import add_lengthwise, lengthwise_parts
from booklet.cutting.work.long_work import add_backing, add_binding, add_joined, joined_parts
from booklet.cutting.work.part_work import add_part
from booklet.cutting.work.workbench import CuttingWay, Workbench
from booklet.geometry.tiling import LaidOut
from booklet.kit.diagnostic import Diagnostic
from booklet.kit.measure import Length
from booklet.kit.outlines.polygon import area_of
from booklet.kit.records import Record, replace
from booklet.kit.words import phrase
from booklet.quilt.sized import Part, SizedQuilt


class Gathered(Record):
    """The jobs of the fabrics from which something is cut, the wants with how each is cut, the faults."""

    jobs: tuple[Job, ...]
    wants: tuple[tuple[Want, Rotary], ...]
    faults: tuple[Diagnostic, ...]
    together: tuple[TogetherUnit, ...]


def gather(
    pattern: LaidOut, quilt: SizedQuilt, ruler: Ruler, free: Sequence[Candidate]
) -> Gathered:
    """The work of one size, each cloth in the plain way. Of the `free` units those asked for are made together."""
    together = made_together(free, quilt, ruler)
    wanted = wants_of(pattern, quilt, pieces_of(together))
    wants = tuple((want, _rotary(want, ruler)) for want in wanted)
    jobs = {id: Job(fabric=fabric) for id, fabric in quilt.size.fabrics.items()}
    bench = Workbench(quilt=_of_all_kits(quilt), ruler=ruler, jobs=jobs)
    _add_all(bench, together, wants)
    busy = tuple(job for job in bench.jobs.values() if not job.is_empty)
    return Gathered(busy, wants, tuple(bench.faults), together)


def gather_anew(
    quilt: SizedQuilt, ruler: Ruler, gathered: Gathered, fabric: str, way: CuttingWay
) -> Job:
    """The work on one cloth of a size, of which all is gathered, in another way."""
    jobs = {fabric: Job(fabric=quilt.size.fabrics[fabric])}
    bench = Workbench(quilt=_of_all_kits(quilt), ruler=ruler, jobs=jobs)
    bench.ways[fabric] = way
    _add_all(
        bench,
        tuple(
            replace(unit, cuts=tuple(cut for cut in unit.cuts if cut.fabric == fabric))
            for unit in gathered.together
        ),
        tuple((want, made) for want, made in gathered.wants if want.fabric.id == fabric),
    )
    return jobs[fabric]


def _add_all(
    bench: Workbench, together: Sequence[TogetherUnit], wants: tuple[tuple[Want, Rotary], ...]
) -> None:
    """All that is cut from the cloths of a bench: long parts first ("cut borders and binding before the small patches")."""
    parts = [part for part in bench.quilt.parts if part.fabric in bench.jobs]
    lengthwise = lengthwise_parts(bench)
    long = [part for part in joined_parts(bench) if part not in lengthwise]
    small = [part for part in parts if part not in long and part not in lengthwise]
    add_backing(bench, beside_the_back(bench, (*small, *lengthwise), together, wants))
    add_lengthwise(bench, lengthwise)
    add_joined(bench, long)
    add_binding(bench)
    for part in small:
        add_part(bench, part)
    for unit in together:
        _add_together(bench, unit)
    _add_patches(bench, _shared(wants))
    _take_out_too_high(bench)


def back_alone(quilt: SizedQuilt, ruler: Ruler, way: CuttingWay) -> Job:
    """The work on the cloth of a back, made in that way, from which nothing else is cut."""
    back = quilt.backs[way.back]
    jobs = {back.fabric: Job(fabric=quilt.size.fabrics[back.fabric])}
    bench = Workbench(quilt=quilt, ruler=ruler, jobs=jobs)
    bench.ways[back.fabric] = way
    add_backing(bench, shared=False)
    _take_out_too_high(bench)
    return jobs[back.fabric]


def beside_the_back(
    bench: Workbench,
    parts: Iterable[Part],
    together: Iterable[TogetherUnit],
    wants: Iterable[tuple[Want, Rotary]],
) -> bool:
    """Whether anything is cut from the cloth of the back that may lie beside its panels: not strips right across."""
    back, binding = bench.back, bench.quilt.binding
    if back is None:
        return False
    along = binding is not None and (binding.bias or bench.ways[back.fabric].beside)
    return (
        any(part.fabric == back.fabric for part in parts)
        or any(cut.fabric == back.fabric for unit in together for cut in unit.cuts)
        or any(want.fabric.id == back.fabric for want, _ in wants)
        or (binding is not None and along and binding.fabric == back.fabric)
    )


def _of_all_kits(quilt: SizedQuilt) -> SizedQuilt:
    """The quilt with its parts as often as they are cut for all kits, in each where they lie."""
    kits = quilt.size.kits
    parts = (
        replace(part, count=part.count * kits, places=part.places * kits) for part in quilt.parts
    )
    return replace(quilt, parts=tuple(parts))


def pieces_of(together: Iterable[TogetherUnit]) -> frozenset[tuple[str, str]]:
    """The pieces (block, piece) that units made together hold."""
    return frozenset((block, id) for unit in together for block, ids in unit.members for id in ids)


def with_grain(
    pattern: LaidOut, quilt: SizedQuilt, ruler: Ruler, together: Iterable[TogetherUnit]
) -> Ruler:
    """The ruler with the step in which cloth is planned, fine enough for all that is cut of a size."""
    figures = [side for part in quilt.parts for side in _laid_sides(part)]
    figures += [side for unit in together for cut in unit.cuts for side in cut.cut]
    for want in wants_of(pattern, quilt, pieces_of(together)):
        made = _rotary(want, ruler)
        figures += made.cut if made.by is not CutBy.TEMPLATE else ()
    return replace(ruler, grain=grain_of(figures, ruler.step, ruler.units))


def _laid_sides(part: Part) -> tuple[Length, ...]:
    """The sides of a part that lie in strips of their own height."""
    return (min(part.cut),) if part.long else part.cut


def _take_out_too_high(bench: Workbench) -> None:
    """Faults for strips that are higher than the stock they are cut from; they are left out."""
    for job in bench.jobs.values():
        stock = stock_of(job.fabric)
        if stock is None:
            continue
        high = [strip for group in job.settled for strip in group if strip.height > stock.along]
        for name, height in dict.fromkeys((s.placed[0].name, s.height) for s in high):
            what, units, where = f"`{name}`", bench.ruler.units, bench.place_of(name)
            bench.faults.append(too_high(what, height, job.fabric, stock, units, where))
        left = (tuple(s for s in group if s.height <= stock.along) for group in job.settled)
        job.settled = [group for group in left if group]


def _rotary(want: Want, ruler: Ruler) -> Rotary:
    ruler = want.ruler(ruler)
    return rotary(want, cut_outline(want.patch.outline, ruler.allowance), ruler)


def _shared(
    cut: tuple[tuple[Want, Rotary], ...],
) -> list[tuple[Want, Rotary, list[Want]]]:
    """The wants with those put together that come from the same squares, as of prints with an up."""
    found: dict[object, list[tuple[Want, Rotary]]] = {}
    for number, (want, made) in enumerate(cut):
        key: object = number
        if made.wedges:
            key = (want.patch.letter, want.fabric.id, made.method, made.cut)
        found.setdefault(key, []).append((want, made))
    return [
        (members[0][0], _from_the_same_cuts(members), [want for want, _ in members])
        for members in found.values()
    ]


def _from_the_same_cuts(members: list[tuple[Want, Rotary]]) -> Rotary:
    """How wants are cut that share squares: the fewest squares that give all their triangles."""
    want, made = members[0]
    if len(members) == 1:
        return made
    wanted: Counter[Wedge] = Counter()
    for _, other in members:
        wanted.update(other.wedges)
    mirrored = frozenset(wedge for _, other in members for wedge in other.mirrored)
    rows = made.lays[0].rows
    lays = wedge_lays(wanted, TURNS[want.fabric.direction], rows, mirrored)
    return replace(made, lays=lays, wedges=wanted, mirrored=mirrored)


def _add_patches(bench: Workbench, cuts: list[tuple[Want, Rotary, list[Want]]]) -> None:
    """The items of all patches; those that the way of their cloth cuts in pairs as settled strips."""
    plain = [(want, made) for want, made, _ in cuts]
    pairs, single = pairs_of(plain), unfoldable(plain)
    folded = {n for n in pairs if bench.ways[plain[n][0].fabric.id].folded}
    locked = interlocked(plain, folded)
    for number, (want, made, alike) in enumerate(cuts):
        job, other = bench.jobs[want.fabric.id], pairs.get(number, -1)
        if number not in folded:
            lays = locked.get(number, made.lays)
            _add_patch(bench, want, made, alike, lays, number in single)
            continue
        lay = made.lays[0]
        letter = want.patch.letter
        strips = folded_strips(job, letter, made.method, lay, bench.ruler)
        if strips is None:
            _add_patch(bench, want, made, alike, made.lays)
            continue
        if other is None or other > number:
            job.settled.append(strips)
        _add_line(bench, want, made, alike, lay.cuts)


def _add_patch(
    bench: Workbench,
    want: Want,
    made: Rotary,
    alike: list[Want],
    lays: tuple[AlikeCuts, ...],
    no_fold: bool = False,
) -> None:
    """The items of a patch, laid so, and its line in the cutting table."""
    job, letter = bench.jobs[want.fabric.id], want.patch.letter
    pieces = sum(w.pieces for w in alike)
    _add_line(bench, want, made, alike, no_fold=no_fold)
    if made.method.fussy and want.fabric.repeat is not None:
        add_fussy(bench, job, letter, made, pieces, want.span)
        return
    for lay in lays:
        bench.add(job, lay, letter, made.method, f"patch `{letter}`", want.span)


def _add_line(
    bench: Workbench,
    want: Want,
    made: Rotary,
    alike: list[Want],
    pairs: int = 0,
    no_fold: bool = False,
) -> None:
    """The line of a patch in the cutting table."""
    job = bench.jobs[want.fabric.id]
    pieces = sum(w.pieces for w in alike)
    per_block: dict[str, int] = {}
    for w in alike:
        for block, count in w.per_block.items():
            per_block[block] = per_block.get(block, 0) + count
    outline = cut_outline(want.patch.outline, want.ruler(bench.ruler).allowance)
    area = abs(area_of(outline.cut)) if want.rough is None else made.exact[0] * made.exact[1]
    if want.stem is not None:
        area = float(made.cut[0]) * float(made.cut[1]) * math.sqrt(2)  # slanting across its strip
    if want.edge is not None:
        outline = laid_on_outline(want.patch.outline, want.edge)
    job.area += pieces * area
    letter = want.patch.letter
    job.patches.append(
        CutPatch(
            name=letter,
            title=phrase(
                "{letter} {shape}",
                letter=letter,
                shape=made.method.piece or want.patch.name,
            ),
            fabric=want.fabric.id,
            method=made.method,
            cut=made.cut,
            exact=made.exact,
            pieces=pieces,
            reversed=sum(w.reversed for w in alike),
            cuts=made.cuts,
            sum=made.sum,
            angle=made.angle,
            outline=None if want.rough or want.stem else outline,  # else no template is needed
            grain=made.grain,
            per_block=tuple(per_block.items()),
            pairs=pairs,
            no_fold=no_fold,
            gives=gives_of(made.lays),
            by=made.by,
            is_applied=want.edge is not None,
        )
    )


def _add_together(bench: Workbench, unit: TogetherUnit) -> None:
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
