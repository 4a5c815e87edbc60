"""Floor 5: an odd cycle as it concerns one block: its seams there, and the ways out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from booklet.kit.records import replace
from booklet.pressing.equations.problem import BlockPart, Problem
from booklet.pressing.pressing import Conflict, Demand, WayKind, WayOut
from booklet.pressing.ways.explain import OddCycle
from booklet.pressing.ways.ways_out import Ways


def conflict_of(problem: Problem, cycle: OddCycle, block: str, ways: Ways) -> Conflict | None:
    """An odd cycle as a conflict of one block; None if it has no seam there."""
    part = problem.part(block)
    seams = _seams(part, cycle)
    if not seams:
        return None
    ends = cycle.asked.ends
    at = next((at for name, _, at in ends if name == block), ends[0][2])
    found = tuple(_ways_out(part, cycle, seams, ways))
    return Conflict(cycle.asked.kind, at, seams, found)


def _seams(part: BlockPart, cycle: OddCycle) -> tuple[str, ...]:
    """The seams of one block on an odd cycle, one for each of its strands, in the cycle's order."""
    met: Mapping[int, str] = {
        part.first + part.strands.of[seam][0]: seam
        for ask in (*cycle.others, cycle.asked)
        for name, seam, _ in ask.ends
        if name == part.block
    }
    return tuple(
        met.get(x, part.strands.strands[x - part.first].seams[0])
        for x in cycle.unknowns
        if x in _own(part)
    )


def _own(part: BlockPart) -> range:
    """The unknowns of a block."""
    return range(part.first, part.first + len(part.strands.strands))


def _ways_out(
    part: BlockPart, cycle: OddCycle, seams: tuple[str, ...], ways: Ways
) -> Iterator[WayOut]:
    """The ways out of a conflict, the least trouble first."""
    one = _open(part, cycle, seams, ways)
    if one.clashes is None or one.clashes < ways.now:
        yield one
    if one.clashes is not None and one.clashes > ways.left:
        several = (x - part.first for x in sorted(ways.against) if x in _own(part))
        opened = tuple(seam for k in several for seam in part.strands.strands[k].seams)
        yield WayOut(kind=WayKind.OPEN_ALL, seams=opened, clashes=ways.left)
    if cycle.through_rim and ways.versions is not None:
        yield replace(ways.versions, seams=seams)
    if cycle.asked.kind is Demand.NEST:
        ends = [end for end in cycle.asked.ends if end[0] == part.block]
        left = ways.fanned.get((part.block, ends[0][2])) if ends else None
        if ends and (left is None or left < ways.now):
            yield WayOut(kind=WayKind.FAN, seams=tuple(seam for _, seam, _ in ends), clashes=left)


def _open(part: BlockPart, cycle: OddCycle, seams: tuple[str, ...], ways: Ways) -> WayOut:
    """The line of sewing that leaves the fewest clashes when it is pressed open, the shortest of such;
    any seam of the cycle where none was tried."""
    tried = [
        (ways.opened[x], len(strand.seams), k)
        for k, x in enumerate(cycle.free)
        if x in ways.opened and x in _own(part)
        for strand in (part.strands.strands[x - part.first],)
    ]
    if not tried:
        return WayOut(kind=WayKind.OPEN, seams=seams)
    clashes, _, k = min(tried)
    return WayOut(
        kind=WayKind.OPEN,
        seams=part.strands.strands[cycle.free[k] - part.first].seams,
        clashes=clashes,
    )
