"""Floor 7: the plan drawn out. Every cut gets its place in its strip, every strip its place in the cloth."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from functools import lru_cache
from itertools import groupby

from booklet.crafts.rotary.nesting import NestedRow
from booklet.cutting.cloth.jobs import Job, LaidStrip
from booklet.cutting.cutting_plan import Leftover, Placed, Strip, StripUse
from booklet.cutting.strips.items import ItemShare, Plan, Remnants, StripFill, in_pieces
from booklet.kit.measure import Length, Rounding
from booklet.kit.outlines.near import NOISE
from booklet.kit.records import replace
from booklet.kit.trade import LEAST_SCRAP

Group = tuple[LaidStrip, ...]
Shifted = tuple[tuple[float, float], ...]


class StripLaying:
    """Lays the strips of a plan, counting off the cuts of each item."""

    def __init__(self, job: Job, step: Fraction) -> None:
        self.job, self.step = job, step
        self._waiting = [iter(owner.gives) for owner in job.owners]
        self._odd = [False] * len(job.owners)  # rows of pieces by turns: whether one is ahead

    def settled(
        self, plan: Plan, remnants: Remnants, places: Sequence[Sequence[tuple[int, int]]]
    ) -> list[Group]:
        """The settled strips with what the plan cuts from their ends.

        `places` tells for each remnant which strips of which groups its pieces are the ends of.
        """
        groups = [list(group) for group in self.job.settled]
        down: dict[tuple[int, int], float] = {}
        for fill, (group, index) in self._ends(plan, remnants, places):
            strip = groups[group][index]
            start = float(self.job.settled[group][index].used)
            laid, y = self.lay(fill), down.get((group, index), 0.0)
            placed = tuple(_moved_cut(p, start, y) for p in laid.placed)
            down[group, index] = y + float(laid.height)
            groups[group][index] = replace(
                strip,
                placed=(*strip.placed, *placed),
                gives=(*strip.gives, *laid.gives),
                used=max(strip.used, start + laid.used),
            )
        return [tuple(group) for group in groups]

    def _ends(
        self, plan: Plan, remnants: Remnants, places: Sequence[Sequence[tuple[int, int]]]
    ) -> Iterator[tuple[StripFill, tuple[int, int]]]:
        """The strips of the plan that are cut from ends, in its order, each with the strip whose end it is."""
        chosen: dict[int, tuple[int, int]] = {}
        for number, (remnant, ends) in enumerate(zip(remnants, places, strict=True), start=1):
            own = [n for n, fill in enumerate(plan) if fill.cloth == number]
            pieces = in_pieces([plan[n].height for n in own], remnant)
            for n, piece in zip(own, pieces, strict=True):
                if piece is None:
                    raise RuntimeError("a strip of the plan lies in no remnant")
                chosen[n] = ends[piece]
        for n in sorted(chosen):
            yield plan[n], chosen[n]

    def free(self, plan: Plan) -> list[Group]:
        """The strips of the plan across the cloth, alike heights together, the highest first."""
        groups = []
        main = [fill for fill in plan if not fill.cloth]
        for _, fills in groupby(main, key=lambda fill: fill.height):
            fullest = sorted(fills, key=lambda fill: (-self._used(fill), fill.shares))
            groups.append(tuple(self.lay(fill) for fill in fullest))
        return groups

    def lay(self, fill: StripFill) -> LaidStrip:
        """One strip: its rows from left to right, the highest pieces first."""
        placed: list[Placed] = []
        gives: dict[str, tuple[int, int]] = {}
        items, step = self.job.items, float(self.step)
        x = 0
        for share in sorted(
            fill.shares, key=lambda s: (-items[s.item].variants[s.variant].height, s)
        ):
            variant, owner = items[share.item].variants[share.variant], self.job.owners[share.item]
            cuts, pieces = gives.get(owner.name, (0, 0))
            row = self._row(share, variant.row)
            for index in range(share.count):
                outline = moved(row.outline(index), x * step, 0.0)
                wedges = next(self._waiting[share.item])
                pieces += len(wedges) or 1
                if variant.row.turned:
                    wedges = tuple(wedge.quarter_turned for wedge in wedges)
                placed.append(
                    Placed(
                        name=owner.name,
                        outline=outline,
                        method=owner.method,
                        wedges=wedges,
                        reversed=owner.reversed,
                    )
                )
            x += variant.lengths[share.count - 1]
            gives[owner.name] = (cuts + share.count, pieces)
        given = tuple((name, cuts, pieces) for name, (cuts, pieces) in gives.items())
        return LaidStrip(
            height=Length(self.step * fill.height), placed=tuple(placed), gives=given, used=x * step
        )

    def _row(self, share: ItemShare, row: NestedRow) -> NestedRow:
        """The row as it is begun: of rows of an odd number of pieces by turns every second one otherwise, so
        that there are as many of either."""
        begun = row
        if share.count % 2 and len(row.shapes) == 2:
            begun = row.begun_otherwise if self._odd[share.item] else row
            self._odd[share.item] = not self._odd[share.item]
        return begun

    def _used(self, fill: StripFill) -> int:
        """How much of a strip's length is used, in steps."""
        items = self.job.items
        return sum(items[s.item].variants[s.variant].lengths[s.count - 1] for s in fill.shares)


