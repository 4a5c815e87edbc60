"""Floor 6: backing and batting. The two layers below the top, larger than it on every side."""

from __future__ import annotations

import math
from dataclasses import dataclass

from booklet.measure import ZERO, Length, UnitSystem
from booklet.pattern import Backing
from booklet.quilt.sized import BackingPlan
from booklet.quilt.sums import MINUS, TIMES, Usual, cuttable, result, rounded_word, say

Size = tuple[Length, Length]

BACKING_SEAM = Usual.of("1/4 in", "0.6 cm")
"""The seam allowance of a backing seam; sources use 1/4 to 5/8 in."""

SEAM = BACKING_SEAM.inch


def layer_size(top: Size, extra: Length) -> Size:
    """The size of a layer that is `extra` larger than the finished top on each of its four sides."""
    return top[0] + 2 * extra, top[1] + 2 * extra


def cut_size(top: Size, extra: Length, units: UnitSystem) -> Size:
    """The size of a layer as it can be measured: rounded up where no ruler shows it."""
    width, height = layer_size(top, extra)
    return cuttable(width, units), cuttable(height, units)


def panels_across(across: Length, usable: Length, seam: Length = SEAM) -> int:
    """How many widths of cloth cover `across`; every seam takes two allowances `seam` of it."""
    if across <= usable:
        return 1
    useful = usable - 2 * seam
    if useful.inches <= 0:
        raise ValueError("the cloth is no wider than its seams")
    return math.ceil((across - 2 * seam).inches / useful.inches)


@dataclass(frozen=True, slots=True)
class Layout:
    """One way to make a back: `widths` panels, each `panel` long, seams running `seam`."""

    widths: int
    panel: Length
    seam: str  # none | lengthwise | crosswise

    @property
    def length(self) -> Length:
        """The length of cloth in all."""
        return self.widths * self.panel


def lengthwise(size: Size, usable: Length, seam: Length = SEAM) -> Layout:
    """Panels that run down the quilt, so that their seams run down it too."""
    widths = panels_across(size[0], usable, seam)
    return Layout(widths, size[1], "lengthwise" if widths > 1 else "none")


def crosswise(size: Size, usable: Length, seam: Length = SEAM) -> Layout:
    """Panels that run across the quilt, so that their seams run across it too."""
    widths = panels_across(size[1], usable, seam)
    return Layout(widths, size[0], "crosswise" if widths > 1 else "none")


def best_layout(size: Size, usable: Length, seam: Length = SEAM) -> Layout:
    """Whichever of the two needs least cloth; of two alike the one with fewer, then upright seams."""
    both = (lengthwise(size, usable, seam), crosswise(size, usable, seam))
    return min(both, key=lambda layout: (layout.length, layout.widths))


def plan_backing(
    top: Size,
    backing: Backing,
    usable: Length,
    units: UnitSystem,
) -> BackingPlan | None:
    """The back of a finished top; None if the cloth is no wider than its seams."""
    seam = BACKING_SEAM.said_in(units)
    if usable <= 2 * seam:
        return None
    size = cut_size(top, backing.extra, units)
    best = best_layout(size, usable, seam)
    along, over = ("width", size[0]) if best.seam != "crosswise" else ("height", size[1])
    if best.seam == "none" and best.panel == size[0] and size[0] > usable:
        along, over = "height", size[1]
    return BackingPlan(
        size,
        best.widths,
        best.seam,
        best.length,
        backing.fabric,
        (min(usable, over) if best.widths == 1 else usable, best.panel),
        (
            *layer_sums("backing", top, backing.extra, units),
            _panel_sum(along, over, best, usable, seam, units),
            f"backing, length of cloth: {best.widths} {TIMES} {say(best.panel, units)}"
            f" = {result(best.length, units)}",
        ),
    )


def _panel_sum(
    along: str, over: Length, best: Layout, usable: Length, seam: Length, units: UnitSystem
) -> str:
    """How the number of widths came about."""
    if best.widths == 1:
        return (
            f"backing, widths over its {along}: {say(over, units)} fits in"
            f" {result(usable, units)}, 1 width"
        )
    covers = best.widths * usable - (best.widths - 1) * 2 * seam
    return (
        f"backing, widths over its {along}: {best.widths} {TIMES} {say(usable, units)} {MINUS}"
        f" {best.widths - 1} {TIMES} {say(2 * seam, units)} for the seams ="
        f" {result(covers, units)}, enough for {result(over, units)}"
    )


def layer_sums(name: str, top: Size, extra: Length, units: UnitSystem) -> tuple[str, ...]:
    """How the size of a layer came about, for the appendix."""
    rows = zip(
        ("width", "height"), top, layer_size(top, extra), cut_size(top, extra, units), strict=True
    )
    return tuple(
        f"{name}, {word}: {say(inner, units)} + 2 {TIMES} {say(extra, units)}"
        f"{rounded_word(exact, cut)} = {result(cut, units)}"
        for word, inner, exact, cut in rows
    )


@dataclass(frozen=True, slots=True)
class SleeveRule:
    """How a hanging sleeve is made: its finished width, end hems, seam, and length beyond the edge.

    SLEEVE is the International Quilt Association's: cut 8 1/2 in wide and 2 in longer than the
    edge, hem both ends by 1 1/2 in, sew into a tube that lies 4 in wide.
    """

    finished: Length
    hem: Length
    seam: Length
    longer: Length


SLEEVE = SleeveRule(Length.of(4), Length.of("1 1/2"), Length.of("1/4"), Length.of(2))


def sleeve(edge: Length, rule: SleeveRule = SLEEVE) -> tuple[Size, Size]:
    """A hanging sleeve for a top edge: its cut size and its finished size (width, length)."""
    cut = 2 * rule.finished + 2 * rule.seam, edge + rule.longer
    return cut, (rule.finished, cut[1] - 2 * rule.hem)


def top_before_shrinking(finished: Length, share: float) -> Length:
    """The size to make so that `finished` is left after shrinking by `share`: size / (1 - share)."""
    if not 0 <= share < 1:
        raise ValueError("a quilt cannot shrink by all of itself")
    return Length.of(float(finished) / (1 - share)) if share else finished + ZERO
