"""Floor 6: beds. From a mattress, a drop and a pillow tuck to a quilt, and to a layout that comes near.

A helper beside the stages: it proposes, and the designer writes the pattern.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from booklet.kit.measure import ZERO, Length
from booklet.kit.records import Record

Size = tuple[Length, Length]


def _sizes(unit: str, **sizes: tuple[str, str]) -> Mapping[str, Size]:
    return MappingProxyType(
        {
            name.replace("_", " "): (Length.of(f"{w} {unit}"), Length.of(f"{h} {unit}"))
            for name, (w, h) in sizes.items()
        }
    )


US_MATTRESSES = _sizes(
    "in",
    crib=("28", "52"),
    twin=("39", "75"),
    twin_xl=("39", "80"),
    full=("54", "75"),
    queen=("60", "80"),
    king=("76", "80"),
    cal_king=("72", "84"),
)
"""Width x length (The Spruce Crafts, standard mattress sizes). Sources differ by up to 2 in: measure."""

UK_MATTRESSES = _sizes(
    "cm",
    small_single=("75", "190"),
    single=("90", "190"),
    small_double=("120", "190"),
    double=("135", "190"),
    king=("150", "200"),
    super_king=("180", "200"),
)
"""Width x length (size guides of UK bed retailers)."""

PACKAGED_BATTING = _sizes(
    "in",
    crib=("45", "60"),
    twin=("72", "90"),
    full=("81", "96"),
    queen=("90", "108"),
    king=("120", "120"),
)
"""Sizes in which batting is sold ready cut (a fabric shop's list, 2012)."""


def quilt_for(mattress: Size, drop: Length, tuck: Length = ZERO) -> Size:
    """The size of a quilt for a mattress (width, length): the drop on both sides and at the foot, and
    the tuck below the pillows at the head."""
    return mattress[0] + 2 * drop, mattress[1] + drop + tuck


def fit(quilt: Size, mattress: Size) -> tuple[Length, Length]:
    """How a quilt lies on a mattress: the drop at each side, and what is left for the tuck when the
    foot drops as far. Either may be negative: the quilt is then too small."""
    drop = (quilt[0] - mattress[0]) / 2
    return drop, quilt[1] - mattress[1] - drop


def smallest_batting(size: Size) -> str | None:
    """The name of the smallest packaged batting that covers a size, turned if need be; None if none."""
    short, long = sorted(size)
    fits = [
        (float(w) * float(h), name)
        for name, (w, h) in PACKAGED_BATTING.items()
        if min(w, h) >= short and max(w, h) >= long
    ]
    return min(fits)[1] if fits else None


class BedProposal(Record, kw_only=True):
    """A layout for a bed: blocks across and down, the border that makes up the rest, the size made. The border is as wide
    at its sides as `border` says, and at top and bottom as `ends` says."""

    across: int
    down: int
    border: Length
    ends: Length
    finished: Size

    def off(self, target: Size) -> tuple[Length, Length]:
        """How far the layout is from the size wanted: positive where it is larger."""
        return self.finished[0] - target[0], self.finished[1] - target[1]


def propose(
    target: Size,
    block: Size,
    sashing: Length = ZERO,
    widest_border: Length = ZERO,
    step: Length | None = None,
    covers: bool = False,
) -> BedProposal:
    """The straight layout nearest to a size: blocks with sashing between, and one border all round.

    The border is a multiple of `step` (1/2 in unless said) up to `widest_border`. Nearest means the
    smallest sum of what width and height are off, spread evenly; of layouts alike, fewest blocks.
    One that `covers` is smaller neither way.
    """
    if min(*block, Length.of("1/4")) != Length.of("1/4"):
        raise ValueError("a block smaller than 1/4 in cannot be laid out")
    grid = step or Length.of("1/2")
    borders = [grid * k for k in range(int(widest_border.inches / grid.inches) + 1)]
    found = []
    for border in borders:
        across = _counts(target[0] - 2 * border, block[0], sashing)
        down = _counts(target[1] - 2 * border, block[1], sashing)
        found += [_made(a, d, (border, border), block, sashing) for a in across for d in down]
    if covers:
        found = [made for made in found if min(made.off(target)) >= ZERO]
    return min(found, key=lambda p: (_distance(p, target), p.across * p.down, p.border))


def propose_two_widths(
    target: Size,
    block: Size,
    sashing: Length,
    widest: Length,
    step: Length,
    covers: bool = False,
) -> BedProposal | None:
    """The straight layout nearest to a size with a border of one width at its sides and of another at top and bottom, each
    a multiple of `step` up to `widest`; of layouts alike, the widths that differ least, then fewest blocks. One that
    `covers` is smaller neither way. None where no border fits."""
    near = [
        _nearest_ways(whole, side, sashing, widest, step, covers)
        for whole, side in zip(target, block, strict=True)
    ]
    found = [
        _made(across, down, (sides, ends), block, sashing)
        for across, sides in near[0]
        for down, ends in near[1]
    ]
    return min(
        found, key=lambda p: (_apart(p.border, p.ends), p.across * p.down, p.border), default=None
    )


def _nearest_ways(
    whole: Length, side: Length, sashing: Length, widest: Length, step: Length, covers: bool
) -> list[tuple[int, Length]]:
    """How many blocks lie in one direction, and how wide the border is there, so that they come as near a length as can
    be; with `covers`, from above."""
    ways = [
        (_apart(made, whole), count, wide)
        for wide in (step * k for k in range(1, int(widest.inches / step.inches) + 1))
        for count in _counts(whole - 2 * wide, side, sashing)
        for made in [count * side + (count - 1) * sashing + 2 * wide]
        if made >= whole or not covers
    ]
    least = min((off for off, _, _ in ways), default=ZERO)
    return list(dict.fromkeys((count, wide) for off, count, wide in ways if off == least))


def _apart(one: Length, other: Length) -> Length:
    return max(one - other, other - one)


def _counts(room: Length, block: Length, sashing: Length) -> tuple[int, int]:
    """The counts of blocks that come nearest below and above some room; at least one."""
    below = max(1, int((room + sashing).inches / (block + sashing).inches))
    return below, below + 1


def _made(across: int, down: int, border: Size, block: Size, sashing: Length) -> BedProposal:
    width = across * block[0] + (across - 1) * sashing + 2 * border[0]
    height = down * block[1] + (down - 1) * sashing + 2 * border[1]
    return BedProposal(
        across=across, down=down, border=border[0], ends=border[1], finished=(width, height)
    )


def _distance(proposal: BedProposal, target: Size) -> tuple[Length, Length]:
    """How far off a layout is: width and height together, and the worse of the two."""
    off = [max(x, ZERO - x) for x in proposal.off(target)]
    return off[0] + off[1], max(off)


def is_nearer(one: BedProposal, other: BedProposal, target: Size) -> bool:
    """Whether a layout comes nearer to a size than another."""
    return _distance(one, target) < _distance(other, target)
