"""Floor 6: the panels of a back. Widths of cloth joined lengthwise, crosswise, or with the last one pieced."""

from __future__ import annotations

import math

from booklet.kit.measure import Length
from booklet.kit.records import Record, replace
from booklet.kit.trade import ALLOWANCE

Size = tuple[Length, Length]

SEAM = ALLOWANCE.inch


def panels_across(across: Length, usable: Length, seam: Length = SEAM) -> int:
    """How many widths of cloth cover `across`; every seam takes two allowances `seam` of it."""
    if across <= usable:
        return 1
    useful = usable - 2 * seam
    if useful.inches <= 0:
        raise ValueError("the cloth is no wider than its seams")
    return math.ceil((across - 2 * seam).inches / useful.inches)


def back_joins(widths: int, strips: int) -> int:
    """How many seams a back has: between its panels, and in the last one, where that is joined from `strips`."""
    return widths - 1 + max(0, strips - 1)


class BackPanels(Record, kw_only=True):
    """One way to make a back: `widths` panels, each `panel` long, seams running `seam`. The panels lie
    side by side over its width or, `turned` a quarter, over its height: `over` is that side. The last one, of which only
    `last` is needed, is a length of cloth like the others or, where that takes less cloth, joined from so many
    `strips` cut across it."""

    widths: int
    panel: Length
    seam: str  # none | lengthwise | crosswise
    over: Length
    turned: bool
    last: Length
    strips: int = 0

    @property
    def length(self) -> Length:
        """The length of cloth in all."""
        if self.strips:
            return (self.widths - 1) * self.panel + self.strips * self.last
        return self.widths * self.panel

    @property
    def joins(self) -> int:
        """How many seams it has."""
        return back_joins(self.widths, self.strips)

    def length_of(self, backs: int, usable: Length, seam: Length = SEAM) -> Length:
        """The length of cloth for so many alike backs: of the last panels, as narrow as they may be, or of the ends they
        are joined from, as many as it holds lie side by side."""
        whole = self.widths - 1
        if self.strips:
            more = self.strips - 1
            end = self.panel - more * (usable - 2 * seam)
            rows = more * backs + _rows(end, backs, usable)
            return whole * backs * self.panel + rows * self.last
        return (whole * backs + _rows(self.last, backs, usable)) * self.panel


def _rows(width: Length, count: int, usable: Length) -> int:
    """How many rows of cloth so many alike pieces take that lie side by side."""
    return math.ceil(count / max(1, int(usable.inches // width.inches)))


def panels(size: Size, usable: Length, turned: bool, seam: Length = SEAM) -> BackPanels:
    """Panels that run down the quilt, or `turned` across it, as their seams do."""
    over, panel = reversed(size) if turned else size
    widths = panels_across(over, usable, seam)
    runs = "crosswise" if turned else "lengthwise"
    return BackPanels(
        widths=widths, panel=panel, seam=runs if widths > 1 else "none", over=over, turned=turned,
        last=over - (widths - 1) * (usable - 2 * seam),
    )  # fmt: skip


def layouts(
    size: Size, usable: Length, seam: Length = SEAM, upright: bool = False
) -> tuple[BackPanels, ...]:
    """The ways to make a back; with `upright` only those that keep the top of a print up."""
    return tuple(
        panels(size, usable, turned, seam) for turned in ((False,) if upright else (False, True))
    )


def best_layout(
    size: Size, usable: Length, seam: Length = SEAM, upright: bool = False, backs: int = 1
) -> BackPanels:
    """Whichever way needs least cloth for so many `backs`, one in each kit; of two alike the one with fewer, then upright
    seams."""
    ways = layouts(size, usable, seam, upright)
    return min(ways, key=lambda layout: (layout.length_of(backs, usable, seam), layout.widths))


def back_ways(
    size: Size, usable: Length, seam: Length, worth: Length, upright: bool = False, backs: int = 1
) -> tuple[BackPanels, ...]:
    """All ways to make a back that are worth a look, that of least cloth first, of two alike the one with fewer joins,
    then upright seams. A last panel is joined from strips across the cloth where each join it has more than whole
    panels would spares more than `worth` of cloth; never with `upright`, for the print would lie on its side there."""
    whole = layouts(size, usable, seam, upright)
    plain = best_layout(size, usable, seam, upright, backs)
    least = plain.length_of(backs, usable, seam)
    joined = [
        way
        for layout in whole
        if layout.widths > 1 and not upright
        for way in [replace(layout, strips=panels_across(layout.panel, usable, seam))]
        if least - way.length_of(backs, usable, seam)
        > max(0, way.joins - plain.joins) * backs * worth
    ]
    ways = sorted(
        (*whole, *joined),
        key=lambda way: (way.length_of(backs, usable, seam), way.joins, way.turned),
    )
    return tuple(ways)


MOST_PIECES = 8  # in one panel of a back: whoever would join more buys cloth instead


class Pieced(Record):
    """A layout whose last panel, since little of it is needed, is pieced from `pieces` short lengths
    cut side by side from one length of cloth; `length` is the cloth in all."""

    layout: BackPanels
    pieces: int
    length: Length


def pieced(layout: BackPanels, usable: Length, seam: Length = SEAM) -> Pieced | None:
    """A layout with its last panel pieced, or None if that saves no cloth.

    Of the last panel only what the whole ones leave uncovered, and its seam, is needed; as many such
    widths as lie side by side in the cloth, up to `MOST_PIECES`, are joined end to end.
    """
    if layout.widths < 2:
        return None
    pieces = min(math.floor(usable.inches / layout.last.inches), MOST_PIECES)
    last = (layout.panel + (pieces - 1) * 2 * seam) / max(pieces, 1)
    if pieces < 2 or last >= layout.panel:
        return None
    return Pieced(layout, pieces, (layout.widths - 1) * layout.panel + last)


def best_pieced(
    size: Size, usable: Length, seam: Length = SEAM, upright: bool = False
) -> Pieced | None:
    """The pieced layout that needs least cloth, None if no direction has one."""
    made = [pieced(layout, usable, seam) for layout in layouts(size, usable, seam, upright)]
    found = [one for one in made if one is not None]
    return min(found, key=lambda one: (one.length, one.layout.widths), default=None)
