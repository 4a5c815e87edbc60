"""Floor 5, third step, set up: the blocks of one size as parts of one problem, wishes and habits fixed."""

from __future__ import annotations

from collections.abc import Mapping

from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record, replace
from booklet.kit.remembered.memory import Ask, plainly
from booklet.pattern import Fabric, PressHabit, Size
from booklet.pressing.equations.preferences import darkness, preferences
from booklet.pressing.equations.problem import BlockPart, Problem, problem_of
from booklet.pressing.meetings.crossings import crossings_of
from booklet.pressing.meetings.neighbours import rim_meetings
from booklet.pressing.meetings.places import block_counts
from booklet.pressing.strands import Strands, strands_of
from booklet.pressing.wishes import Wished, released_points, wishes_of
from booklet.sewing.assembly import Assembly


class Trial(Record):
    """A way out on trial in one block: a strand (by its number) pressed open, or a crossing released,
    as no wish and no habit asked."""

    block: str
    opened: int | None = None
    freed: Point | None = None


NO_CHANGE = Trial("")


def problem_for(
    size: Size,
    assemblies: Mapping[str, Assembly],
    change: Trial = NO_CHANGE,
    ask: Ask = plainly,
) -> Problem:
    """The pressing of the blocks of a size (by block id) as one problem, with one change of a block."""
    tilings = {block: assembly.tiling for block, assembly in assemblies.items()}
    counts = block_counts(size)
    parts: list[BlockPart] = []
    first = 0
    for block, assembly in assemblies.items():
        wished = wishes_of(assembly)
        own = change if change.block == block else NO_CHANGE
        count, habit = max(1, counts.get(block, 1)), size.sewing.press
        part = ask(part_of, habit, size.fabrics, block, assembly, wished, count, own)
        parts.append(replace(part, first=first))
        first += len(part.strands.strands)
    return problem_of(tuple(parts), rim_meetings(size, tilings))


def part_of(
    habit: PressHabit,
    fabrics: Mapping[str, Fabric],
    block: str,
    assembly: Assembly,
    wished: Wished,
    count: int,
    change: Trial,
) -> BlockPart:
    """One block as if it were the whole problem: strands, crossings, what is fixed, what is preferred."""
    freed = released_points(assembly, wished, habit)
    if change.freed is not None:
        freed |= {change.freed}
    strands = strands_of(assembly, freed)
    crossings = crossings_of(assembly, strands, freed)
    fixed: dict[int, bool | None] = {}
    dark = darkness(assembly, strands, fabrics)
    if habit is PressHabit.DARK:
        fixed.update({k: d > 0 for k, d in enumerate(dark) if d})
    elif habit is PressHabit.OPEN:
        fixed.update(dict.fromkeys(range(len(strands.strands))))
    fixed.update(_wished(strands, wished))
    if change.opened is not None:
        fixed[change.opened] = None
    prefer = preferences(strands, crossings, dark)
    return BlockPart(
        block=block,
        first=0,
        strands=strands,
        crossings=crossings,
        fixed=fixed,
        prefer=prefer,
        dark=tuple(dark),
        count=count,
    )


def _wished(strands: Strands, wished: Wished) -> dict[int, bool | None]:
    """The author's direction of each strand; the first wish for a strand counts."""
    fixed: dict[int, bool | None] = {}
    for seam, toward in wished.toward.items():
        index, forward = strands.of[seam]
        right = None if toward is None else (strands.seams[seam].between[0] == toward) == forward
        fixed.setdefault(index, right)
    return fixed
