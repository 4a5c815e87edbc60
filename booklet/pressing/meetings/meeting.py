"""Floor 5: blocks that meet in the quilt, with how their allowances lie where they join.

Of all places where blocks meet in a corner, the one with the most clashes is chosen, the first of them
from the top left. Where no four meet in one corner, as in a honeycomb, those about the two ends of a side.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import combinations

from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record
from booklet.pressing.meetings.crossings import agree
from booklet.pressing.meetings.neighbours import sense_of
from booklet.pressing.meetings.touching_rims import BlockInPlace, Touch, touches
from booklet.pressing.pressing import Pressing

FINE = 1 / 1024  # inches: corners that coincide when rounded to it; figures in 1/64 in fall on it
ENOUGH = 4


class LaidBlock(Record):
    """One block of the quilt where it lies, its pressing, whether it is of the second version."""

    lain: BlockInPlace
    pressing: Pressing
    second: bool

    @property
    def outline(self) -> tuple[Point, ...]:
        """The outline where it lies."""
        return tuple(map(self.lain.place, self.pressing.assembly.tiling.outline.points))


class MeetingPlace(Record):
    """A place, in inches of the quilt, where seams of two blocks meet: they nest, or clash, or (None)
    one of them is open."""

    at: Point
    nests: bool | None


class Together(Record):
    """Some blocks that meet, and where seams of theirs do."""

    blocks: tuple[LaidBlock, ...]
    joins: tuple[MeetingPlace, ...]

    @property
    def clashes(self) -> int:
        """How many of the joins clash."""
        return sum(join.nests is False for join in self.joins)


def together(blocks: Sequence[LaidBlock]) -> Together | None:
    """Four or more blocks that meet, out of all blocks of a set as they lie; None where the seams of no
    two blocks meet, as with strips between them."""
    tilings = {laid.lain.block: laid.pressing.assembly.tiling for laid in blocks}
    joins: dict[tuple[int, int], list[MeetingPlace]] = {}
    for touch in touches([laid.lain for laid in blocks], tilings):
        if touch.facing:
            join = _join(blocks, touch)
            joins.setdefault((touch.one, touch.other), []).append(join)
    best: Together | None = None
    for group in _groups(blocks):
        pairs = combinations(sorted(group), 2)
        found = _by_place(join for pair in pairs for join in joins.get(pair, ()))
        made = Together(tuple(blocks[k] for k in sorted(group)), found)
        if found and (best is None or _rank(made) > _rank(best)):
            best = made
    return best


def _rank(made: Together) -> tuple[bool, int, int]:
    return len(made.blocks) >= ENOUGH, made.clashes, len(made.joins)


def _by_place(joins: Iterable[MeetingPlace]) -> tuple[MeetingPlace, ...]:
    """One join for each place: it clashes where any two blocks clash there, else any open seam counts."""
    found: dict[tuple[int, int], list[MeetingPlace]] = {}
    for join in joins:
        found.setdefault(cell_of(join.at), []).append(join)
    return tuple(
        MeetingPlace(
            alike[0].at, next((n for n in (False, None) if n in {j.nests for j in alike}), True)
        )
        for alike in found.values()
    )


def cell_of(at: Point) -> tuple[int, int]:
    """A place in inches rounded to `FINE`, so that those that coincide are equal."""
    return round(at[0] / FINE), round(at[1] / FINE)


def _join(blocks: Sequence[LaidBlock], touch: Touch) -> MeetingPlace:
    """Whether the seams at a touch nest."""
    one, other = blocks[touch.one].pressing, blocks[touch.other].pressing
    nests: bool | None = True
    for a, b in touch.facing:
        senses = (sense_of(one, a, touch.first.at), sense_of(other, b, touch.second.at))
        if not agree(senses):
            nests = False
        elif None in senses and nests:
            nests = None
    return MeetingPlace(touch.at, nests)


def _groups(blocks: Sequence[LaidBlock]) -> Iterable[frozenset[int]]:
    """The blocks that meet in each corner, or about both ends of each side, once each."""
    corners = list(_corners(blocks))
    at: dict[tuple[int, int], set[int]] = {}
    for k, around in enumerate(corners):
        for corner in around:
            at.setdefault(corner, set()).add(k)
    groups = dict.fromkeys(frozenset(group) for group in at.values())
    if any(len(group) >= ENOUGH for group in groups):
        return groups
    sides = (
        pair for around in corners for pair in zip(around, (*around[1:], around[0]), strict=True)
    )
    return dict.fromkeys(frozenset(at[a] | at[b]) for a, b in sides)


def _corners(blocks: Sequence[LaidBlock]) -> Iterator[tuple[tuple[int, int], ...]]:
    """The corners of every block, rounded."""
    for laid in blocks:
        corners = laid.pressing.assembly.tiling.outline.corners
        yield tuple(cell_of(laid.lain.place(corner)) for corner in corners)


def as_laid(
    places: Iterable[tuple[str, tuple[int, int], int, Point]], pressings: Mapping[str, Pressing]
) -> tuple[LaidBlock, ...]:
    """The blocks of a set from (block, (column, row), turn, origin), each with the pressing of its
    version; blocks without a pressing are passed over."""
    laid = []
    for block, place, turn, origin in places:
        if block in pressings:
            pressing = pressings[block]
            versions = pressing.versions
            second = versions is not None and place in versions.places
            own = versions.second if versions is not None and second else pressing
            laid.append(LaidBlock(BlockInPlace(block, turn, origin), own, second))
    return tuple(laid)
