"""Floor 5: bucket elimination, exact in O(n * 2^(width + 1)).

One unknown after the other is minimised out of the tables that hold it, in the order in which the new
table is smallest (least neighbours first). Tables are numpy arrays with one axis per unknown.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from booklet.pressing.model import Model, Solution, Term

Costs = npt.NDArray[np.int64]
WIDEST = 14


@dataclass(frozen=True, slots=True)
class _Table:
    """Costs over the unknowns of `scope`, one axis each."""

    scope: tuple[int, ...]
    costs: Costs


def elimination_order(model: Model) -> tuple[tuple[int, ...], int]:
    """(an order of the unknowns, its width): always the one with the fewest neighbours next."""
    near: dict[int, set[int]] = {x: set() for x in range(len(model.prefer))}
    for term in model.terms:
        unknowns = {x for x, _ in term.literals}
        for x in unknowns:
            near[x] |= unknowns - {x}
    order, width = [], 0
    while near:
        x = min(near, key=lambda k: (len(near[k]), k))
        around = near.pop(x)
        width = max(width, len(around))
        for y in around:
            near[y] |= around - {y}
            near[y].discard(x)
        order.append(x)
    return tuple(order), width


def eliminate(model: Model, order: tuple[int, ...]) -> Solution:
    """The cheapest assignment; among equally cheap ones the first with False before True."""
    tables = [_Table((x,), np.array(c, dtype=np.int64)) for x, c in enumerate(model.prefer)]
    waiting: dict[int, list[_Table]] = {x: [] for x in order}
    rank = {x: k for k, x in enumerate(order)}
    constant = 0
    for table in [*tables, *map(_table, model.terms)]:
        waiting[min(table.scope, key=rank.__getitem__)].append(table)
    kept: list[tuple[int, _Table]] = []
    for x in order:
        whole = _sum(waiting.pop(x), x)
        kept.append((x, whole))
        rest, left = whole.scope[1:], whole.costs.min(axis=0)
        if rest:
            waiting[min(rest, key=rank.__getitem__)].append(_Table(rest, left))
        else:
            constant += int(left)
    values: dict[int, bool] = {}
    for x, table in reversed(kept):
        place = tuple(int(values[y]) for y in table.scope[1:])
        values[x] = bool(table.costs[(1, *place)] < table.costs[(0, *place)])
    return Solution(tuple(values[x] for x in range(len(order))), constant, constant)


def _table(term: Term) -> _Table:
    """A term as a table: its weight everywhere but where all literals agree."""
    scope = tuple(dict.fromkeys(x for x, _ in term.literals))
    costs = np.full((2,) * len(scope), term.weight, dtype=np.int64)
    signs = dict(term.literals)
    if all(signs[x] == positive for x, positive in term.literals):
        for truth in (False, True):
            costs[tuple(int(signs[x] == truth) for x in scope)] = 0
    return _Table(scope, costs)


def _sum(tables: list[_Table], x: int) -> _Table:
    """The sum of tables, over all their unknowns with x first."""
    others = sorted({y for table in tables for y in table.scope} - {x})
    scope = (x, *others)
    axis = {y: k for k, y in enumerate(scope)}
    total = np.zeros((2,) * len(scope), dtype=np.int64)
    for table in tables:
        ordered = sorted(range(len(table.scope)), key=lambda k: axis[table.scope[k]])
        shape = [1] * len(scope)
        for k in ordered:
            shape[axis[table.scope[k]]] = 2
        total += table.costs.transpose(ordered).reshape(shape)
    return _Table(scope, total)
