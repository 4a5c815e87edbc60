"""Floor 5, third step: the pressing of all blocks of one size as one problem.

Blocks that meet in the quilt share their unknowns: copies of a block are pressed alike. Costs are whole
numbers in three ranks, so that a lower rank never outweighs a higher one: the author's directions, then
the clashes in the whole quilt (one inside a block as heavy as INSIDE on its rim: a point inside is
there in every block, an end on the rim can still be turned when blocks are joined), then preferences
(dark side, little bulk, one way round).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record, replace
from booklet.pressing.equations.model import Literal, Model, Term
from booklet.pressing.equations.preferences import DARK
from booklet.pressing.meetings.crossings import Crossing, Meeting, others
from booklet.pressing.meetings.neighbours import RimMeeting
from booklet.pressing.pressing import Demand
from booklet.pressing.strands import Strands

INSIDE = 4
FLAT = 4 * DARK  # one patch's strip lying one way, all arms one way round: before dark and bulk


class BlockPart(Record, kw_only=True):
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


class AskedTerm(Record, kw_only=True):
    """A term of the problem with what it is about: `ends` are (block, seam, point) of its literals."""

    kind: Demand
    ends: tuple[tuple[str, str, Point], ...]
    literals: tuple[Literal, ...]
    count: int
    instead: tuple[tuple[Literal, ...], ...] = ()  # where one of these agrees, it is no clash

    def clashes(self, values: tuple[bool, ...], opened: frozenset[int]) -> bool:
        """Whether this is a clash in a solution."""
        return self.kind is not Demand.FLAT and not any(
            len({values[x] == positive for x, positive in literals if x not in opened}) < 2
            for literals in (self.literals, *self.instead)
        )


class Problem(Record):
    """The problem of one size: its blocks, everything asked, and the unknowns pressed open."""

    parts: tuple[BlockPart, ...]
    asked: tuple[AskedTerm, ...]
    opened: frozenset[int]

    def part(self, block: str) -> BlockPart:
        """The part of a block; KeyError where it has none."""
        for part in self.parts:
            if part.block == block:
                return part
        raise KeyError(block)


def problem_of(
    parts: tuple[BlockPart, ...],
    meetings: tuple[RimMeeting, ...],
    opposite: Mapping[str, str] = MappingProxyType({}),
) -> Problem:
    """The problem of blocks and of the meetings of their rims. `opposite` names blocks that are pressed
    just the other way from one of `parts`."""
    asked = [
        ask for part in parts for crossing in part.crossings for ask in _inside(part, crossing)
    ]
    by_block = {part.block: part for part in parts}
    by_block |= {name: by_block[block] for name, block in opposite.items() if block in by_block}
    for meeting in meetings:
        for one, other in meeting.facing:
            ends = (
                (meeting.first.block, one, meeting.first.at),
                (meeting.second.block, other, meeting.second.at),
            )
            flipped = tuple(k for k, end in enumerate(ends) if end[0] in opposite)
            asked.extend(_ask(Demand.RIM, by_block, ends, meeting.count, flipped))
    opened = (p.first + k for p in parts for k, value in p.fixed.items() if value is None)
    return Problem(parts, tuple(asked), frozenset(opened))


def model_of(problem: Problem) -> Model:
    """The problem with its ranks of costs; an open seam takes no part in any term."""
    clash = clash_cost(problem)
    terms = []
    for ask in problem.asked:
        literals = tuple(lit for lit in ask.literals if lit[0] not in problem.opened)
        if len(literals) > 1:
            weight = FLAT if ask.kind is Demand.FLAT else clash * ask.count
            weight *= INSIDE if ask.kind in (Demand.NEST, Demand.FAN) else 1
            terms.append(Term(literals, weight))
    firm = 1 + clash + sum(term.weight for term in terms)
    prefer = []
    for part in problem.parts:
        for k, costs in enumerate(part.prefer):
            value = part.fixed.get(k)
            prefer.append(costs if value is None else ((firm, 0) if value else (0, firm)))
    return Model(
        tuple((0, 0) if x in problem.opened else costs for x, costs in enumerate(prefer)),
        tuple(terms),
    )


def clash_cost(problem: Problem) -> int:
    """The cost of one clash: more than all preferences together."""
    easy = sum(max(costs) for part in problem.parts for costs in part.prefer)
    return 1 + easy + FLAT * sum(ask.kind is Demand.FLAT for ask in problem.asked)


def clashes_in(problem: Problem, values: tuple[bool, ...], kind: Demand | None = None) -> int:
    """How many nests, fans and rim meetings of the whole quilt do not hold in a solution; those of one
    `kind` only, where it is given."""
    return sum(
        ask.count
        for ask in problem.asked
        if kind in (None, ask.kind) and ask.clashes(values, problem.opened)
    )


def _inside(part: BlockPart, crossing: Crossing) -> Iterator[AskedTerm]:
    """What a point inside a block asks: arms to nest, a point to fan, a tee or bend to lie flat."""
    blocks = {part.block: part}
    ends = {seam: (part.block, seam, crossing.at) for seam in crossing.seams}
    if crossing.meeting is Meeting.POINT:
        instead = tuple(
            tuple(_literal(part, ends[seam]) for seam in rest)
            for rest in others(crossing, part.strands)
        )
        for ask in _ask(Demand.FAN, blocks, tuple(ends.values()), part.count):
            yield replace(ask, instead=instead)
    elif crossing.meeting is Meeting.BEND:
        yield from _ask(Demand.FLAT, blocks, tuple(ends.values()), part.count, (1,))
    else:
        for one, other in crossing.facing:
            yield from _ask(Demand.NEST, blocks, (ends[one], ends[other]), part.count)
        if len(crossing.arms) > 2 or crossing.meeting is Meeting.TEE:
            yield from _ask(
                Demand.FLAT, blocks, tuple(ends[arm] for arm in crossing.arms), part.count
            )
        line = tuple(ends[seam] for seam in crossing.line)
        yield from _ask(Demand.FLAT, blocks, line, part.count, (1,))


def _ask(
    kind: Demand,
    parts: Mapping[str, BlockPart],
    ends: tuple[tuple[str, str, Point], ...],
    count: int,
    flipped: tuple[int, ...] = (),
) -> Iterator[AskedTerm]:
    """The term that all ends lie the same way round, but those of the `flipped` places the other way:
    of two with (1,), that they lie to one side."""
    literals = []
    for k, (block, seam, at) in enumerate(ends):
        x, value = _literal(parts[block], (block, seam, at))
        literals.append((x, value != (k in flipped)))
    if len(set(literals)) > 1:
        yield AskedTerm(kind=kind, ends=ends, literals=tuple(dict.fromkeys(literals)), count=count)


def _literal(part: BlockPart, end: tuple[str, str, Point]) -> Literal:
    """That the allowance of a seam of a part lies clockwise on the page round its end."""
    strand, value = part.strands.literal(end[1], end[2])
    return part.first + strand, value
