"""Floor 7: gathers the work on every cloth of a size: patches of blocks, parts of the quilt, binding, back."""

from __future__ import annotations

import math
import re
from dataclasses import replace

from booklet.cutting.cutting_plan import CutPatch, Method, Placed
from booklet.cutting.demand import Want, wants_of
from booklet.cutting.faults import too_wide
from booklet.cutting.figures import extent
from booklet.cutting.fussy import fussy_rows
from booklet.cutting.items import Item, steps_up, variant_of
from booklet.cutting.jobs import Job, LaidStrip, Owner, box, level_strip
from booklet.cutting.long_parts import Segment, joined_strips
from booklet.cutting.outlines import cut_outline
from booklet.cutting.precuts import stock_of
from booklet.cutting.rotary import Lay, Rotary, Ruler, box_rows, rotary
from booklet.cutting.sums import added
from booklet.diagnostic import Diagnostic, Span
from booklet.geometry.vectors import polygon_area
from booklet.measure import Length
from booklet.pattern import Direction, Fabric
from booklet.quilt.sized import Part, SetPattern, SizedQuilt

STRAIGHT_JOIN = Length.of("1/2")
"""What a straight join takes of a border strip: an allowance of 1/4 in of each of the two."""


_TITLES = {
    Method.HALF_SQUARE: "half-square triangle",
    Method.QUARTER_SQUARE: "quarter-square triangle",
}  # the method names the triangle: its grain decides, not its outline


