"""Floor 5: what the ways out of what clashes would bring, by trying them.

One line pressed open, each line of an odd cycle in turn; two versions of the blocks over the whole set; a
crossing released and fanned. Each time the problem is solved again, and what still clashes is counted. Effort is
counted in unknowns solved again: the shortest odd cycle of each kind in each block comes first, and what is beyond
the limit is not tried.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping

from booklet.geometry.tiling import Tiling
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record, field, replace
from booklet.pattern import Size
from booklet.pressing.equations.elimination import CELLS, elimination_order
from booklet.pressing.equations.model import Assignment, Model, Term, components, part
from booklet.pressing.equations.problem import Problem, clashes_in, model_of
from booklet.pressing.equations.solve import solve
from booklet.pressing.meetings.places import SECOND, block_counts
from booklet.pressing.pressing import Demand, WayKind, WayOut
from booklet.pressing.ways.explain import OddCycle
from booklet.pressing.ways.versions import two_versions

EFFORT = 6_000  # unknowns solved again: about half a second
ALL = 4  # times the unknowns of a set, since it may be made in two versions in several ways
SMALL = 200  # unknowns: of more, only what hangs together with an open line is solved again
Again = Callable[[str, int | None, Point | None], int]


class Ways(Record, kw_only=True):
    """All that was tried: two versions of the blocks, where these would do better; and how many clashes are left of
    the `now` there are with one unknown pressed open, with all those `against` the others where they
    clash pressed open, or with one crossing (block, point) fanned."""

    now: int = 0
    versions: WayOut | None = None
    opened: Mapping[int, int] = field(default_factory=dict)
    against: frozenset[int] = frozenset()
    left: int = 0
    fanned: Mapping[tuple[str, Point], int] = field(default_factory=dict)


def try_ways(
    size: Size,
    problem: Problem,
    solution: Assignment,
    cycles: tuple[OddCycle, ...],
    tilings: Mapping[str, Tiling],
    again: Again,
    *,
    doubled: bool,
) -> Ways:
    """The ways out of the odd cycles of a solution. `again` gives the clashes left where a strand of
    a block is opened or a crossing fanned; blocks that are in two versions already (`doubled`) are in no more."""
    if not cycles:
        return Ways()
    now = clashes_in(problem, solution.values)
    ordered = _told_first(cycles)
    small = len(solution.values) <= SMALL
    opened = dict(
        _solved_again(problem, ordered, again) if small else _opened(problem, solution, ordered)
    )
    against = frozenset(x for cycle in cycles for x in _against(problem, solution, cycle))
    left = clashes_in(replace(problem, opened=problem.opened | against), solution.values)
    fanned = dict(_fanned(ordered, again, len(solution.values)))
    ways = Ways(now=now, opened=opened, against=against, left=left, fanned=fanned)
    if doubled or not any(cycle.through_rim for cycle in cycles):
        return ways
    return replace(ways, versions=_two_versions(size, problem, tilings, now))


def _two_versions(
    size: Size, problem: Problem, tilings: Mapping[str, Tiling], now: int
) -> WayOut | None:
    """Two versions of the blocks, with how many stay as they are; None where they leave as many clashes."""
    found = two_versions(size, problem, tilings, now)
    if found is None:
        return None
    counts = block_counts(found.size)
    second = sum(count for block, count in counts.items() if block.endswith(SECOND))
    return WayOut(
        kind=WayKind.TWO_VERSIONS,
        clashes=found.clashes,
        first=sum(counts.values()) - second,
        second=second,
        layout=found.layout,
    )


def _against(problem: Problem, solution: Assignment, cycle: OddCycle) -> Iterator[int]:
    """The unknowns that lie against the others, or against as many, where a cycle's term clashes."""
    sides: dict[bool, list[int]] = {True: [], False: []}
    for x, positive in cycle.asked.literals:
        if x not in problem.opened:
            sides[solution.values[x] == positive].append(x)
    yield from min(sides.values(), key=len)


def _told_first(cycles: Iterable[OddCycle]) -> list[OddCycle]:
    """The cycles, the shortest of each kind in each block before all others."""
    seen: dict[tuple[str, str], int] = {}
    ranked = []
    for cycle in sorted(cycles, key=lambda cycle: len(cycle.unknowns)):
        kind = (cycle.asked.kind, cycle.asked.ends[0][0])
        seen[kind] = seen.get(kind, -1) + 1
        ranked.append((seen[kind], cycle))
    return [cycle for _, cycle in sorted(ranked, key=lambda pair: pair[0])]


def _solved_again(
    problem: Problem, cycles: list[OddCycle], again: Again
) -> Iterator[tuple[int, int]]:
    """(an unknown, the clashes left in the quilt with it pressed open), all solved again."""
    size = sum(len(part.strands.strands) for part in problem.parts)
    effort, seen = EFFORT, set[int]()
    for cycle in cycles:
        for x in cycle.free:
            if x in seen:
                continue
            seen.add(x)
            effort -= ALL * size
            if effort < 0 and len(seen) > len(cycles[0].free):
                return
            part = next(part for part in reversed(problem.parts) if part.first <= x)
            yield x, again(part.block.removesuffix(SECOND), x - part.first, None)


def _opened(
    problem: Problem, solution: Assignment, cycles: list[OddCycle]
) -> Iterator[tuple[int, int]]:
    """(an unknown, the clashes left in the quilt with it pressed open) for the cycles' unknowns."""
    model = model_of(problem)
    of = {x: group for group in components(model) for x in group}
    tangled: dict[tuple[int, ...], bool] = {}
    effort, seen = EFFORT, set[int]()
    for cycle in cycles:
        for x in cycle.free:
            if x in seen:
                continue
            seen.add(x)
            group = of[x]
            if group not in tangled:
                tangled[group] = elimination_order(part(model, group)).cells > CELLS
            effort -= len(group) * (ALL if tangled[group] else 1)
            if effort < 0 and len(seen) > len(cycles[0].free):
                return
            values = _without(model, solution, x, group)
            again = replace(problem, opened=problem.opened | {x})
            yield x, clashes_in(again, values)


def _without(
    model: Model, solution: Assignment, x: int, group: tuple[int, ...]
) -> tuple[bool, ...]:
    """The values with one unknown free of all terms, its component solved again."""
    own = part(model, group)
    out = group.index(x)
    kept = (tuple(lit for lit in term.literals if lit[0] != out) for term in own.terms)
    terms = tuple(
        Term(lits, term.weight) for lits, term in zip(kept, own.terms, strict=True) if len(lits) > 1
    )
    own = replace(own, terms=terms)
    before = tuple(solution.values[y] for y in group)
    best = min((before, solve(own).values), key=own.cost)  # what is tangled may come out dearer
    values = list(solution.values)
    for y, value in zip(group, best, strict=True):
        values[y] = value
    return tuple(values)


def _fanned(
    cycles: list[OddCycle], again: Again, unknowns: int
) -> Iterator[tuple[tuple[str, Point], int]]:
    """((block, point), the clashes left with that crossing fanned) for crossings that clash."""
    effort, seen = EFFORT, set[tuple[str, Point]]()
    for cycle in cycles:
        block, _, at = cycle.asked.ends[0]
        if cycle.asked.kind is not Demand.NEST or (block, at) in seen:
            continue
        seen.add((block, at))
        effort -= ALL * unknowns
        if effort < 0 and len(seen) > 1:
            return
        yield (block, at), again(block.removesuffix(SECOND), None, at)
