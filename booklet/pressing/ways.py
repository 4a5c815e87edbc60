"""Floor 5: what a way out of clashing neighbours would bring, by trying it.

Two versions of every block, or turning every second block, is tried as on a chessboard over a straight
set: the problem is solved again, and what still clashes is counted.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from booklet.geometry.tiling import Tiling
from booklet.pattern import Size
from booklet.pressing.arrangement import block_counts, every_second
from booklet.pressing.neighbours import rim_meetings
from booklet.pressing.problem import BlockPart, Problem, clashes_in, model_of, problem_of
from booklet.pressing.solve import solve

SECOND = "\u2032"  # a prime: the mark of the second version


@dataclass(frozen=True, slots=True)
class Tried:
    """A way out that was tried: how many clashes of the quilt it leaves, and the turn it takes."""

    kind: str
    clashes: int
    turn: int = 0


def try_ways(
    size: Size, problem: Problem, tilings: Mapping[str, Tiling], now: int
) -> tuple[Tried, ...]:
    """The ways out that leave fewer clashes than the `now` there are, the least trouble first."""
    tried = [_two_versions(size, problem, tilings), _turn(size, problem, tilings)]
    return tuple(way for way in tried if way is not None and way.clashes < now)


def _two_versions(size: Size, problem: Problem, tilings: Mapping[str, Tiling]) -> Tried | None:
    """Every second block made in a second version of its own."""
    second = every_second(size, mark=SECOND)
    if second is None:
        return None
    both = {**tilings, **{block + SECOND: tiling for block, tiling in tilings.items()}}
    parts = [*problem.parts, *(replace(p, block=p.block + SECOND) for p in problem.parts)]
    return Tried("two versions", _clashes(second, parts, both))


def _turn(size: Size, problem: Problem, tilings: Mapping[str, Tiling]) -> Tried | None:
    """Every second block turned: half round, or a quarter where all blocks are squares."""
    square = all(abs(t.width - t.height) < 1e-6 for t in tilings.values())
    best: Tried | None = None
    for turn in (180, 90, 270) if square else (180,):
        second = every_second(size, turn=turn)
        if second is not None:
            left = _clashes(second, list(problem.parts), tilings)
            if best is None or left < best.clashes:
                best = Tried("turn", left, turn)
    return best


def _clashes(size: Size, parts: list[BlockPart], tilings: Mapping[str, Tiling]) -> int:
    """How many clashes the best pressing of these blocks leaves in this quilt."""
    counts, first, placed = block_counts(size), 0, []
    for part in parts:
        count = counts.get(part.block, 0)
        if count:
            placed.append(replace(part, first=first, count=count))
            first += len(part.strands.strands)
    kept = {part.block: tilings[part.block] for part in placed}
    problem = problem_of(tuple(placed), rim_meetings(size, kept))
    return clashes_in(problem, solve(model_of(problem)).values)
