"""Floor 7: what a cutting plan is made of. Sizes are whole steps (1/8 in or 1 mm) so that sums are exact."""

from __future__ import annotations

import math
from collections.abc import Sequence

from booklet.crafts.rotary.nesting import NestedRow
from booklet.kit.outlines.near import WHOLE
from booklet.kit.records import Record


class Variant(Record):
    """One way to lay an item in a strip: the strip's least height, and the length of a row of 1, 2, …
    pieces (`lengths[k - 1]`), in steps. The list ends where the strip is full."""

    height: int
    lengths: tuple[int, ...]
    row: NestedRow

    @property
    def most(self) -> int:
        """How many fit side by side in one strip."""
        return len(self.lengths)


class Item(Record):
    """Something to be cut `demand` times; `area` in square steps is what one surely takes."""

    name: str
    demand: int
    variants: tuple[Variant, ...]
    area: float


class ItemShare(Record, order=True):
    """`count` pieces of item number `item`, laid as its variant number `variant`, in one strip."""

    item: int
    variant: int
    count: int


class StripFill(Record, order=True):
    """What one strip holds: its height in steps and its shares, sorted by item.

    `cloth` is 0 for a strip across the whole cloth, n for one across the n-th remnant, in whichever of its pieces.
    """

    height: int
    shares: tuple[ItemShare, ...]
    cloth: int = 0


class Remnant(Record):
    """Cloth left beside settled strips, free to cut from: across x along, in steps, and how many pieces alike."""

    width: int
    height: int
    count: int = 1


Items = tuple[Item, ...]
Remnants = tuple[Remnant, ...]
Plan = tuple[StripFill, ...]  # one entry for each strip


def in_pieces(heights: Sequence[int], remnant: Remnant) -> list[int | None]:
    """In which of the pieces of a remnant strips of these heights lie, the highest first, each in the first with room;
    None for those that lie in none."""
    rooms = [remnant.height] * remnant.count
    found: list[int | None] = [None] * len(heights)
    for n in sorted(range(len(heights)), key=lambda n: (-heights[n], n)):
        piece = next((k for k, room in enumerate(rooms) if heights[n] <= room), None)
        if piece is not None:
            rooms[piece] -= heights[n]
            found[n] = piece
    return found


def lies_whole(plan: Plan, remnants: Remnants) -> bool:
    """Whether all strips of a plan that are cut from remnants lie in their pieces: as many steps as those are high in all
    may not do, since no strip lies half in one."""
    return all(
        None not in in_pieces([fill.height for fill in plan if fill.cloth == n], remnant)
        for n, remnant in enumerate(remnants, start=1)
    )


def variant_of(row: NestedRow, step: float, width: int, most: int) -> Variant | None:
    """The variant of a row on cloth `width` steps wide, at most `most` in a row; None if one is too wide.

    Lengths and heights are rounded up to steps, never down.
    """
    lengths: list[int] = []
    for count in range(1, most + 1):
        length = steps_up(row.length(count), step)
        if length > width:
            break
        lengths.append(length)
    return Variant(steps_up(row.height, step), tuple(lengths), row) if lengths else None


def steps_up(value: float, step: float) -> int:
    """How many steps cover a length; float noise of a millionth does not count."""
    return math.ceil(value / step - WHOLE)


def total_height(plan: Plan) -> int:
    """The length of cloth that the strips take, in steps; those from remnants take none."""
    return sum(fill.height for fill in plan if not fill.cloth)


def made(items: Items, fills: Plan) -> list[int]:
    """How many of each item the strips hold."""
    counts = [0] * len(items)
    for fill in fills:
        for share in fill.shares:
            counts[share.item] += share.count
    return counts


def fill_of(items: Items, shares: list[ItemShare], cloth: int) -> StripFill:
    """The strip that holds these shares, as low as they allow."""
    kept = tuple(sorted(share for share in shares if share.count))
    return StripFill(max(items[s.item].variants[s.variant].height for s in kept), kept, cloth)


def without_surplus(items: Items, plan: Plan) -> Plan:
    """The plan with pieces beyond the demand taken out, first where a strip becomes lower or empty."""
    counts = made(items, plan)
    kept: list[StripFill] = []
    for fill in sorted(plan, key=lambda f: (f.cloth > 0, -f.height, f.shares)):
        shares = []
        for share in fill.shares:
            take = min(counts[share.item] - items[share.item].demand, share.count)
            take = max(take, 0)
            counts[share.item] -= take
            shares.append(ItemShare(share.item, share.variant, share.count - take))
        if any(share.count for share in shares):
            kept.append(fill_of(items, shares, fill.cloth))
    return tuple(sorted(kept, key=lambda f: (-f.height, f.shares)))
