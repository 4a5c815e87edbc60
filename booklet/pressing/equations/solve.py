"""Floor 5: the cheapest way to press everything, proven the cheapest or with what may be missing.

Each component by itself. Where all terms of a component can hold together (parity) only two candidates
are left, one the reverse of the other. Else bucket elimination, exact while its tables stay small. Beyond
that the least that must be given up to break every odd cycle: of what clashes that is proven as well, and
only what is preferred may be missed.
"""

from __future__ import annotations

from booklet.pressing.equations.cycle_cover import covered
from booklet.pressing.equations.elimination import CELLS, eliminate, elimination_order
from booklet.pressing.equations.model import Assignment, Model, components, part
from booklet.pressing.equations.parity import Parity


def solve(model: Model, cells: int = CELLS) -> Assignment:
    """The cheapest assignment of a model; deterministic. `cells` limits the tables of an elimination."""
    values = [False] * len(model.prefer)
    cost = bound = 0
    for unknowns in components(model):
        solution = _solve_part(part(model, unknowns), cells)
        cost, bound = cost + solution.cost, bound + solution.bound
        for x, value in zip(unknowns, solution.values, strict=True):
            values[x] = value
    return Assignment(tuple(values), cost, bound)


def _solve_part(model: Model, cells: int) -> Assignment:
    """The cheapest assignment of one component."""
    even = by_parity(model)
    if even is not None and even.cost == even.bound:
        return even
    order = elimination_order(model)
    return eliminate(model, order) if order.cells <= cells else covered(model)


def by_parity(model: Model) -> Assignment | None:
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
    return Assignment(best, cost, cost if cost <= floor + least else floor)