class Gatherer:
    """Collects the jobs of one size, fabric by fabric, and the faults met on the way."""

    def __init__(self, pattern: SetPattern, quilt: SizedQuilt, ruler: Ruler) -> None:
        self.pattern, self.quilt, self.ruler = pattern, quilt, ruler
        self.jobs = {id: Job(fabric) for id, fabric in quilt.size.fabrics.items()}
        self.faults: list[Diagnostic] = []
        self.span = quilt.size.quilt.span if quilt.size.quilt else quilt.size.span

    def gather(self) -> list[Job]:
        """The jobs of every fabric from which something is cut: long parts first, then the rest."""
        self._backing()
        long = [part for part in self.quilt.parts if self._is_joined(part)]
        groups: dict[tuple[str, str, Length], list[Part]] = {}
        for part in long:
            name = re.sub(r"^(border \d+) .*", r"\1", part.name)
            groups.setdefault((part.fabric, name, min(part.cut)), []).append(part)
        for parts in groups.values():
            self._joined(parts)
        self._binding()
        for part in self.quilt.parts:
            if part not in long:
                self._part(part)
        cut = [(want, self._rotary(want)) for want in wants_of(self.pattern, self.quilt)]
        for want, made, wants in _shared(cut):
            self._want(want, made, wants)
        return [job for job in self.jobs.values() if not job.is_empty]

    def _rotary(self, want: Want) -> Rotary:
        outline = cut_outline(want.patch.outline, self.ruler.allowance)
        return rotary(want, outline, self.ruler)

    def _width(self, fabric: Fabric) -> Length:
        stock = stock_of(fabric)
        return stock.across if stock else fabric.width

    def _is_joined(self, part: Part) -> bool:
        fabric = self.quilt.size.fabrics.get(part.fabric)
        return fabric is not None and part.long and max(part.cut) > self._width(fabric)

    def _backing(self) -> None:
        backing = self.quilt.backing
        if backing is None or backing.fabric not in self.jobs or backing.widths < 1:
            return
        job = self.jobs[backing.fabric]
        panel = backing.panel or (job.fabric.width, backing.length / backing.widths)
        strips = [level_strip("backing", panel[1], panel[0])] * backing.widths
        job.settled.append(tuple(strips))
        job.area += backing.widths * float(panel[0]) * float(panel[1])
        job.patches.append(
            _strip_patch(
                "backing",
                "backing",
                job,
                panel[1],
                panel[0],
                backing.widths,
                "; ".join(backing.sums),
            )
        )

    def _binding(self) -> None:
        binding = self.quilt.binding
        if binding is None or binding.fabric not in self.jobs:
            return
        job = self.jobs[binding.fabric]
        text = "; ".join(binding.sums)
        if binding.bias:
            side = float(binding.square or binding.strip)
            rows = box_rows(side, side, False)
            squares = binding.strips  # one continuous strip from each
            owner = Owner("binding", 1, squares)
            self._items(job, Lay(squares, rows), owner, binding_words(), self.span)
            job.area += squares * side * side
            cut = Length.of(side)
            job.patches.append(_strip_patch("binding", "binding", job, cut, cut, squares, text))
            return
        usable = self._width(job.fabric)
        count = binding.strips
        if stock_of(job.fabric) and usable > binding.strip:
            count = math.ceil(binding.length.inches / (usable - binding.strip).inches)
        strips = tuple(level_strip("binding", binding.strip, usable) for _ in range(count))
        job.settled.append(strips)
        job.area += count * float(binding.strip) * float(usable)
        job.patches.append(
            _strip_patch("binding", "binding", job, binding.strip, usable, count, text)
        )

    def _joined(self, parts: list[Part]) -> None:
        """Parts longer than the cloth is wide: whole strips joined end to end."""
        job = self.jobs[parts[0].fabric]
        usable, height = self._width(job.fabric), min(parts[0].cut)
        each = [(part.name, max(part.cut)) for part in parts for _ in range(part.count)]
        laid = joined_strips(each, usable, STRAIGHT_JOIN)
        job.settled.append(_joined_strips(laid, height, {p.name: p.count for p in parts}))
        job.area += len(laid) * float(height) * float(usable)
        for part in parts:
            job.patches.append(
                _strip_patch(
                    part.name, part.title, job, height, max(part.cut), part.count, _text(part)
                )
            )

    def _part(self, part: Part) -> None:
        """A part that one strip can hold."""
        if part.fabric not in self.jobs or part.count <= 0:
            return
        job = self.jobs[part.fabric]
        per_cut = {"half-square triangle": 2, "quarter-square triangle": 4}.get(part.shape, 1)
        method = {1: Method.RECTANGLE, 2: Method.HALF_SQUARE, 4: Method.QUARTER_SQUARE}[per_cut]
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
            self._items(job, lay, owner, f"`{part.title}`", self.span)
        job.area += part.count / per_cut * width * height
        exact = tuple(float(f) + 2 * self.ruler.s for f in part.finished)
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
                _text(part),
                None,
                None,
                0.0,
                (),
            )
        )

    def _want(self, want: Want, made: Rotary, wants: list[Want]) -> None:
        """The pieces of a patch."""
        job = self.jobs[want.fabric.id]
        pieces = sum(w.pieces for w in wants)
        per_block: dict[str, int] = {}
        for w in wants:
            for block, count in w.per_block.items():
                per_block[block] = per_block.get(block, 0) + count
        outline = cut_outline(want.patch.outline, self.ruler.allowance)
        job.area += pieces * abs(polygon_area(outline.cut))
        letter = want.patch.letter
        job.patches.append(
            CutPatch(
                letter,
                f"{letter} {_TITLES.get(made.method, want.patch.name)}",
                want.fabric.id,
                made.method,
                made.cut,
                made.exact,
                pieces,
                sum(w.reversed for w in wants),
                made.cuts,
                made.sum,
                made.angle,
                outline,
                made.grain,
                tuple(per_block.items()),
            )
        )
        if made.method is Method.FUSSY and want.fabric.repeat is not None:
            self._fussy(job, letter, made, pieces)
            return
        owner = Owner(letter, made.per_cut, pieces)
        for lay in made.lays:
            self._items(job, lay, owner, f"patch `{letter}`", want.span)

    def _fussy(self, job: Job, letter: str, made: Rotary, pieces: int) -> None:
        """Rows of fussy cuts on the print's repeat."""
        assert job.fabric.repeat is not None
        row = made.lays[0].rows[0]
        plan = fussy_rows(
            pieces, (row.width, row.height), job.fabric.repeat, self._width(job.fabric)
        )
        rows, left = [], pieces
        for number in range(plan.rows):
            count = min(plan.per_row, left)
            left -= count
            height = plan.along if number < plan.rows - 1 else row.height
            placed = tuple(
                Placed(letter, tuple((x + k * plan.across, y) for x, y in row.shapes[0]))
                for k in range(count)
            )
            used = (count - 1) * plan.across + row.width
            tall = self.ruler.up(height)
            rows.append(LaidStrip(tall, placed, ((letter, count, count),), used))
        job.settled.append(tuple(rows))
        job.more.append(
            (f"one repeat more for {letter}, as the cloth may begin anywhere in its repeat",
             job.fabric.repeat[1])
        )  # fmt: skip

    def _items(self, job: Job, lay: Lay, owner: Owner, what: str, span: Span) -> None:
        """Add the items of a lay, or the fault that no row of it fits on the cloth."""
        stock, step = stock_of(job.fabric), float(self.ruler.step)
        width = math.floor(self._width(job.fabric).inches / self.ruler.step)
        made = [variant_of(row, step, width, lay.cuts) for row in lay.rows]
        fits = [v for v in made if v is not None]
        if stock is not None:
            fits = [v for v in fits if v.height <= math.floor(stock.along.inches / self.ruler.step)]
        if not fits:
            least = min(steps_up(row.width, step) for row in lay.rows) * self.ruler.step
            self.faults.append(
                too_wide(what, Length(least), job.fabric, stock, self.ruler.units, span)
            )
            return
        area = abs(polygon_area(lay.rows[0].shapes[0])) / step**2
        job.items.append(Item(owner.name, lay.cuts, tuple(dict.fromkeys(fits)), area))
        job.owners.append(owner)


