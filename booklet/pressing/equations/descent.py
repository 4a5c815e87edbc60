"""Floor 5: better pressings by mending what does not hold, one point after the other.

Where a problem is too entangled for elimination, its answer is taken as a start. Each term that does not
hold is made to hold, with its literals true or false, and then unknowns are turned as long as that makes
the whole cheaper. What came out dearer by less than a whole term is kept all the same, as a way to
somewhere better; more is undone, and the best assignment met is the answer. Every choice is made in a
fixed order, and the effort is counted in turns, so the same problem gives the same answer.
"""

from __future__ import annotations

from collections.abc import Iterable

from booklet.pressing.equations.model import Model, Solution

TURNS = 8_000  # unknowns turned over: about half a second
PASSES = 8  # over all terms without anything better


def descend(model: Model, begin: Solution, turns: int = TURNS) -> Solution:
    """The best assignment met within `turns`, with the bound of `begin`."""
    table = _Table(model, begin)
    table.settle(range(len(begin.values)), frozenset())
    tries = [(t, truth) for t in range(len(model.terms)) for truth in (True, False)]
    slack = max((term.weight for term in model.terms), default=0) // 2
    best, best_cost, since = tuple(table.values), table.cost, 0
    while since < PASSES * len(tries) and table.turns < turns and best_cost > begin.bound:
        for t, truth in tries:
            since += 1
            if table.broken(t):
                table.mend(t, truth, best_cost + slack)
            if table.cost < best_cost:
                best, best_cost, since = tuple(table.values), table.cost, 0
        tries.reverse()
    return Solution(best, best_cost, begin.bound)


class _Table:
    """An assignment, its cost, how many literals of each term are true in it, and how many unknowns
    were turned so far."""

    def __init__(self, model: Model, begin: Solution) -> None:
        self.model = model
        self.values = list(begin.values)
        self.cost = begin.cost
        self.turns = 0
        self.true = [
            sum(self.values[x] == positive for x, positive in term.literals) for term in model.terms
        ]
        self.terms: list[dict[int, int]] = [{} for _ in self.values]  # literals more by True
        for t, term in enumerate(model.terms):
            for x, positive in term.literals:
                more = 1 if positive else -1
                self.terms[x][t] = self.terms[x].get(t, 0) + more

    def mend(self, t: int, truth: bool, limit: int) -> None:
        """Make a term hold with its literals of this truth, settle around it, and keep that where the
        whole costs no more than `limit`."""
        before, true, cost = list(self.values), list(self.true), self.cost
        held = {x: positive == truth for x, positive in self.model.terms[t].literals}
        for x, value in held.items():
            if self.values[x] != value:
                self._turn(x)
        near = {y for x in held for y in self._near(x)}
        self.settle(near - set(held), frozenset(held))
        self.settle(held, frozenset())
        if self.cost > limit:
            self.values, self.true, self.cost = before, true, cost

    def settle(self, unknowns: Iterable[int], held: frozenset[int]) -> None:
        """Turn unknowns that are cheaper turned, and what that makes cheaper to turn, but none held."""
        waiting = sorted(unknowns, reverse=True)
        while waiting:
            x = waiting.pop()
            if x in held or self._rise(x) >= 0:
                continue
            self._turn(x)
            waiting += sorted(self._near(x) - {x}, reverse=True)

    def broken(self, t: int) -> bool:
        """Whether the literals of a term differ."""
        return 0 < self.true[t] < len(self.model.terms[t].literals)

    def _near(self, x: int) -> set[int]:
        """The unknowns of all terms of an unknown."""
        terms = self.model.terms
        return {y for t in self.terms[x] for y, _ in terms[t].literals}

    def _turn(self, x: int) -> None:
        self.cost += self._rise(x)
        sign = -1 if self.values[x] else 1
        for t, more in self.terms[x].items():
            self.true[t] += sign * more
        self.values[x] = not self.values[x]
        self.turns += 1

    def _rise(self, x: int) -> int:
        """What turning an unknown would add to the cost."""
        costs, value = self.model.prefer[x], self.values[x]
        rise, sign = costs[not value] - costs[value], -1 if value else 1
        for t, more in self.terms[x].items():
            term, true = self.model.terms[t], self.true[t]
            all_true = len(term.literals)
            broken = 0 < true < all_true
            if (0 < true + sign * more < all_true) != broken:
                rise += -term.weight if broken else term.weight
        return rise
