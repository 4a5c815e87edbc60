"""The pressing problem as an integer programme: a second way to the answer, to test the first against.

Not in the tool itself: HiGHS took two minutes over a grid of 300 triangles, elimination 40 ms.
"""

from __future__ import annotations

import math
from itertools import pairwise

from booklet.kit.solver import Row, Variable, minimise
from booklet.pressing.equations.model import Assignment, Literal, Model, holds


def by_milp(model: Model) -> Assignment:
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
        return Assignment(values, model.cost(values), sum(min(costs) for costs in model.prefer))
    values = tuple(value > 0.5 for value in found.values[:n])
    cost = model.cost(values)
    return Assignment(values, cost, min(cost, math.ceil(base + found.bound - 1e-3)))


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
