"""Floor 0: the one door to HiGHS, the solver of linear and integer programmes.

A programme is: choose x within its bounds so that every row's sum lies within its limits and the cost
is least. Nothing is printed, one thread works, and effort is limited by counting nodes, never by the
clock, so that the same programme gives the same answer.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import highspy

from booklet.kit.outlines.near import NOISE, WHOLE
from booklet.kit.records import Record, replace

INFINITY = math.inf
Terms = Sequence[tuple[int, float]]  # (index of a variable or row, coefficient)


class Variable(Record):
    """A variable: its cost, its bounds, whether it must be a whole number."""

    cost: float
    low: float = 0.0
    high: float = INFINITY
    whole: bool = False


class Row(Record):
    """A condition: low <= sum of coefficient * variable <= high."""

    terms: tuple[tuple[int, float], ...]
    low: float = -INFINITY
    high: float = INFINITY


class Solution(Record, kw_only=True):
    """An answer: the values, their cost, a proven bound on the cost, and the rows' prices.

    `optimal` is false where the node limit ended an integer search first. `prices` (dual values) are
    empty for integer programmes.
    """

    values: tuple[float, ...]
    cost: float
    bound: float
    optimal: bool
    prices: tuple[float, ...]


class Linear:
    """A linear programme that grows: columns are added between solutions.

    Every solution begins where the last one ended, which is much quicker than beginning anew.
    """

    def __init__(self, rows: Sequence[tuple[float, float]]) -> None:
        """Begin with empty rows, each with its limits (low, high)."""
        self._solver = _load((), [Row((), low, high) for low, high in rows])
        self._count = 0

    def add(self, variable: Variable, terms: Terms) -> int:
        """Add a column with its entries (row, coefficient); its number."""
        high = highspy.kHighsInf if variable.high == INFINITY else variable.high
        rows = [row for row, _ in terms]
        factors = [factor for _, factor in terms]
        self._solver.addCol(variable.cost, variable.low, high, len(rows), rows, factors)
        self._count += 1
        return self._count - 1

    def solve(self) -> Solution | None:
        """The cheapest solution, None where there is none."""
        self._solver.run()
        if self._solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
            return None
        answer = self._solver.getSolution()
        cost = float(self._solver.getInfo().objective_function_value)
        values, prices = tuple(answer.col_value), tuple(answer.row_dual)
        return Solution(values=values, cost=cost, bound=cost, optimal=True, prices=prices)


def minimise(
    variables: Sequence[Variable],
    rows: Sequence[Row],
    nodes: int = 100_000,
    start: Sequence[float] | None = None,
    gap: float = 0.0,
) -> Solution | None:
    """The cheapest solution, or None where there is none (or none found within `nodes`).

    `start` is a known solution: it is the answer where the integer search, ended by `nodes`, found
    none as cheap. (It is not handed to the solver: begun with one, HiGHS 1.16 gave answers that broke
    rows.) The search stops when its answer is within `gap` (an absolute cost) of the bound.
    """
    if not variables:
        return (
            Solution(values=(), cost=0.0, bound=0.0, optimal=True, prices=(0.0,) * len(rows))
            if _open(rows)
            else None
        )
    whole = any(variable.whole for variable in variables)
    solver = _load(variables, rows)
    solver.setOptionValue("mip_max_nodes", nodes)
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.setOptionValue("mip_abs_gap", max(gap, WHOLE))
    solver.run()
    status = solver.getModelStatus()
    info = solver.getInfo()
    optimal = status == highspy.HighsModelStatus.kOptimal
    found = optimal or (
        whole and info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
    )
    known = None if start is None or not whole else _known(variables, rows, start)
    if not found:
        return known
    answer = solver.getSolution()
    cost = float(info.objective_function_value)
    bound = float(info.mip_dual_bound) if whole else cost
    prices = () if whole else tuple(float(price) for price in answer.row_dual)
    made = Solution(
        values=tuple(float(v) for v in answer.col_value),
        cost=cost,
        bound=bound,
        optimal=optimal,
        prices=prices,
    )
    if known is not None and known.cost < made.cost - NOISE:
        return replace(known, bound=bound)
    return made


def _known(
    variables: Sequence[Variable], rows: Sequence[Row], start: Sequence[float]
) -> Solution | None:
    """The known solution, if it is one: within every bound and row."""
    within = all(
        v.low - WHOLE <= x <= v.high + WHOLE for v, x in zip(variables, start, strict=True)
    )
    for row in rows:
        total = sum(factor * start[index] for index, factor in row.terms)
        within = within and row.low - WHOLE <= total <= row.high + WHOLE
    if not within:
        return None
    cost = sum(v.cost * x for v, x in zip(variables, start, strict=True))
    return Solution(
        values=tuple(float(x) for x in start), cost=cost, bound=-INFINITY, optimal=False, prices=()
    )


def _open(rows: Sequence[Row]) -> bool:
    """Whether nothing at all satisfies every row."""
    return all(row.low <= 0 <= row.high for row in rows)


def _load(variables: Sequence[Variable], rows: Sequence[Row]) -> Any:
    """A silent solver that holds the programme.

    The plain engine under `Highs` is used: `Highs()` prints a greeting before it can be silenced.
    """
    engine: Any = highspy.Highs.__base__
    solver = engine()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("random_seed", 1)
    limit = highspy.kHighsInf
    for index, variable in enumerate(variables):
        high = limit if variable.high == INFINITY else variable.high
        low = -limit if variable.low == -INFINITY else variable.low
        solver.addCol(variable.cost, low, high, 0, [], [])
        if variable.whole:
            solver.changeColIntegrality(index, highspy.HighsVarType.kInteger)
    for row in rows:
        low = -limit if row.low == -INFINITY else row.low
        high = limit if row.high == INFINITY else row.high
        indexes = [index for index, _ in row.terms]
        solver.addRow(low, high, len(indexes), indexes, [factor for _, factor in row.terms])
    return solver
