"""Floor 5: bucket elimination, exact in O(n * 2^(width + 1)).

One unknown after the other is minimised out of the tables that hold it, in the order in which the new
table is smallest (least neighbours first). Tables are numpy arrays with one axis per unknown.
"""

from __future__ import annotations

from collections.abc import Sequence
from heapq import heapify, heappop, heappush
from typing import Any

import numpy as np

from booklet.kit.records import Record
from booklet.pressing.equations.model import Assignment, Model, Term

Costs = np.ndarray[Any, np.dtype[np.int64]]
CELLS = 1 << 22  # numbers in all tables together: 32 MB, about a third of a second
STAR = 6  # a term of more literals is written with a middle of its own


class _CostTable(Record):
    """Costs over the unknowns of `scope`, one axis each."""

    scope: tuple[int, ...]
    costs: Costs


class EliminationOrder(Record):
    """An order of the unknowns, and how many numbers the tables of an exact elimination hold."""

    unknowns: tuple[int, ...]
    cells: int


def elimination_order(model: Model) -> EliminationOrder:
    """The order that always takes the unknown with the fewest neighbours next."""
    return _order(_scopes(model), len(model.prefer) + 2 * len(_stars(model)))


def _order(scopes: Sequence[tuple[int, ...]], count: int) -> EliminationOrder:
    near: dict[int, set[int]] = {x: set() for x in range(count)}
    for scope in scopes:
        for x in scope:
            near[x].update(scope)
    for x in near:
        near[x].discard(x)
    waiting = [(len(around), x) for x, around in near.items()]  # some with numbers gone by
    heapify(waiting)
    order, cells = [], 0
    while near:
        neighbours, x = heappop(waiting)
        if neighbours != len(near.get(x, ())) or x not in near:
            continue
        around = near.pop(x)
        cells += 2 << neighbours
        for y in around:
            near[y] |= around
            near[y] -= {x, y}
            heappush(waiting, (len(near[y]), y))
        order.append(x)
    return EliminationOrder(tuple(order), cells)


def eliminate(model: Model, order: EliminationOrder) -> Assignment:
    """The cheapest assignment; among equally cheap ones the first with False before True."""
    waiting: dict[int, list[_CostTable]] = {x: [] for x in order.unknowns}
    rank = {x: k for k, x in enumerate(order.unknowns)}
    for table in _tables(model):
        waiting[min(table.scope, key=rank.__getitem__)].append(table)
    constant = 0
    kept: list[tuple[int, _CostTable]] = []
    for x in order.unknowns:
        whole = _sum(waiting.pop(x), x)
        kept.append((x, whole))
        rest, left = whole.scope[1:], whole.costs.min(axis=0)
        if rest:
            waiting[min(rest, key=rank.__getitem__)].append(_CostTable(rest, left))
        else:
            constant += int(left)
    values = _backward(kept)
    chosen = tuple(values[x] for x in range(len(model.prefer)))
    return Assignment(chosen, model.cost(chosen), constant)


def _backward(kept: list[tuple[int, _CostTable]]) -> dict[int, bool]:
    """Each unknown, the last first, at its cheaper value, given the values after it."""
    values: dict[int, bool] = {}
    for x, table in reversed(kept):
        place = tuple(int(values[y]) for y in table.scope[1:])
        values[x] = bool(table.costs[(1, *place)] < table.costs[(0, *place)])
    return values


def _scopes(model: Model) -> list[tuple[int, ...]]:
    """The unknowns of every table, without making the tables."""
    stars = _stars(model)
    scopes: list[tuple[int, ...]] = []
    for k, term in enumerate(model.terms):
        if k in stars:
            scopes += [(x, stars[k], stars[k] + 1) for x, _ in term.literals]
        else:
            scopes.append(tuple(dict.fromkeys(x for x, _ in term.literals)))
    return scopes


def _stars(model: Model) -> dict[int, int]:
    """The terms of many literals, each with the first of two unknowns of its own: the truth its
    literals share, and whether it is broken."""
    long = (k for k, term in enumerate(model.terms) if len(term.literals) > STAR)
    return {k: len(model.prefer) + 2 * i for i, k in enumerate(long)}


def _tables(model: Model) -> list[_CostTable]:
    """The whole model as tables."""
    stars = _stars(model)
    tables = [_CostTable((x,), np.array(c, dtype=np.int64)) for x, c in enumerate(model.prefer)]
    for k, term in enumerate(model.terms):
        tables += _star(term, stars[k]) if k in stars else [_table(term)]
    return tables


def _star(term: Term, middle: int) -> list[_CostTable]:
    """A term of many literals: each agrees with the middle unless the term is broken.

    Broken costs the weight; a literal against the middle of an unbroken term costs as much, so that
    the cheapest middle costs exactly what the term does.
    """
    against = term.weight
    tables = [_CostTable((middle + 1,), np.array((0, against), dtype=np.int64))]
    for x, positive in term.literals:
        costs = np.zeros((2, 2, 2), dtype=np.int64)  # unknown, middle, broken
        costs[int(positive), 0, 0] = costs[int(not positive), 1, 0] = against
        tables.append(_CostTable((x, middle, middle + 1), costs))
    return tables


def _table(term: Term) -> _CostTable:
    """A term as a table: its weight everywhere but where all literals agree."""
    scope = tuple(dict.fromkeys(x for x, _ in term.literals))
    costs = np.full((2,) * len(scope), term.weight, dtype=np.int64)
    signs = dict(term.literals)
    if all(signs[x] == positive for x, positive in term.literals):
        for truth in (False, True):
            costs[tuple(int(signs[x] == truth) for x in scope)] = 0
    return _CostTable(scope, costs)


def _sum(tables: list[_CostTable], x: int) -> _CostTable:
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
    return _CostTable(scope, total)
