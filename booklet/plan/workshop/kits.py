"""Floor 9: kits for a class: what lies in each, and how the cloth of all is cut in layers.

A kit holds what one student sews from: an equal share of all that is cut, since all of it was asked for once for each kit.
Strips that are cut alike are laid on each other and cut at once.
"""

from __future__ import annotations

from collections.abc import Sequence

from booklet.crafts.method import STRIP
from booklet.crafts.rotary.marks import CutBy
from booklet.cutting.cutting_plan import CuttingPlan, FabricPlan, Placed, Strip
from booklet.kit.measure import Length
from booklet.kit.outlines.near import DRAWN
from booklet.kit.outlines.plane import extent
from booklet.kit.records import Record
from booklet.kit.trade import LAYERS
from booklet.kit.words import Text, phrase
from booklet.plan.records import SizePlan

Layout = tuple[Placed, ...]
"""What is cut from one strip."""


class KitItem(Record, kw_only=True):
    """A line of a kit: so many of one patch, or part, of one cloth; `reversed` of them are mirrored. A part that is
    joined from strips lies in the bag in its lengths, and these are counted."""

    name: str
    title: Text
    fabric: str
    pieces: int
    reversed: int


class Stack(Record):
    """Layers of strips that are cut at once, and the cuts through them."""

    layers: int
    cuts: int


class StackedStrips(Record, kw_only=True):
    """Strips of one cloth and width that are cut alike, or of which one ends sooner: how they are stacked, how many cuts
    they would take one by one, and the pieces that all of them give."""

    fabric: str
    width: Length
    strips: int
    stacks: tuple[Stack, ...]
    cuts_singly: int
    gives: tuple[tuple[str, int], ...]

    @property
    def cuts(self) -> int:
        """The cuts through all stacks."""
        return sum(stack.cuts for stack in self.stacks)


def kit_items(plan: SizePlan) -> tuple[KitItem, ...]:
    """What lies in each kit, in the order of cutting, of a plan of all kits: 24 pieces in 12 kits are 2 in each."""
    found: dict[tuple[str, str], KitItem] = {}
    for patch in plan.cutting.patches:
        key, kits = (patch.name, patch.fabric), plan.size.kits
        before = found.get(key)
        joined = plan.cutting.joined(patch.name)
        in_all = sum(len(part.stretches) for part in joined[1]) if joined else patch.pieces
        pieces, back = in_all // kits, patch.reversed // kits
        if before is not None:
            pieces, back = before.pieces + pieces, before.reversed + back
        found[key] = KitItem(
            name=patch.name,
            title=phrase("{part}, to be joined", part=patch.title) if joined else patch.title,
            fabric=patch.fabric,
            pieces=pieces,
            reversed=back,
        )
    return tuple(found.values())


def stacked(cutting: CuttingPlan, cloth: FabricPlan) -> tuple[StackedStrips, ...]:
    """The strips of a cloth as they are stacked, in cutting order; none that are not cut across, that are cut round a
    template, or that are cut by the motifs of the print."""
    drawn_round = {p.name for p in cutting.patches if p.by is CutBy.TEMPLATE}
    return tuple(
        _stacked(cloth.fabric, strip, alike)
        for strip in cloth.strips
        if not strip.lengthwise
        for alike in _alike(strip)
        if not any(
            cut.method == STRIP or cut.method.fussy or cut.name in drawn_round for cut in alike[0]
        )
    )


def _stacked(fabric: str, strip: Strip, alike: Sequence[Layout]) -> StackedStrips:
    """Alike strips, the fullest first, in stacks of as many layers as are cut at once; folded strips have two each."""
    most = LAYERS // 2 if strip.folded else LAYERS
    each = [1 + sum(_cuts(cut, strip) for cut in layout) for layout in alike]  # one straightens
    pieces: dict[str, int] = {}
    for cut in (cut for layout in alike for cut in layout):
        pieces[cut.name] = pieces.get(cut.name, 0) + len(cut.shapes)
    return StackedStrips(
        fabric=fabric,
        width=strip.width,
        strips=len(alike),
        stacks=tuple(
            Stack(len(each[at : at + most]), max(each[at : at + most]))
            for at in range(0, len(each), most)
        ),
        cuts_singly=sum(each),
        gives=tuple(pieces.items()),
    )


def _alike(strip: Strip) -> list[list[Layout]]:
    """The layouts of strips that are cut at the same places as far as they go, the fullest of each kind first."""
    found: list[list[Layout]] = []
    for layout in sorted(filter(None, strip.layouts), key=len, reverse=True):
        ours = _places(layout)
        for group in found:
            if _places(group[0])[: len(ours)] == ours:
                group.append(layout)
                break
        else:
            found.append([layout])
    return found


def _places(layout: Layout) -> list[object]:
    """What lies where in a strip, from its beginning: how far down the cloth the strip lies does not count."""
    top = min(y for cut in layout for _, y in cut.outline)
    places = [
        (tuple((round(x, 4), round(y - top, 4)) for x, y in cut.outline), cut.name, cut.wedges)
        for cut in layout
    ]
    return [*sorted(places, key=lambda place: min(place[0]))]


def _cuts(cut: Placed, strip: Strip) -> int:
    """The cuts that a piece takes: one across the strip, one more if it is lower than the strip, and those along its
    diagonals."""
    trimmed = extent(cut.outline)[1] < float(strip.width) - DRAWN
    diagonals = {0: 0, 1: 1, 2: 1}.get(len(cut.wedges), 2)
    return 1 + trimmed + diagonals
