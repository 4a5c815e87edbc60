"""Floor 7: whole strips. An integer programme over the fillings that a shorter plan could hold."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.cutting.strips.fillings import near_fillings
from booklet.cutting.strips.items import (
    Items,
    Plan,
    Remnants,
    StripFill,
    in_pieces,
    lies_whole,
    made,
    without_surplus,
)
from booklet.cutting.strips.mixing import Mixture, entries, whole_steps
from booklet.kit.outlines.near import WHOLE
from booklet.kit.records import Record
from booklet.kit.solver import INFINITY, Row, Variable, minimise

NODES = 20
"""Divisions of the integer search: with its rows of counts it ends sooner or hardly gains by more."""


class ShortestPlan(Record):
    """A plan as short as was asked, None if none was found, and the length that no plan goes below."""

    plan: Plan | None
    bound: int


def in_whole_strips(
    items: Items, width: int, remnants: Remnants, mixture: Mixture, most: int
) -> ShortestPlan:
    """The shortest plan of at most `most` steps from the fillings that cost little more than they are worth.

    What the fillings of a plan cost beyond their worth adds up to what it is longer than the mixture, so that no
    other filling is in a plan so short; or, where these are too many, every plan that holds another is longer than
    the mixture by what was the limit.
    """
    # half a step more than needed, so that rounding leaves none out
    near, slack = near_fillings(items, width, remnants, mixture, most + 0.5 - mixture.cost)
    fills = tuple(dict.fromkeys([*near, *mixture.fills]))
    others = whole_steps(mixture.cost + slack)  # most + 1, or less where the slack is narrower
    rows = _counted(_rows(items, remnants, fills), fills, most)
    if rows is None:
        return ShortestPlan(None, others)
    variables = [Variable(0.0 if f.cloth else float(f.height), whole=True) for f in fills]
    answer = minimise(variables, rows, NODES, gap=0.999)  # heights are whole steps
    if answer is None:  # the search was too short
        return ShortestPlan(None, 0)
    bound = min(whole_steps(answer.cost if answer.optimal else answer.bound), others)
    if answer.cost > most + WHOLE:
        return ShortestPlan(None, bound)
    strips = tuple(f for f, v in zip(fills, answer.values, strict=True) for _ in range(round(v)))
    if any(m < item.demand for m, item in zip(made(items, strips), items, strict=True)):
        raise RuntimeError("the solver's strips do not cover the demand")
    more = _left_in_remnants(remnants, fills, strips, mixture)
    for plan in (without_surplus(items, (*strips, *more)), without_surplus(items, strips)):
        if lies_whole(plan, remnants):
            return ShortestPlan(plan, bound)
    return ShortestPlan(None, bound)


def _left_in_remnants(
    remnants: Remnants, fills: Sequence[StripFill], strips: Sequence[StripFill], mixture: Mixture
) -> list[StripFill]:
    """Fillings for what the strips leave of the remnants, worth most first: what lies there need not be cut from
    the cloth, even where that makes it no shorter."""
    more: list[StripFill] = []
    for number, remnant in enumerate(remnants, start=1):
        laid = [fill.height for fill in strips if fill.cloth == number]
        rooms = [remnant.height] * remnant.count
        for height, piece in zip(laid, in_pieces(laid, remnant), strict=True):
            if piece is not None:
                rooms[piece] -= height
        own = [(-mixture.worth(fill), fill) for fill in fills if fill.cloth == number]
        for _, fill in sorted(own):
            count = sum(room // fill.height for room in rooms)
            rooms = [room % fill.height for room in rooms]
            more += [fill] * count
    return more


def _rows(items: Items, remnants: Remnants, fills: Sequence[StripFill]) -> list[Row]:
    """The conditions of a plan: the demands are met, and no more of a remnant is taken than there is."""
    limits = [(float(item.demand), INFINITY) for item in items]
    limits += [(-INFINITY, float(r.height * r.count)) for r in remnants]
    terms: list[list[tuple[int, float]]] = [[] for _ in limits]
    for column, fill in enumerate(fills):
        for row, factor in entries(fill, len(items)):
            terms[row].append((column, factor))
    return [Row(tuple(t), low, high) for t, (low, high) in zip(terms, limits, strict=True)]


def _counted(rows: list[Row], fills: Sequence[StripFill], most: int) -> list[Row] | None:
    """The rows, and for each height how many strips at least as high every plan of `most` steps has at least;
    None where there is no such plan.

    How many they are is whole in every plan, so that rounding the number up loses none, and each row makes the
    next one sharper. The solver does not divide there by itself, and without these rows it seldom comes to an end.
    """
    heights = [0 if fill.cloth else fill.height for fill in fills]
    short = Row(tuple((n, float(height)) for n, height in enumerate(heights)), high=float(most))
    for least in sorted(set(heights) - {0}):
        high = [height >= least for height in heights]
        fewest = minimise([Variable(float(is_high)) for is_high in high], [*rows, short])
        if fewest is None:
            return None
        count = whole_steps(fewest.cost)
        if count:
            terms = tuple((n, 1.0) for n, is_high in enumerate(high) if is_high)
            rows = [*rows, Row(terms, low=float(count))]
    return rows
