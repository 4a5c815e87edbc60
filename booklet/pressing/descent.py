"""Floor 5: better pressings by mending what does not hold, one point after the other.

Where a problem is too entangled for elimination, its answer is taken as a start. Each term that does not
hold is made to hold, with its literals true or false, and then unknowns are turned as long as that makes
the whole cheaper. What came out dearer by less than a whole term is kept all the same, as a way to
somewhere better; more is undone, and the best assignment met is the answer. Every choice is made in a
fixed order, and the effort is counted in turns, so the same problem gives the same answer.
"""

from __future__ import annotations

from collections.abc import Iterable

from booklet.pressing.model import Model, Solution, Term

TURNS = 8_000  # unknowns turned over: about half a second
PASSES = 8  # over all terms without anything better


def descend(model: Model, begin: Solution, turns: int = TURNS) -> Solution:
    """The best assignment met within `turns`, with the bound of `begin`."""
    table = _Table(model, begin)
    table.settle(range(len(begin.values)), frozenset())
    tries = [(term, truth) for term in model.terms for truth in (True, False)]
    slack = max((term.weight for term in model.terms), default=0) // 2
    best, best_cost, since = tuple(table.values), table.cost, 0
    while since < PASSES * len(tries) and table.turns < turns and best_cost > begin.bound:
        for term, truth in tries:
            since += 1
            if table.broken(term):
                table.mend(term, truth, best_cost + slack)
            if table.cost < best_cost:
                best, best_cost, since = tuple(table.values), table.cost, 0
        tries.reverse()
    return Solution(best, best_cost, begin.bound)


class _Table:
    """An assignment, its cost, and how many unknowns were turned so far."""

    def __init__(self, model: Model, begin: Solution) -> None:
        self.model = model
        self.values = list(begin.values)
        self.cost = begin.cost
        self.turns = 0
        self.terms: list[list[Term]] = [[] for _ in self.values]
        for term in model.terms:
            for x in dict.fromkeys(x for x, _ in term.literals):
                self.terms[x].append(term)

    def mend(self, term: Term, truth: bool, limit: int) -> None:
        """Make a term hold with its literals of this truth, settle around it, and keep that where the
        whole costs no more than `limit`."""
        before, cost = list(self.values), self.cost
        held = {x: positive == truth for x, positive in term.literals}
        for x, value in held.items():
            if self.values[x] != value:
                self._turn(x)
        near = {y for x in held for other in self.terms[x] for y, _ in other.literals}
        self.settle(near - set(held), frozenset(held))
        self.settle(held, frozenset())
        if self.cost > limit:
            self.values, self.cost = before, cost

    def settle(self, unknowns: Iterable[int], held: frozenset[int]) -> None:
        """Turn unknowns that are cheaper turned, and what that makes cheaper to turn, but none held."""
        waiting = sorted(unknowns, reverse=True)
        while waiting:
            x = waiting.pop()
            if x in held or self._rise(x) >= 0:
                continue
            self._turn(x)
            near = {y for term in self.terms[x] for y, _ in term.literals} - {x}
            waiting += sorted(near, reverse=True)

    def _turn(self, x: int) -> None:
        self.cost += self._rise(x)
        self.values[x] = not self.values[x]
        self.turns += 1

    def _rise(self, x: int) -> int:
        """What turning an unknown would add to the cost."""
        costs = self.model.prefer[x]
        rise = costs[not self.values[x]] - costs[self.values[x]]
        now = sum(term.weight for term in self.terms[x] if self.broken(term))
        self.values[x] = not self.values[x]
        then = sum(term.weight for term in self.terms[x] if self.broken(term))
        self.values[x] = not self.values[x]
        return rise + then - now

    def broken(self, term: Term) -> bool:
        """Whether the literals of a term differ."""
        values = self.values
        first, sign = term.literals[0]
        truth = values[first] == sign
        return any((values[x] == positive) != truth for x, positive in term.literals)
