"""Floor 5: ways out of clashes that change the whole set: two versions of its blocks, or turned blocks."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from booklet.geometry.tiling import Tiling
from booklet.kit.outlines.near import ONE_POINT
from booklet.kit.records import Record
from booklet.pattern import Direction, Size
from booklet.pressing.equations.problem import Problem, clashes_in, model_of, problem_of
from booklet.pressing.equations.solve import solve
from booklet.pressing.meetings.arrangement import every_second
from booklet.pressing.meetings.neighbours import rim_meetings
from booklet.pressing.meetings.places import SECOND, block_counts
from booklet.pressing.pressing import Layout, WayKind
from booklet.pressing.ways.versions import two_versions


class Tried(Record, kw_only=True):
    """A way out over the whole set: how many clashes of the quilt it leaves, the turn it takes, and
    how many blocks then are as before and how many other, and how these lie."""

    kind: WayKind
    clashes: int
    first: int
    second: int
    layout: Layout
    turn: int = 0


def whole_ways(
    size: Size, problem: Problem, tilings: Mapping[str, Tiling], now: int
) -> Iterator[Tried]:
    """The ways that leave fewer than the `now` clashes there are, the least trouble first."""
    for way in (_versions(size, problem, tilings, now), _turn(size, problem, tilings)):
        if way is not None and way.clashes < now:
            yield way


def _versions(
    size: Size, problem: Problem, tilings: Mapping[str, Tiling], now: int
) -> Tried | None:
    """Two versions of the blocks."""
    found = two_versions(size, problem, tilings, now)
    if found is None:
        return None
    first, second = _counts(found.size, tilings)
    return Tried(
        kind=WayKind.TWO_VERSIONS,
        clashes=found.clashes,
        first=first,
        second=second,
        layout=found.layout,
    )


def _counts(named: Size, tilings: Mapping[str, Tiling]) -> tuple[int, int]:
    """How many blocks of a set are as before, and how many are named apart."""
    counts = block_counts(named)
    second = sum(count for block, count in counts.items() if block.endswith(SECOND))
    return sum(counts.values()) - second, second


def _turn(size: Size, problem: Problem, tilings: Mapping[str, Tiling]) -> Tried | None:
    """Every second block turned: half round, or a quarter where all blocks are squares."""
    named = every_second(size, mark=SECOND)
    best: Tried | None = None
    for turn in turns_allowed(size, tilings):
        second = every_second(size, turn=turn)
        if second is not None and named is not None:
            again = problem_of(problem.parts, rim_meetings(second, tilings))
            left = clashes_in(again, solve(model_of(again)).values)
            if best is None or left < best.clashes:
                first, other = _counts(named, tilings)
                best = Tried(
                    kind=WayKind.TURN,
                    clashes=left,
                    first=first,
                    second=other,
                    layout=Layout.CHEQUER,
                    turn=turn,
                )
    return best


def turns_allowed(size: Size, tilings: Mapping[str, Tiling]) -> tuple[int, ...]:
    """The turns in degrees that every block of a size may be given: none with a one-way print, only
    half round with stripes, or where a block is no square."""
    cloths = {piece.fabric for tiling in tilings.values() for piece in tiling.pieces}
    prints = {size.fabrics[id].direction for id in cloths if id in size.fabrics}
    if Direction.ONE_WAY in prints:
        return ()
    square = all(abs(t.width - t.height) < ONE_POINT for t in tilings.values())
    return (180, 90, 270) if square and Direction.STRIPE not in prints else (180,)
