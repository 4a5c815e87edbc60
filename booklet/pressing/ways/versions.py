"""Floor 5: two versions of the blocks, so that neighbours nest which cannot when all are pressed alike.

Every second block, as on a chessboard, or every second row or column, becomes version B. The least
trouble for the sewer is a B that is pressed just the other way from A; where the author has fixed a
direction, or that leaves clashes, B is given directions of its own.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from booklet.geometry.tiling import Tiling
from booklet.kit.records import Record, replace
from booklet.pattern import PressHabit, Size
from booklet.pressing.equations.model import Assignment
from booklet.pressing.equations.problem import BlockPart, Problem, clashes_in, model_of, problem_of
from booklet.pressing.equations.solve import solve
from booklet.pressing.meetings.arrangement import every_second
from booklet.pressing.meetings.neighbours import rim_meetings
from booklet.pressing.meetings.places import SECOND, block_counts
from booklet.pressing.pressing import Layout

LARGE = 3000  # unknowns: of more, second versions with directions of their own are not tried


class TwoVersions(Record, kw_only=True):
    """A size with its second versions named apart (by SECOND), its problem and the solution.
    `opposite`: version B is pressed just the other way, and has no unknowns of its own."""

    layout: Layout
    opposite: bool
    size: Size
    problem: Problem
    solution: Assignment
    clashes: int


def two_versions(
    size: Size, problem: Problem, tilings: Mapping[str, Tiling], now: int
) -> TwoVersions | None:
    """The two versions that leave the fewest clashes, and fewer than the `now` there are with one; None
    where none do. Among equals a B just the other way, laid out as on a chessboard, is preferred."""
    best: TwoVersions | None = None
    for found in _candidates(size, problem, tilings):
        if found.clashes < (now if best is None else best.clashes):
            best = found
        if best is not None and best.clashes == 0:
            break
    return best


def wanted(size: Size) -> bool:
    """Whether two versions may be made unasked: not where a habit fixes the directions."""
    return size.sewing.press in (PressHabit.AUTO, PressHabit.FAN)


def _candidates(
    size: Size, problem: Problem, tilings: Mapping[str, Tiling]
) -> Iterator[TwoVersions]:
    """Every way to make two versions, the least trouble first."""
    free = not any(part.fixed for part in problem.parts)
    small = sum(len(part.strands.strands) for part in problem.parts) <= LARGE
    for opposite in ([True] if free else []) + ([False] if small else []):
        for layout in Layout:
            named = every_second(size, SECOND, layout)
            if named is not None and _both(named):
                yield _tried(named, layout, problem, tilings, opposite=opposite)


def _both(named: Size) -> bool:
    """Whether some block comes in both versions: else naming them apart gives no more freedom."""
    counts = block_counts(named)
    return any(counts.get(block + SECOND) and counts[block] for block in counts)


def _tried(
    named: Size,
    layout: Layout,
    problem: Problem,
    tilings: Mapping[str, Tiling],
    *,
    opposite: bool,
) -> TwoVersions:
    """One way to make two versions, solved."""
    meetings = rim_meetings(named, {**tilings, **{b + SECOND: t for b, t in tilings.items()}})
    if opposite:
        names = {part.block + SECOND: part.block for part in problem.parts}
        made = problem_of(problem.parts, meetings, MappingProxyType(names))
    else:
        made = problem_of(tuple(_doubled(named, problem.parts)), meetings)
    solution = solve(model_of(made))
    return TwoVersions(
        layout=layout,
        opposite=opposite,
        size=named,
        problem=made,
        solution=solution,
        clashes=clashes_in(made, solution.values),
    )


def _doubled(named: Size, parts: tuple[BlockPart, ...]) -> Iterator[BlockPart]:
    """The parts of both versions, each with as many blocks as the quilt takes; a block that comes in
    neither keeps one part."""
    counts, first = block_counts(named), 0
    for part in parts:
        for name in (part.block, part.block + SECOND):
            nowhere = name == part.block and not counts.get(name + SECOND, 0)
            if counts.get(name, 0) or nowhere:
                yield replace(part, block=name, first=first, count=max(1, counts.get(name, 0)))
                first += len(part.strands.strands)
