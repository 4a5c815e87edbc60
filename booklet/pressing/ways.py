"""Floor 5: what a way out of clashing neighbours would bring, by trying it.

Two versions of the blocks, or turning every second block as on a chessboard, is tried over the whole
set: the problem is solved again, and what still clashes is counted. No block is turned that would stand a
one-way print on its head, nor a striped one by a quarter.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from booklet.geometry.tiling import Tiling
from booklet.pattern import Direction, Size
from booklet.pressing.arrangement import every_second
from booklet.pressing.neighbours import rim_meetings
from booklet.pressing.problem import Problem, clashes_in, model_of, problem_of
from booklet.pressing.solve import solve
from booklet.pressing.versions import two_versions


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
    versions = two_versions(size, problem, tilings, now)
    tried = [Tried("two versions", versions.clashes)] if versions is not None else []
    return (*tried, *(way for way in (_turn(size, problem, tilings),) if way and way.clashes < now))


def _turn(size: Size, problem: Problem, tilings: Mapping[str, Tiling]) -> Tried | None:
    """Every second block turned: half round, or a quarter where all blocks are squares."""
    best: Tried | None = None
    for turn in turns_allowed(size, tilings):
        second = every_second(size, turn=turn)
        if second is not None:
            again = problem_of(problem.parts, rim_meetings(second, tilings))
            left = clashes_in(again, solve(model_of(again)).values)
            if best is None or left < best.clashes:
                best = Tried("turn", left, turn)
    return best


def turns_allowed(size: Size, tilings: Mapping[str, Tiling]) -> tuple[int, ...]:
    """The turns in degrees that every block of a size may be given: none with a one-way print, only
    half round with stripes, or where a block is no square."""
    cloths = {piece.fabric for tiling in tilings.values() for piece in tiling.pieces}
    prints = {size.fabrics[id].direction for id in cloths if id in size.fabrics}
    if Direction.ONE_WAY in prints:
        return ()
    square = all(abs(t.width - t.height) < 1e-6 for t in tilings.values())
    return (180, 90, 270) if square and Direction.STRIPE not in prints else (180,)
