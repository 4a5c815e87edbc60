"""Floor 5, the stage: press every block of every size.

Blocks of one size are pressed together, since they meet in the quilt. Fault codes: no-such-part,
press-conflict (a warning).
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from types import MappingProxyType

from booklet.geometry.tiling import BlockKey, Tiling
from booklet.kit.diagnostic import Diagnostic, Outcome, told_once
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record, grown, replace
from booklet.kit.remembered.memory import Ask, hands_words_through, plainly
from booklet.pattern import Size
from booklet.pattern.reads import meeting
from booklet.pressing.equations.model import Assignment
from booklet.pressing.equations.problem import BlockPart, Problem, clash_cost, clashes_in, model_of
from booklet.pressing.equations.size_problem import Trial, problem_for
from booklet.pressing.equations.solve import solve
from booklet.pressing.meetings.places import SECOND, block_counts, places_of
from booklet.pressing.pressing import Demand, PressedPattern, Pressing, Versions
from booklet.pressing.result import pressing_of
from booklet.pressing.ways.conflicts import conflict_warnings, strand_warnings
from booklet.pressing.ways.explain import OddCycle, odd_cycles
from booklet.pressing.ways.telling import conflict_of
from booklet.pressing.ways.versions import TwoVersions, two_versions, wanted
from booklet.pressing.ways.ways_out import try_ways
from booklet.pressing.wishes import wishes_of
from booklet.sewing.assembly import Assembled, Assembly


def press(assembled: Assembled, ask: Ask = plainly) -> Outcome[PressedPattern]:
    """Every block of every size with the direction of all its allowances, and the faults of wishes."""
    pattern = assembled.pattern
    pressings: dict[BlockKey, Pressing] = {}
    faults: list[Diagnostic] = []
    for size in pattern.sizes:
        assemblies = {
            block.id: assembled.assemblies[size.id, block.id]
            for block in pattern.blocks
            if (size.id, block.id) in assembled.assemblies
        }
        made, found = ask(
            press_size,
            meeting(size),
            assemblies,
            float(size.patch_allowance(pattern.allowance)),
            ask,
        )
        pressings.update({(size.id, block): pressing for block, pressing in made.items()})
        faults.extend(found)
    once = told_once(faults, lambda d: (d.code, d.span, d.severity))
    ordered = tuple(sorted(once, key=lambda d: (d.span, d.code, d.message)))
    made_all = grown(PressedPattern, assembled, pressings=MappingProxyType(pressings))
    return Outcome(made_all, ordered)


class _Solved(Record):
    """The problem of a size, perhaps with its blocks in two versions, its solution, and the odd cycles
    that this leaves."""

    problem: Problem
    solution: Assignment
    cycles: tuple[OddCycle, ...]
    double: TwoVersions | None


@hands_words_through
def press_size(
    size: Size, assemblies: Mapping[str, Assembly], allowance: float, ask: Ask = plainly
) -> tuple[Mapping[str, Pressing], tuple[Diagnostic, ...]]:
    """The pressing of each block of a size, by block id, and the faults found; `allowance` in inches."""
    tilings = {block: assembly.tiling for block, assembly in assemblies.items()}
    solved = _solved(size, assemblies, tilings, ask)
    problem, solution, double = solved.problem, solved.solution, solved.double
    wished = {block: wishes_of(assembly) for block, assembly in assemblies.items()}
    faults = [fault for wishes in wished.values() for fault in wishes.faults]
    if double is not None:
        wished |= {block + SECOND: wishes for block, wishes in wished.items()}
    clashing = tuple(cycle for cycle in solved.cycles if cycle.clash)
    again = partial(_clashes_after, size, assemblies, tilings)
    ways = try_ways(size, problem, solution, clashing, tilings, again, doubled=double is not None)

    def pressing(part: BlockPart, values: tuple[bool, ...]) -> Pressing:
        """The pressing of one part of the problem from values of the whole."""
        found = (conflict_of(problem, cycle, part.block, ways) for cycle in clashing)
        conflicts = tuple(c for c in found if c is not None)
        gap = (solution.cost - solution.bound) / clash_cost(problem)
        wish, assembly = wished[part.block], assemblies[part.block.removesuffix(SECOND)]
        own = values[part.first : part.first + len(part.strands.strands)]
        alone = replace(part, first=0)
        made = ask(pressing_of, assembly, alone, wish, own, conflicts, allowance, ask)
        return replace(made, gap=gap)

    made = {part.block: pressing(part, solution.values) for part in problem.parts}
    if double is not None and double.opposite:
        other = tuple(not value for value in solution.values)
        made |= {part.block + SECOND: pressing(part, other) for part in problem.parts}
    faults.extend(strand_warnings(problem, wished))
    faults.extend(conflict_warnings(problem, solved.cycles, wished))
    if double is not None:
        made = {block: _versions(block, made, double) for block in assemblies}
    return made, tuple(faults)


def _solved(
    size: Size, assemblies: Mapping[str, Assembly], tilings: Mapping[str, Tiling], ask: Ask
) -> _Solved:
    """The best pressing of a size: with one version of each block, or with two where that is better."""
    problem = problem_for(size, assemblies, ask=ask)
    solution = solve(model_of(problem))
    cycles = odd_cycles(problem, solution.values)
    if wanted(size) and any(cycle.through_rim for cycle in cycles):
        now = clashes_in(problem, solution.values)
        double = two_versions(size, problem, tilings, now)
        if double is not None:
            cycles = odd_cycles(double.problem, double.solution.values)
            return _Solved(double.problem, double.solution, cycles, double)
    return _Solved(problem, solution, cycles, None)


def _clashes_after(
    size: Size,
    assemblies: Mapping[str, Assembly],
    tilings: Mapping[str, Tiling],
    block: str,
    opened: int | None,
    freed: Point | None,
) -> int:
    """The clashes left in a size's quilt with one more strand of a block open, or one more of its
    crossings fanned."""
    problem = problem_for(size, assemblies, Trial(block, opened, freed))
    values = solve(model_of(problem)).values
    left = clashes_in(problem, values)
    if left and wanted(size) and clashes_in(problem, values, kind=Demand.RIM):
        both = two_versions(size, problem, tilings, left)
        return left if both is None else both.clashes
    return left


def _versions(
    block: str,
    made: Mapping[str, Pressing],
    double: TwoVersions,
) -> Pressing:
    """A block's pressing with its second version, where it comes in both and they differ."""
    counts = block_counts(double.size)
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
    places = places_of(double.size, block + SECOND)
    versions = Versions(
        second=other,
        opposite=opposite,
        layout=double.layout,
        places=places,
        first=first,
        count=second,
    )
    return replace(one, versions=versions)
