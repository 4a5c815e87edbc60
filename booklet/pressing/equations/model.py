"""Floor 5: the pressing problem as numbers, ready for a solver.

Unknowns have two values (to the left, to the right of a strand). A term asks that all its literals
agree, and costs its weight where they do not; a preference costs something for one value. Seams fixed by
the author or pressed open are no unknowns any more.
"""

from __future__ import annotations

from booklet.kit.groups import tied_groups
from booklet.kit.records import Record

Literal = tuple[int, bool]  # (unknown, the value for which it is true)


class Term(Record):
    """Costs `weight` unless all literals are true or all are false."""

    literals: tuple[Literal, ...]
    weight: int


class Model(Record):
    """`prefer[x]` is the cost of unknown x being False and of it being True; costs are whole numbers."""

    prefer: tuple[tuple[int, int], ...]
    terms: tuple[Term, ...]

    def cost(self, values: tuple[bool, ...]) -> int:
        """The cost of an assignment."""
        chosen = sum(costs[value] for costs, value in zip(self.prefer, values, strict=True))
        return chosen + sum(term.weight for term in self.terms if not holds(term, values))


class Assignment(Record):
    """The best assignment found. `bound` is a proven lower bound of the cost: equal when optimal."""

    values: tuple[bool, ...]
    cost: int
    bound: int


def holds(term: Term, values: tuple[bool, ...]) -> bool:
    """Whether all literals of a term agree."""
    return len({values[x] == positive for x, positive in term.literals}) < 2


def components(model: Model) -> tuple[tuple[int, ...], ...]:
    """The unknowns grouped by the terms that tie them, each group and the groups in order."""
    ties = ((term.literals[0][0], x) for term in model.terms for x, _ in term.literals[1:])
    return tied_groups(len(model.prefer), ties)


def part(model: Model, unknowns: tuple[int, ...]) -> Model:
    """The model restricted to one component, its unknowns renumbered from 0."""
    index = {x: k for k, x in enumerate(unknowns)}
    terms = tuple(
        Term(tuple((index[x], positive) for x, positive in term.literals), term.weight)
        for term in model.terms
        if term.literals[0][0] in index
    )
    return Model(tuple(model.prefer[x] for x in unknowns), terms)
