"""Floor 5, third step: the pressing of all blocks of one size as one problem.

Blocks that meet in the quilt share their unknowns: copies of a block are pressed alike. Costs are whole
numbers in three ranks, so that a lower rank never outweighs a higher one: the author's directions, then
the number of clashes in the whole quilt, then preferences (dark side, little bulk, one way round).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from booklet.geometry.tiling import Point
from booklet.pressing.crossings import Crossing, Meeting
from booklet.pressing.model import Literal, Model, Term
from booklet.pressing.neighbours import RimMeeting
from booklet.pressing.strands import Strands

BEND_SHARE = 1  # a bend that lies flat is only a preference


@dataclass(frozen=True, slots=True)
class BlockPart:
    """One block within the problem: its unknowns are numbered from `first`. `fixed` gives strands
    their direction (None: open); `prefer` the costs of left and right; `count` blocks are made."""

    block: str
    first: int
    strands: Strands
    crossings: tuple[Crossing, ...]
    fixed: Mapping[int, bool | None]
    prefer: tuple[tuple[int, int], ...]
    dark: tuple[int, ...]  # of each strand how much darker its right side is
    count: int


@dataclass(frozen=True, slots=True)
class Asked:
    """A term of the problem with what it is about: `ends` are (block, seam, point) of its literals."""

    kind: str  # nest | fan | flat | rim
    ends: tuple[tuple[str, str, Point], ...]
    literals: tuple[Literal, ...]
    count: int


@dataclass(frozen=True, slots=True)
class Problem:
    """The problem of one size: its blocks and everything asked."""

    parts: tuple[BlockPart, ...]
    asked: tuple[Asked, ...]

    def part(self, block: str) -> BlockPart:
        """The part of a block; KeyError where it has none."""
        for part in self.parts:
            if part.block == block:
                return part
        raise KeyError(block)


def problem_of(parts: tuple[BlockPart, ...], meetings: tuple[RimMeeting, ...]) -> Problem:
    """The problem of blocks and of the meetings of their rims."""
    asked = [
        ask for part in parts for crossing in part.crossings for ask in _inside(part, crossing)
    ]
    by_block = {part.block: part for part in parts}
    for meeting in meetings:
        ends = tuple(
            (end.block, seam, end.at)
            for end in (meeting.first, meeting.second)
            for seam in end.seams
        )
        asked.extend(_ask("rim", by_block, ends, meeting.count))
    return Problem(parts, tuple(asked))


def model_of(problem: Problem) -> Model:
    """The problem with its ranks of costs; an open seam takes no part in any term."""
    easy = [costs for part in problem.parts for costs in part.prefer]
    clash = 1 + sum(max(costs) for costs in easy)
    terms = []
    for ask in problem.asked:
        literals = tuple(lit for lit in ask.literals if not is_open(problem, lit[0]))
        if len(literals) > 1:
            weight = BEND_SHARE if ask.kind == "flat" else clash * ask.count
            terms.append(Term(literals, weight))
    firm = 1 + clash + sum(term.weight for term in terms)
    prefer = []
    for part in problem.parts:
        for k, costs in enumerate(part.prefer):
            value = part.fixed.get(k)
            prefer.append(costs if value is None else ((firm, 0) if value else (0, firm)))
    return Model(
        tuple((0, 0) if is_open(problem, x) else costs for x, costs in enumerate(prefer)),
        tuple(terms),
    )


def is_open(problem: Problem, unknown: int) -> bool:
    """Whether an unknown's strand is pressed open."""
    for part in problem.parts:
        if unknown < part.first + len(part.strands.strands):
            k = unknown - part.first
            return k in part.fixed and part.fixed[k] is None
    raise KeyError(unknown)


def _inside(part: BlockPart, crossing: Crossing) -> Iterator[Asked]:
    """What a point inside a block asks: arms to nest, a point to fan, a tee or bend to lie flat."""
    blocks = {part.block: part}
    ends = {seam: (part.block, seam, crossing.at) for seam in crossing.seams}
    if crossing.meeting is Meeting.POINT:
        yield from _ask("fan", blocks, tuple(ends.values()), part.count)
    elif crossing.meeting is Meeting.BEND:
        yield from _ask("flat", blocks, tuple(ends.values()), part.count, opposite=True)
    else:
        arms = tuple(ends[seam] for seam in crossing.arms)
        yield from _ask(
            "nest" if crossing.meeting is Meeting.CROSSING else "flat", blocks, arms, part.count
        )
        line = tuple(ends[seam] for seam in crossing.line)
        yield from _ask("flat", blocks, line, part.count, opposite=True)


def _ask(
    kind: str,
    parts: Mapping[str, BlockPart],
    ends: tuple[tuple[str, str, Point], ...],
    count: int,
    *,
    opposite: bool = False,
) -> Iterator[Asked]:
    """The term that all ends lie the same way round; with `opposite`, that two lie to one side."""
    literals = []
    for k, (block, seam, at) in enumerate(ends):
        part = parts[block]
        strand, value = part.strands.literal(seam, at)
        literals.append((part.first + strand, value != (opposite and k == 1)))
    if len(set(literals)) > 1:
        yield Asked(kind, ends, tuple(dict.fromkeys(literals)), count)