def strips_of(groups: Iterable[Group], start: float = 0.0, stock: int = 0) -> tuple[Strip, ...]:
    """The groups as strips of the cloth (or of a piece of stock), one below the other."""
    made, y = [], start
    for group in groups:
        kinds = groupby(group, key=lambda strip: (strip.height, strip.lengthwise, strip.folded))
        for (height, _, _), alike in kinds:
            some = tuple(alike)
            starts = tuple(y + float(height) * k for k in range(len(some)))
            y += float(height) * len(some)
            made.append(_strip(height, some, starts, stock))
    return tuple(made)


def _strip(height: Length, some: Group, starts: tuple[float, ...], stock: int) -> Strip:
    uses: dict[str, tuple[int, int]] = {}
    for strip in some:
        for name, cuts, pieces in strip.gives:
            before = uses.get(name, (0, 0))
            uses[name] = (before[0] + cuts, before[1] + pieces)
    layouts = tuple(
        tuple(_moved_cut(p, 0.0, y) for p in strip.placed)
        for strip, y in zip(some, starts, strict=True)
    )
    used = tuple(StripUse(name, cuts, pieces) for name, (cuts, pieces) in uses.items())
    first = some[0]
    return Strip(
        width=height,
        count=len(some),
        uses=used,
        layouts=layouts,
        starts=starts,
        lengthwise=first.lengthwise,
        folded=first.folded,
        stock=stock,
    )


def _moved_cut(cut: Placed, dx: float, dy: float) -> Placed:
    return replace(cut, outline=moved(cut.outline, dx, dy))


def moved(outline: Shifted, dx: float, dy: float) -> Shifted:
    """The outline moved, rounded so that equal places compare equal."""
    return tuple([(_rounded(x + dx), _rounded(y + dy)) for x, y in outline])


@lru_cache(
    4096
)  # the same few places again and again, and to round a decimal takes ten times as long as to look it up
def _rounded(place: float) -> float:
    return round(place, 9)


def leftovers_of(
    groups: Iterable[tuple[LaidStrip, ...]],
    width: Length,
    step: Fraction,
    uncut: Iterable[Length],
) -> tuple[Leftover, ...]:
    """The ends of strips, and lengths of cloth that are `uncut` right across, rounded down to what the
    ruler shows, the largest first."""
    found: Counter[tuple[Length, Length]] = Counter()
    for length in uncut:
        whole = length.rounded(step, Rounding.DOWN)
        if whole >= LEAST_SCRAP:
            found[width, whole] += 1
    for group in groups:
        for strip in group:
            until = float(width) if strip.until is None else strip.until
            across = Length.of(max(until - strip.used, 0.0) + NOISE).rounded(step, Rounding.DOWN)
            if across >= LEAST_SCRAP and strip.height >= LEAST_SCRAP:
                found[across, strip.height] += 1
    largest = sorted(found, key=lambda size: (-(size[0].inches * size[1].inches), size))
    return tuple(Leftover(*size, found[size]) for size in largest)
