"""Floor 7: pieces of a print with an up that lie upside down to each other. Side by side they interlock in a
row as pieces of other cloth do when the ruler is turned from cut to cut, though none of them is turned."""

from __future__ import annotations

from collections.abc import Container, Sequence

from booklet.crafts.rotary.cuts import AlikeCuts, Rotary, singly
from booklet.crafts.rotary.nesting import NestedRow, row_of
from booklet.cutting.demand import Want
from booklet.kit.outlines.alike import same_corners
from booklet.kit.outlines.polygon import half_turned
from booklet.pattern import Direction

Cut = tuple[Want, Rotary]


def interlocked(cuts: Sequence[Cut], without: Container[int]) -> dict[int, tuple[AlikeCuts, ...]]:
    """The lays of the wants (by their number) that share rows with another: of one of the two as many of either
    in rows by turns and what is left of its own, of the other what is left of its own. `without` are numbers
    that are cut in another way."""
    found: dict[int, tuple[AlikeCuts, ...]] = {}
    for number, cut in enumerate(cuts):
        for other in range(number + 1, len(cuts)):
            if any(n in found or n in without for n in (number, other)):
                continue
            row = _common_row(cut, cuts[other])
            if row is not None:
                (lay,), (back,) = cut[1].lays, cuts[other][1].lays
                each = min(lay.cuts, back.cuts)
                found[number] = (singly(2 * each, (row,), lay.reversed), *_rest(lay, each))
                found[other] = _rest(back, each)
    return found


def _rest(lay: AlikeCuts, taken: int) -> tuple[AlikeCuts, ...]:
    """A lay without as many cuts as are taken."""
    left = lay.cuts - taken
    return (singly(left, lay.rows, lay.reversed),) if left else ()


def _common_row(one: Cut, other: Cut) -> NestedRow | None:
    """The row of two wants by turns; None where they are not each other's half turn or would not lie closer."""
    (want, made), (back, likewise) = one, other
    if want.fabric.direction is not Direction.ONE_WAY or made.method != likewise.method:
        return None
    if (want.patch.letter, want.fabric.id) != (back.patch.letter, back.fabric.id):
        return None
    if want.patch.motif or made.per_cut != 1 or len(made.lays) != 1 or len(likewise.lays) != 1:
        return None
    (row,), (turned,) = made.lays[0].rows, likewise.lays[0].rows
    if not same_corners(half_turned(row.shapes[0]), turned.shapes[0]):
        return None
    both = row_of(row.shapes[0], True)
    return both.widened(row.width - both.width) if len(both.shapes) == 2 else None
