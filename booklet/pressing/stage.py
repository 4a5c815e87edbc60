"""Floor 5, the stage: press every block of every size.

Blocks of one size are pressed together, since they meet in the quilt. Fault codes: no-such-part,
press-conflict (a warning).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from booklet.diagnostic import Diagnostic, Outcome
from booklet.geometry.tiling import BlockKey, Point, Tiling
from booklet.pattern import PressHabit, Size
from booklet.pressing.arrangement import SECOND, block_counts, places_of
from booklet.pressing.conflicts import conflict_warnings, strand_warnings
from booklet.pressing.crossings import crossings_of
from booklet.pressing.explain import odd_cycles
from booklet.pressing.neighbours import rim_meetings
from booklet.pressing.preferences import darkness, preferences
from booklet.pressing.pressing import PressedPattern, Pressing, Versions
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
from booklet.pressing.telling import conflict_of
from booklet.pressing.versions import TwoVersions, two_versions, wanted
from booklet.pressing.ways import try_ways
from booklet.pressing.wishes import Wished, released_points, wishes_of
from booklet.sewing.assembly import Assembled, Assembly


@dataclass(frozen=True, slots=True)
class Change:
    """A way out on trial in one block: a strand (by its number) pressed open, or a crossing released,
    as no wish and no habit asked."""

    block: str
    opened: int | None = None
    freed: Point | None = None


NO_CHANGE = Change("")


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
    tilings = {block: assembly.tiling for block, assembly in assemblies.items()}
    double: TwoVersions | None = None
    if wanted(size) and any(cycle.through_rim for cycle in cycles):
        double = two_versions(size, problem, tilings, clashes_in(problem, solution.values))
    if double is not None:
        problem, solution = double.problem, double.solution
        cycles = odd_cycles(problem, solution.values)
        wished |= {block + SECOND: wishes for block, wishes in wished.items()}

    def again(block: str, opened: int | None, freed: Point | None) -> int:
        """The clashes left with one more strand of a block open, or one more crossing fanned."""
        other = problem_for(size, assemblies, Change(block, opened, freed))
        values = solve(model_of(other)).values
        left = clashes_in(other, values)
        if left and wanted(size) and clashes_in(other, values, kind="rim"):
            both = two_versions(size, other, tilings, left)
            return left if both is None else both.clashes
        return left

    clashing = tuple(cycle for cycle in cycles if cycle.clash)
    ways = try_ways(size, problem, solution, clashing, tilings, again, doubled=double is not None)
    gap = (solution.cost - solution.bound) / clash_cost(problem)

    def pressing(part: BlockPart, values: tuple[bool, ...]) -> Pressing:
        """The pressing of one part of the problem from values of the whole."""
        found = (conflict_of(problem, cycle, part.block, ways) for cycle in clashing)
        conflicts = tuple(c for c in found if c is not None)
        wish, assembly = wished[part.block], assemblies[part.block.removesuffix(SECOND)]
        return pressing_of(assembly, part, wish, values, conflicts, gap, allowance)

    made = {part.block: pressing(part, solution.values) for part in problem.parts}
    if double is not None and double.opposite:
        other = tuple(not value for value in solution.values)
        made |= {part.block + SECOND: pressing(part, other) for part in problem.parts}
    faults = [fault for block in assemblies for fault in wished[block].faults]
    faults.extend(strand_warnings(problem, wished))
    faults.extend(conflict_warnings(problem, cycles, wished))
    if double is not None:
        made = {block: _versions(block, made, double, tilings) for block in assemblies}
    return made, tuple(faults)


def _versions(
    block: str,
    made: Mapping[str, Pressing],
    double: TwoVersions,
    tilings: Mapping[str, Tiling],
) -> Pressing:
    """A block's pressing with its second version, where it comes in both and they differ."""
    counts = block_counts(double.size, tilings)
    first, second = (counts.get(name, 0) for name in (block, block + SECOND))
    if not second:
        return made[block]
    if not first:
        return made[block + SECOND]
    one, other = made[block], made[block + SECOND]
    ways = {(p.toward, other.pressed[id].toward) for id, p in one.pressed.items()}
    if all(a == b for a, b in ways):
        return one
    opposite = double.opposite or all(a != b or a is None for a, b in ways)
    places = places_of(double.size, block + SECOND, tilings)
    versions = Versions(other, opposite, double.layout, places, first, second)
    return replace(one, versions=versions)


def problem_for(
    size: Size,
    assemblies: Mapping[str, Assembly],
    change: Change = NO_CHANGE,
) -> Problem:
    """The pressing of the blocks of a size (by block id) as one problem, with one change of a block."""
    tilings = {block: assembly.tiling for block, assembly in assemblies.items()}
    counts = block_counts(size, tilings)
    parts: list[BlockPart] = []
    first = 0
    for block, assembly in assemblies.items():
        wished = wishes_of(assembly)
        own = change if change.block == block else NO_CHANGE
        part = _part(size, block, assembly, wished, first, max(1, counts.get(block, 1)), own)
        parts.append(part)
        first += len(part.strands.strands)
    return problem_of(tuple(parts), rim_meetings(size, tilings))


def _part(
    size: Size,
    block: str,
    assembly: Assembly,
    wished: Wished,
    first: int,
    count: int,
    change: Change,
) -> BlockPart:
    """One block's part of the problem: strands, crossings, what is fixed, what is preferred."""
    habit = size.sewing.press
    freed = released_points(assembly, wished, habit)
    if change.freed is not None:
        freed |= {change.freed}
    strands = strands_of(assembly, freed)
    crossings = crossings_of(assembly, strands, freed)
    fixed: dict[int, bool | None] = {}
    dark = darkness(assembly, strands, size.fabrics)
    if habit is PressHabit.DARK:
        fixed.update({k: d > 0 for k, d in enumerate(dark) if d})
    elif habit is PressHabit.OPEN:
        fixed.update(dict.fromkeys(range(len(strands.strands))))
    fixed.update(_wished(strands, wished))
    if change.opened is not None:
        fixed[change.opened] = None
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
