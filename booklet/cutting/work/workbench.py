"""Floor 7: the work on every cloth of a size while it is gathered, and the faults met on the way."""

from __future__ import annotations

import math
import re
from collections import defaultdict

from booklet.crafts.method import STRIP, Method
from booklet.crafts.rotary.cuts import AlikeCuts
from booklet.crafts.rotary.ruler import Ruler
from booklet.cutting.cloth.jobs import Job, Owner
from booklet.cutting.cloth.precuts import stock_of
from booklet.cutting.cutting_plan import CutPatch
from booklet.cutting.faults import lies_sideways, too_high, too_wide
from booklet.cutting.strips.items import Item, Variant, steps_up, variant_of
from booklet.kit.diagnostic import Diagnostic, Span
from booklet.kit.measure import Length
from booklet.kit.outlines.polygon import area_of
from booklet.kit.records import Mutable, Record, field, replace
from booklet.pattern import Direction, Fabric
from booklet.quilt.sized import BackingPlan, Part, SizedQuilt

_BORDER = re.compile(r"border (\d+)")


def border_number(part: str) -> int | None:
    """The number of the border that a part of this name belongs to, from 1; None of any other part."""
    found = _BORDER.match(part)
    return None if found is None else int(found[1])


class CuttingWay(Record, kw_only=True):
    """How a cloth is cut where there is a choice: borders along the selvedge, pairs from folded cloth, the back in which of
    its ways (`SizedQuilt.backs`), beside its panels the binding, and other long parts (a sleeve, long sashes), the short
    strips of a border together with the ends of its long ones."""

    lengthwise: bool = False
    folded: bool = False
    back: int = 0
    beside: bool = False
    parts: tuple[str, ...] = ()
    ends: bool = False


class Workbench(Mutable, kw_only=True):
    """The jobs by fabric id, in the order of the fabrics, and the way each is tried."""

    quilt: SizedQuilt
    ruler: Ruler
    jobs: dict[str, Job]
    faults: list[Diagnostic] = field(default_factory=list)
    ways: defaultdict[str, CuttingWay] = field(default_factory=lambda: defaultdict(CuttingWay))

    @property
    def back(self) -> BackingPlan | None:
        """The back as it is cut in the way that is tried; None without one, or of no cloth that is known."""
        backs = self.quilt.backs
        if not backs or backs[0].fabric not in self.jobs:
            return None
        return backs[self.ways[backs[0].fabric].back]

    def note_sideways(self, part: Part, fabric: Fabric, lengthwise: bool = False) -> None:
        """The warning, for a print with an up, that it lies on its side in a part so cut."""
        if fabric.direction is not Direction.ANY:
            stock, where = stock_of(fabric), self.place_of(part.name)
            self.faults.append(lies_sideways(part, fabric, stock, lengthwise, where))

    def place_of(self, part: str) -> Span:
        """Where a part of the quilt is written: its own group of keys, or the quilt's."""
        quilt = self.quilt.size.quilt
        if quilt is None:
            return self.quilt.size.span
        if number := border_number(part):
            return quilt.borders[number - 1].span
        owners = {
            "backing": quilt.backing,
            "binding": quilt.binding,
            "sleeve": quilt.sleeve,
            "envelope": quilt.envelope,
            "sash": quilt.sashing,
            "long": quilt.sashing,  # a long sash
            "cornerstone": quilt.sashing,
        }
        owner = owners.get(part.split(" ", 1)[0])
        return owner.span if owner is not None else quilt.span

    def add(
        self,
        job: Job,
        lay: AlikeCuts,
        name: str,
        method: Method,
        what: str,
        span: Span | None = None,
    ) -> None:
        """Add the items of a lay, or the fault that no row of it fits on the cloth."""
        stock, grain = stock_of(job.fabric), self.ruler.planned
        step, width = float(grain), math.floor(job.fabric.usable.inches / grain)
        made = [self._high(variant_of(row, step, width, lay.cuts)) for row in lay.rows]
        fits = [v for v in made if v is not None]
        if stock is not None:
            fits = [v for v in fits if v.height <= math.floor(stock.along.inches / grain)]
        if not fits:
            least = min(steps_up(row.width, step) for row in lay.rows) * grain
            units, where = self.ruler.units, span or self.place_of(name)
            if stock is not None and any(made):
                high = Length(min(v.height for v in made if v) * grain)
                self.faults.append(too_high(what, high, job.fabric, stock, units, where))
                return
            high = Length.of(min(row.height for row in lay.rows))
            self.faults.append(too_wide(what, Length(least), job.fabric, stock, units, where, high))
            return
        area = abs(area_of(lay.rows[0].shapes[0])) / step**2
        job.items.append(Item(name, lay.cuts, tuple(dict.fromkeys(fits)), area))
        job.owners.append(Owner(name, method, lay.gives, lay.reversed))

    def _high(self, variant: Variant | None) -> Variant | None:
        """The variant in a strip as high as its figure, or to the next mark where it has none."""
        if variant is None:
            return None
        room = self.ruler.room(variant.row.height)
        return replace(variant, height=math.ceil(room.inches / self.ruler.planned))


def strip_patch(
    name: str, title: str, job: Job, height: Length, length: Length, count: int, text: str
) -> CutPatch:
    """A long part or panel as a line of the cutting table."""
    exact = (float(height), float(length))
    return CutPatch(
        name=name, title=title, fabric=job.fabric.id, method=STRIP, cut=(height, length), exact=exact,
        pieces=count, cuts=count, sum=text,
    )  # fmt: skip
