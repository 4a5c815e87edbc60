"""Floor 5, the stage: press every block of every size.

Blocks of one size are pressed together, since they meet in the quilt. Fault codes: no-such-part,
press-conflict (a warning).
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from booklet.diagnostic import Diagnostic, Outcome
from booklet.geometry.tiling import BlockKey
from booklet.pattern import PressHabit, Size
from booklet.pressing.arrangement import block_counts
from booklet.pressing.conflicts import conflict_warnings, strand_warnings
from booklet.pressing.crossings import crossings_of
from booklet.pressing.explain import OddCycle, conflict_of, odd_cycles
from booklet.pressing.neighbours import rim_meetings
from booklet.pressing.preferences import darkness, preferences
from booklet.pressing.pressing import PressedPattern, Pressing
from booklet.pressing.problem import (
    BlockPart,
    Problem,
    clash_cost,
    clashes_in,
    model_of,
    problem_of,
)
from booklet.pressing.result import pressing_of
from booklet.pressing.solve import solve
from booklet.pressing.strands import Strands, strands_of
from booklet.pressing.ways import Tried, try_ways
from booklet.pressing.wishes import Wished, released_points, wishes_of
from booklet.sewing.assembly import Assembled, Assembly


def press(assembled: Assembled) -> Outcome[PressedPattern]:
    """Every block of every size with the direction of all its allowances, and the faults of wishes."""
    pattern = assembled.laid_out.pattern
    pressings: dict[BlockKey, Pressing] = {}
    faults: list[Diagnostic] = []
    for size in pattern.sizes:
        assemblies = {
            block.id: assembled.assemblies[size.id, block.id]
            for block in pattern.blocks
            if (size.id, block.id) in assembled.assemblies
        }
        made, found = press_size(size, assemblies, float(pattern.allowance))
        pressings.update({(size.id, block): pressing for block, pressing in made.items()})
        faults.extend(found)
    once = {(d.code, d.span, d.severity): d for d in reversed(faults)}
    ordered = tuple(sorted(once.values(), key=lambda d: (d.span, d.code, d.message)))
    return Outcome(PressedPattern(assembled, MappingProxyType(pressings)), ordered)


def press_size(
    size: Size, assemblies: Mapping[str, Assembly], allowance: float
) -> tuple[Mapping[str, Pressing], tuple[Diagnostic, ...]]:
    """The pressing of each block of a size, by block id, and the faults found."""
    wished = {block: wishes_of(assembly) for block, assembly in assemblies.items()}
    problem = problem_for(size, assemblies)
    solution = solve(model_of(problem))
    cycles = odd_cycles(problem, solution.values)
    gap = (solution.cost - solution.bound) / clash_cost(problem)
    tried = _tried(size, problem, assemblies, solution.values, cycles)
    made = {}
    for part in problem.parts:
        block = part.block
        found = (conflict_of(problem, cycle, block, tried) for cycle in cycles)
        conflicts = tuple(c for c in found if c is not None)
        values = solution.values
        made[block] = pressing_of(
            assemblies[block], part, wished[block], values, conflicts, gap, allowance
        )
    faults = [fault for wish in wished.values() for fault in wish.faults]
    faults.extend(strand_warnings(problem, wished))
    faults.extend(conflict_warnings(problem, cycles, wished))
    return made, tuple(faults)


def problem_for(size: Size, assemblies: Mapping[str, Assembly]) -> Problem:
    """The pressing of the blocks of a size (by block id) as one problem."""
    counts = block_counts(size)
    parts: list[BlockPart] = []
    first = 0
    for block, assembly in assemblies.items():
        wished = wishes_of(assembly)
        part = _part(size, block, assembly, wished, first, max(1, counts.get(block, 1)))
        parts.append(part)
        first += len(part.strands.strands)
    tilings = {block: assembly.tiling for block, assembly in assemblies.items()}
    return problem_of(tuple(parts), rim_meetings(size, tilings))


def _tried(
    size: Size,
    problem: Problem,
    assemblies: Mapping[str, Assembly],
    values: tuple[bool, ...],
    cycles: tuple[OddCycle, ...],
) -> tuple[Tried, ...]:
    """The ways out that help, tried only where neighbouring blocks are part of a conflict."""
    if not any(ask.kind == "rim" for cycle in cycles for ask in (cycle.asked, *cycle.others)):
        return ()
    tilings = {block: assembly.tiling for block, assembly in assemblies.items()}
    return try_ways(size, problem, tilings, clashes_in(problem, values))


def _part(
    size: Size, block: str, assembly: Assembly, wished: Wished, first: int, count: int
) -> BlockPart:
    """One block's part of the problem: strands, crossings, what is fixed, what is preferred."""
    habit = size.sewing.press
    freed = released_points(assembly, wished, habit)
    strands = strands_of(assembly, freed)
    crossings = crossings_of(assembly, strands, freed)
    fixed: dict[int, bool | None] = {}
    dark = darkness(assembly, strands, size.fabrics)
    if habit is PressHabit.DARK:
        fixed.update({k: d > 0 for k, d in enumerate(dark) if d})
    elif habit is PressHabit.OPEN:
        fixed.update(dict.fromkeys(range(len(strands.strands))))
    fixed.update(_wished(strands, wished))
    prefer = preferences(strands, crossings, dark)
    return BlockPart(block, first, strands, crossings, fixed, prefer, tuple(dark), count)


def _wished(strands: Strands, wished: Wished) -> dict[int, bool | None]:
    """The author's direction of each strand; the first wish for a strand counts."""
    fixed: dict[int, bool | None] = {}
    for seam, toward in wished.toward.items():
        index, forward = strands.of[seam]
        right = None if toward is None else (strands.seams[seam].between[0] == toward) == forward
        fixed.setdefault(index, right)
    return fixed
