"""Floor 5: ways out of clashes that change the whole set: two versions of its blocks, or turned blocks."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from booklet.geometry.tiling import Tiling
from booklet.kit.outlines.near import ONE_POINT
from booklet.pattern import Direction, Size
from booklet.pressing.equations.problem import Problem, clashes_in, model_of, problem_of
from booklet.pressing.equations.solve import solve
from booklet.pressing.meetings.arrangement import every_second
from booklet.pressing.meetings.neighbours import rim_meetings
from booklet.pressing.meetings.places import SECOND, block_counts
from booklet.pressing.pressing import Layout, WayKind, WayOut
from booklet.pressing.ways.versions import two_versions


def whole_ways(
    size: Size, problem: Problem, tilings: Mapping[str, Tiling], now: int
) -> Iterator[WayOut]:
    """The ways that leave fewer than the `now` clashes there are, the least trouble first."""
    turned = sorted(_turned(size, problem, tilings), key=lambda tried: tried[0])
    for left, way in (*_versions(size, problem, tilings, now), *turned[:1]):
        if left < now:
            yield way


def _versions(
    size: Size, problem: Problem, tilings: Mapping[str, Tiling], now: int
) -> Iterator[tuple[int, WayOut]]:
    """Two versions of the blocks, and how many clashes are left."""
    found = two_versions(size, problem, tilings, now)
    if found is not None:
        yield found.clashes, _way(WayKind.TWO_VERSIONS, found.size, found.layout, found.clashes)


def _way(kind: WayKind, named: Size, layout: Layout, clashes: int, turn: int = 0) -> WayOut:
    """The record, with how many blocks stay as they are and how many are `named` apart."""
    first, second = _counts(named)
    return WayOut(kind=kind, clashes=clashes, turn=turn, first=first, second=second, layout=layout)


def _counts(named: Size) -> tuple[int, int]:
    """How many blocks of a set are as before, and how many are named apart."""
    counts = block_counts(named)
    second = sum(count for block, count in counts.items() if block.endswith(SECOND))
    return sum(counts.values()) - second, second


def _turned(
    size: Size, problem: Problem, tilings: Mapping[str, Tiling]
) -> Iterator[tuple[int, WayOut]]:
    """Every second block turned: half round, or a quarter where all blocks are squares."""
    named = every_second(size, mark=SECOND)
    for turn in turns_allowed(size, tilings):
        second = every_second(size, turn=turn)
        if second is not None and named is not None:
            again = problem_of(problem.parts, rim_meetings(second, tilings))
            left = clashes_in(again, solve(model_of(again)).values)
            yield left, _way(WayKind.TURN, named, Layout.CHEQUER, left, turn)


def turns_allowed(size: Size, tilings: Mapping[str, Tiling]) -> tuple[int, ...]:
    """The turns in degrees that every block of a size may be given: none with a one-way print, only
    half round with stripes, or where a block is no square."""
    cloths = {piece.fabric for tiling in tilings.values() for piece in tiling.pieces}
    prints = {size.fabrics[id].direction for id in cloths if id in size.fabrics}
    if Direction.ONE_WAY in prints:
        return ()
    square = all(abs(t.width - t.height) < ONE_POINT for t in tilings.values())
    return (180, 90, 270) if square and Direction.STRIPE not in prints else (180,)
