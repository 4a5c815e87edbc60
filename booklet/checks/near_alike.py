"""Floor 8: patches that are alike but for a hair: corners written with too few decimals."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from booklet.crafts.rotary.marks import ruler_step
from booklet.geometry.tiling import LaidOut, PlacedPiece
from booklet.kit.diagnostic import Diagnostic, warning
from booklet.kit.groups import tied_groups
from booklet.kit.outlines.near import DRAWN
from booklet.kit.outlines.plane import Point, length_of
from booklet.pattern import Block, Size
from booklet.sewing.faults import listed

ROUNDED = 0.02  # design units by which two lengths differ at most whose corners are written with two decimals
A_HAIR = 1 / 16  # inches: what differs by so much, or by a mark of the ruler, may be meant

MOST_COMPARED = 40  # shapes with which one is compared

Gauge = tuple[tuple[float, float], ...]  # of each corner: to the next, and to the next but one
_SHOWN = 6


def near_alike(laid_out: LaidOut) -> Iterator[Diagnostic]:
    """A warning for patches of a size with straight sides that differ by a hair, and so have a letter each. What is alike
    altogether is told apart on purpose, by grain or motif."""
    pattern = laid_out.pattern
    for size in pattern.sizes:
        mark = float(ruler_step(size.cutting.ruler, pattern.units))
        hair = min(ROUNDED * float(size.unit), min(A_HAIR, mark) - DRAWN)
        first: dict[str, PlacedPiece] = {}
        for _, piece in cut_as_drawn(laid_out, size):
            if not piece.outline.is_curved:
                first.setdefault(piece.patch, piece)
        names = sorted(first, key=lambda name: (len(name), name))
        gauges = [gauge(first[name].outline.corners) for name in names]
        near = [
            (a, b) for a, b in _pairs(gauges, hair) if is_near_alike(gauges[a], gauges[b], hair)
        ]
        for group in tied_groups(len(names), near):
            if len(group) > 1:
                yield _told(size, [names[k] for k in group], first[names[group[1]]])


def cut_as_drawn(laid_out: LaidOut, size: Size) -> Iterator[tuple[str, PlacedPiece]]:
    """The pieces of a size that are cut by their outlines, each with its block: those on printed paper are cut roughly, and
    a part block has what its rim leaves of patches."""
    for tiling in laid_out.tilings.values():
        block = laid_out.pattern.block(tiling.block)
        if tiling.size == size.id and block.part is None and not size.on_foundation(block):
            on_paper = _on_paper(block)
            yield from ((block.id, piece) for piece in tiling.pieces if piece.id not in on_paper)


def _on_paper(block: Block) -> set[str]:
    """The pieces of a block that a step sews on printed paper."""
    return {name for step in block.steps or () if step.foundation for name in step.join}


def _pairs(gauges: Sequence[Gauge], hair: float) -> Iterator[tuple[int, int]]:
    """The shapes with as many sides whose lengths round them are near enough to be alike: of very many not all pairs are
    looked at."""
    round_them = [sum(side for side, _ in shape) for shape in gauges]
    order = sorted(range(len(gauges)), key=lambda k: (len(gauges[k]), round_them[k]))
    for n, a in enumerate(order):
        for b in order[n + 1 : n + 1 + MOST_COMPARED]:
            count = len(gauges[a])
            if len(gauges[b]) != count or round_them[b] - round_them[a] > count * hair:
                break
            yield a, b


def _told(size: Size, names: Sequence[str], piece: PlacedPiece) -> Diagnostic:
    more = len(names) - _SHOWN
    few = ", ".join(f"`{name}`" for name in names[:_SHOWN])
    named = f"{few} and {more} more" if more > 0 else listed(names)
    return warning(
        "near-alike",
        f"in size `{size.id}` patches {named} are alike but for a hair, and have a letter each",
        piece.span,
        f"if they are meant to be alike, write their corners or sides with {_decimals(size)} decimals or more",
    )


def _decimals(size: Size) -> int:
    """With how many decimals of its unit, three at least, sides of one length are the same: either end of each may be off
    by half of the last, across and down."""
    return max(3, math.ceil(math.log10(2 * math.sqrt(2) * float(size.unit) / DRAWN)))


def gauge(corners: Sequence[Point]) -> Gauge:
    """What tells a shape with straight sides, however it is turned: from each corner to the next, and to the next but one."""
    count = len(corners)
    return tuple(
        (length_of((at, corners[(k + 1) % count])), length_of((at, corners[(k + 2) % count])))
        for k, at in enumerate(corners)
    )


def is_near_alike(one: Gauge, other: Gauge, hair: float) -> bool:
    """Whether two shapes, turned or mirrored, differ by something, but by no more than a hair, in inches."""
    if len(one) != len(other):
        return False
    sides = [sorted(side for side, _ in each) for each in (one, other)]
    if any(abs(a - b) > hair for a, b in zip(*sides, strict=True)):
        return False
    least = min(_apart(one, way) for way in _ways(other))
    return DRAWN < least <= hair


def _ways(shape: Gauge) -> Iterator[Gauge]:
    """A shape begun at each of its corners, one way round and the other."""
    count = len(shape)
    back = tuple((shape[k - 1][0], shape[k - 2][1]) for k in range(count, 0, -1))
    for way in (shape, back):
        for k in range(count):
            yield (*way[k:], *way[:k])


def _apart(one: Gauge, other: Gauge) -> float:
    return max(max(abs(a - c), abs(b - d)) for (a, b), (c, d) in zip(one, other, strict=True))
