"""Floor 5: four blocks that meet in the quilt, with how their allowances lie where they join.

Of all places where four blocks of a straight set meet, the one with the most clashes is chosen, the
first of them from the top left.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from booklet.geometry.tiling import Point
from booklet.pattern import Quilt, SetKind, Setting, Size
from booklet.pressing.arrangement import SECOND, every_second
from booklet.pressing.crossings import agree
from booklet.pressing.neighbours import rim_meetings, sense_of, turned
from booklet.pressing.pressing import Pressing

ALIKE = 1e-6  # inches


@dataclass(frozen=True, slots=True)
class Laid:
    """One block of the four: its column and row among them (0 or 1), its turn, its pressing, and
    whether it is of the second version."""

    column: int
    row: int
    block: str
    turn: int
    pressing: Pressing
    second: bool


@dataclass(frozen=True, slots=True)
class Join:
    """A place, in inches from the top left of the four, where seams of two blocks meet: they nest, or
    clash, or (None) one of them is open."""

    at: Point
    nests: bool | None


@dataclass(frozen=True, slots=True)
class FourBlocks:
    """Four blocks that meet at a point, each `side` wide and high as it is set."""

    blocks: tuple[Laid, ...]
    side: Point
    joins: tuple[Join, ...]

    @property
    def clashes(self) -> int:
        """How many of the joins clash."""
        return sum(join.nests is False for join in self.joins)


def four_blocks(size: Size, pressings: Mapping[str, Pressing]) -> FourBlocks | None:
    """Four blocks that meet, the pressings by block id; None where the quilt has no such place: no
    straight set, strips between the blocks, fewer than two rows or columns, or blocks of two sizes."""
    quilt = size.quilt
    if quilt is None or quilt.set is not SetKind.STRAIGHT or quilt.sashing is not None:
        return None
    layouts = [p.versions.layout for p in pressings.values() if p.versions is not None]
    named = every_second(size, mark=SECOND, layout=layouts[0]) if layouts else size
    if named is None or named.quilt is None or min(size.across, size.down) < 2:
        return None
    rows = [row for row in named.quilt.arrange if row]
    best: FourBlocks | None = None
    for r in range(min(len(rows), size.down - 1)):
        for c in range(min(max(map(len, rows)), size.across - 1)):
            settings = [
                [rows[y % len(rows)][x % len(rows[y % len(rows)])] for x in (c, c + 1)]
                for y in (r, r + 1)
            ]
            found = _window(named, named.quilt, settings, pressings)
            if found is not None and (best is None or found.clashes > best.clashes):
                best = found
    return best


def _window(
    named: Size, quilt: Quilt, settings: list[list[Setting]], pressings: Mapping[str, Pressing]
) -> FourBlocks | None:
    """Four blocks set beside each other; None where they are not of one size."""
    blocks = []
    for row, line in enumerate(settings):
        for column, setting in enumerate(line):
            block = setting.block.removesuffix(SECOND)
            if block not in pressings:
                return None
            pressing, second = pressings[block], setting.block != block
            if pressing.versions is not None and second:
                pressing = pressing.versions.second
            blocks.append(Laid(column, row, block, setting.turn % 360, pressing, second))
    sides = [_side(laid) for laid in blocks]
    if any(abs(a - b) > ALIKE for side in sides for a, b in zip(side, sides[0], strict=True)):
        return None
    pairs = [(0, 1), (2, 3), (0, 2), (1, 3)]
    joins = [
        join for a, b in pairs for join in _joins(named, quilt, blocks[a], blocks[b], sides[0])
    ]
    return FourBlocks(tuple(blocks), sides[0], tuple(joins))


def _joins(named: Size, quilt: Quilt, one: Laid, other: Laid, side: Point) -> list[Join]:
    """Where the seams of two neighbours meet, and whether they nest."""
    beside = other.column > one.column
    span = quilt.span
    pair = (Setting("1", one.turn, span), Setting("2", other.turn, span))
    arrange = (pair,) if beside else ((pair[0],), (pair[1],))
    two = replace(
        named,
        across=2 if beside else 1,
        down=1 if beside else 2,
        quilt=replace(quilt, arrange=arrange),
    )
    tilings = {"1": one.pressing.assembly.tiling, "2": other.pressing.assembly.tiling}
    found = []
    for meeting in rim_meetings(two, tilings):
        nests: bool | None = True
        for a, b in meeting.facing:
            senses = (
                sense_of(one.pressing, a, meeting.first.at),
                sense_of(other.pressing, b, meeting.second.at),
            )
            if not agree(senses):
                nests = False
            elif None in senses and nests:
                nests = None
        if meeting.facing:
            found.append(Join(place(one, side, meeting.first.at), nests))
    return found


def place(laid: Laid, side: Point, at: Point) -> Point:
    """A point of a block, in inches from the top left of the four."""
    points = laid.pressing.assembly.tiling.outline.points
    left, top = min(p[0] for p in points), min(p[1] for p in points)
    box = (max(p[0] for p in points) - left, max(p[1] for p in points) - top)
    x, y = turned((at[0] - left, at[1] - top), box, laid.turn)
    return (x + laid.column * side[0], y + laid.row * side[1])


def _side(laid: Laid) -> Point:
    """The width and height of a block as it is turned."""
    tiling = laid.pressing.assembly.tiling
    return (tiling.width, tiling.height) if laid.turn % 180 == 0 else (tiling.height, tiling.width)
