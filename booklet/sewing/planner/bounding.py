"""Floor 4, the planner: an order and a bound brought together, for a region too large to look at all.

The bound rises as rounds are forbidden in the programme of the whole region. The order gets cheaper
as the closing pairs of a few dozen points at a time are chosen anew, all others kept.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.kit.near import WHOLE
from booklet.sewing.planner.joining import common_edges
from booklet.sewing.planner.mosaic import Faces, Mosaic
from booklet.sewing.planner.programme import Programme
from booklet.sewing.planner.rounds import Choice, rounds_of
from booklet.sewing.planner.strands import tree_of
from booklet.sewing.planner.trees import Tree, sums

MOST_ROUNDS = 60
MOST_BOUNDING = 10_000_000  # variables times rows, over all programmes of the whole: some seconds
MOST_LOOKING = 16_000_000  # the same with those of a part
WINDOWS = (50, 100, 150)  # points whose pairs are chosen anew at once: few while that helps
CLOSE_ENOUGH = 0.03  # a gap below this, as a share of the bound, ends the search


def programmed(mosaic: Mosaic, region: Faces, known: Tree | None) -> tuple[Tree | None, float]:
    """An order cheaper than the one known (None if none was found) and a lower bound on the cost of
    every order that closes no ring."""
    programme = Programme.of(mosaic, region)
    cost = sums(mosaic, known).cost if known is not None else float("inf")
    bound = max(mosaic.least_cost(region), programme.relaxed())
    best: Tree | None = None
    for _ in range(MOST_ROUNDS):
        if is_close(cost, bound) or programme.effort > MOST_BOUNDING:
            break
        solution = programme.solve()
        if solution is None:
            break
        bound = max(bound, programme.rounded(solution.bound))
        choice = programme.choice(solution.values)
        rounds = rounds_of(mosaic, choice)
        if not rounds:
            best = tree_of(mosaic, region, choice)
            cost = solution.cost
            break
        programme.forbid(rounds)
    if best is None and known is not None and not is_close(cost, bound):
        best = improved_in_windows(programme, region, known, bound)
    if best is not None:
        cost = sums(mosaic, best).cost
    return best, min(bound, cost)


def is_close(cost: float, bound: float) -> bool:
    """Whether a cost is near enough to the bound."""
    return cost - bound <= max(WHOLE, CLOSE_ENOUGH * bound)


def improved_in_windows(
    programme: Programme, region: Faces, tree: Tree, bound: float
) -> Tree | None:
    """A cheaper order than the one given; None if none was found. Round every point that costs more than
    it need, the pairs of the points near it are chosen anew until nothing is gained any more."""
    mosaic = programme.mosaic
    choice = choice_of(mosaic, tree)
    if rounds_of(mosaic, choice):
        return None  # a ring is closed somewhere
    inside = set(choice)
    cost = programme.cost(choice, inside)
    gained = False
    for width in WINDOWS:
        looked: set[int] = set()
        while not is_close(cost, bound) and programme.effort < MOST_LOOKING:
            dear = next((p for p in _dear(mosaic, choice) if p not in looked), None)
            if dear is None:
                break
            looked.add(dear)
            free = _round_about(mosaic, dear, inside, width)
            made = programme.chosen_anew(choice, free, programme.cost(choice, free))
            if made is not None:
                choice, gained = made, True
                cost = programme.cost(choice, inside)
    return tree_of(mosaic, region, choice) if gained else None


def _dear(mosaic: Mosaic, choice: Choice) -> Iterator[int]:
    """The points that cost more than they need."""
    for point, pair in choice.items():
        if mosaic.pair(point, *pair).cost > mosaic.least[point] + WHOLE:
            yield point


def choice_of(mosaic: Mosaic, tree: Tree) -> Choice:
    """The closing pairs of an order: at every inner point the two edges sewn last."""
    choice: Choice = {}
    for unit in tree.units():
        done = unit.parts[0].faces
        for part in unit.parts[1:]:
            at: dict[int, list[int]] = {}
            for e in common_edges(mosaic, done, part.faces):
                for point in mosaic.ends(e):
                    at.setdefault(point, []).append(e)
            done |= part.faces
            for point, there in at.items():
                if len(there) == 2 and mosaic.is_inside(point, done):
                    choice[point] = (min(there), max(there))
    return dict(sorted(choice.items()))


def _round_about(mosaic: Mosaic, point: int, inside: set[int], width: int) -> set[int]:
    """The inner points nearest to one, counted in edges."""
    found = {point}
    front = [point]
    while front and len(found) < width:
        ahead = sorted({mosaic.far(e, p) for p in front for e in mosaic.rays[p]} & inside - found)
        front = ahead[: width - len(found)]
        found.update(front)
    return found