def binding_words() -> str:
    """What the square of a bias binding is called in a message."""
    return "the square for the bias `binding`"


def _shared(cut: list[tuple[Want, Rotary]]) -> list[tuple[Want, Rotary, list[Want]]]:
    """The wants with those put together that come from the same squares, as of prints with an up."""
    found: dict[object, list[tuple[Want, Rotary]]] = {}
    for number, (want, made) in enumerate(cut):
        key: object = number
        if made.shares is not None:
            key = (want.patch.letter, want.fabric.id, made.method, made.shares)
        found.setdefault(key, []).append((want, made))
    result = []
    for members in found.values():
        want, made = max(members, key=lambda pair: pair[1].cuts)
        result.append((want, made, [w for w, _ in members]))
    return result


def _strip_patch(
    name: str, title: str, job: Job, height: Length, length: Length, count: int, text: str
) -> CutPatch:
    """A long part or panel as a line of the cutting table."""
    exact = (float(height), float(length))
    return CutPatch(
        name, title, job.fabric.id, Method.STRIP, (height, length), exact,
        count, 0, count, text, None, None, 0.0, (),
    )  # fmt: skip


def _text(part: Part) -> str:
    """The sum of a part: the quilt floor's, or the plain one from its finished size."""
    if part.sums:
        return "; ".join(part.sums)
    pairs = zip(part.finished, part.cut, strict=True)
    return "; ".join(added(float(f), float(c), c, "inch") for f, c in pairs)


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


def _joined_strips(
    laid: tuple[tuple[Segment, ...], ...], height: Length, counts: dict[str, int]
) -> tuple[LaidStrip, ...]:
    """The strips drawn; a part counts as given where its last stretch lies."""
    made = []
    for strip in laid:
        placed = tuple(
            Placed(s.name, box(float(s.start), 0.0, float(s.length), float(height))) for s in strip
        )
        names = dict.fromkeys(s.name for s in strip)
        gives = tuple((n, sum(1 for s in strip if s.name == n), 0) for n in names)
        used = strip[-1].start + strip[-1].length
        made.append(LaidStrip(height, placed, gives, float(used)))
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
