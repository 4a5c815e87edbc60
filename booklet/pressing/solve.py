"""Floor 5: the cheapest way to press everything, proven the cheapest or with what may be missing.

Each component by itself. Where all terms of a component can hold together (parity) only two candidates
are left, one the reverse of the other. Else bucket elimination while its tables stay small, else HiGHS.
"""

from __future__ import annotations

import math
from itertools import pairwise

from booklet.pressing.elimination import WIDEST, eliminate, elimination_order
from booklet.pressing.model import Literal, Model, Solution, components, holds, part
from booklet.pressing.parity import Parity
from booklet.solver import Row, Variable, minimise


def solve(model: Model, widest: int = WIDEST) -> Solution:
    """The cheapest assignment of a model; deterministic. `widest` limits elimination's tables."""
    values = [False] * len(model.prefer)
    cost = bound = 0
    for unknowns in components(model):
        solution = _solve_part(part(model, unknowns), widest)
        cost, bound = cost + solution.cost, bound + solution.bound
        for x, value in zip(unknowns, solution.values, strict=True):
            values[x] = value
    return Solution(tuple(values), cost, bound)


def _solve_part(model: Model, widest: int) -> Solution:
    """The cheapest assignment of one component."""
    even = by_parity(model)
    if even is not None and even.cost == even.bound:
        return even
    order, width = elimination_order(model)
    if width <= widest:
        return eliminate(model, order)
    return by_milp(model)


def by_parity(model: Model) -> Solution | None:
    """The cheaper of the two assignments in which every term holds; None where not all can hold.

    It is the optimum unless breaking a term pays, which `bound` (the sum of the cheapest values) and the
    least weight decide: then cost and bound differ.
    """
    links = Parity(len(model.prefer))
    for term in model.terms:
        first, sign = term.literals[0]
        for x, positive in term.literals[1:]:
            if not links.join(first, x, positive != sign):
                return None
    odd = [links.find(x)[1] for x in range(len(model.prefer))]
    both = [tuple(o == side for o in odd) for side in (True, False)]
    best = min(both, key=lambda values: (model.cost(values), values))
    cost = model.cost(best)
    floor = sum(min(costs) for costs in model.prefer)
    least = min((term.weight for term in model.terms), default=0)
    if not model.terms:
        best = tuple(costs[1] < costs[0] for costs in model.prefer)
        cost = floor
    return Solution(best, cost, cost if cost <= floor + least else floor)


def by_milp(model: Model) -> Solution:
    """The cheapest assignment by HiGHS: a binary for each unknown and one for each broken term.

    A term with literals l1 .. lk is broken if some neighbours in the cycle l1 .. lk l1 differ:
    broken >= l(i) - l(i+1). Started from the assignment that pleases every preference.
    """
    n = len(model.prefer)
    base = sum(costs[0] for costs in model.prefer)
    variables = [_binary(model, x) for x in range(n)]
    variables += [Variable(float(term.weight), 0.0, 1.0) for term in model.terms]
    rows = []
    for k, term in enumerate(model.terms):
        cycle = [*term.literals, term.literals[0]]
        for one, other in pairwise(cycle):
            rows.append(_difference(n + k, one, other))
    values = tuple(b < a for a, b in model.prefer)
    begin = [float(v) for v in values]
    begin += [0.0 if holds(term, values) else 1.0 for term in model.terms]
    found = minimise(variables, rows, start=begin)
    if found is None:
        return Solution(values, model.cost(values), sum(min(costs) for costs in model.prefer))
    values = tuple(value > 0.5 for value in found.values[:n])
    cost = model.cost(values)
    return Solution(values, cost, min(cost, math.ceil(base + found.bound - 1e-3)))


def _binary(model: Model, x: int) -> Variable:
    """The variable of an unknown; fixed where its preference outweighs every term it is in."""
    rise = model.prefer[x][1] - model.prefer[x][0]
    ties = sum(t.weight for t in model.terms if any(y == x for y, _ in t.literals))
    if abs(rise) > ties:
        value = float(rise < 0)
        return Variable(float(rise), value, value, whole=True)
    return Variable(float(rise), 0.0, 1.0, whole=True)


def _difference(broken: int, one: Literal, other: Literal) -> Row:
    """The row broken - one + other >= 0, where a literal is x or 1 - x."""
    weights: dict[int, float] = {broken: 1.0}
    low = 0.0
    for (x, positive), sign in ((one, -1.0), (other, 1.0)):
        weights[x] = weights.get(x, 0.0) + (sign if positive else -sign)
        low -= 0.0 if positive else sign
    return Row(tuple(weights.items()), low=low)
