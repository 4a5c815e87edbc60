"""Floor 4, the planner: the whole order of a block. Straight lines first, then what is left over."""

from __future__ import annotations

from dataclasses import dataclass

from booklet.kit.near import WHOLE
from booklet.sewing.planner.bounding import choice_of
from booklet.sewing.planner.costs import Costs
from booklet.sewing.planner.likeness import Likeness
from booklet.sewing.planner.mosaic import Mosaic
from booklet.sewing.planner.partial import Partial, partial_seams
from booklet.sewing.planner.searching import MOST_TRIED, Search
from booklet.sewing.planner.telling import Teller
from booklet.sewing.planner.trees import Tree, sums


@dataclass(frozen=True, slots=True)
class Order:
    """An order of sewing a mosaic: the tree of its joins and its sums, beside a proven bound.

    No order costs less than `bound`; with the usual costs that is a number of turns. `proven` means that this one costs no
    more. A bound found by the programme holds for orders that close no ring. `methods` are the ways
    by which its kernels (the regions without a straight line) were solved. `partials` are the partial
    seams taken in place of turns; the turns they save are not among `turns`.
    """

    mosaic: Mosaic
    likeness: Likeness
    tree: Tree
    cost: float
    turns: int
    joins_with_turn: int
    rings: int
    bound: float
    proven: bool
    methods: tuple[str, ...]
    costs: Costs
    partials: tuple[Partial, ...] = ()

    @property
    def gap(self) -> float:
        """How far the cost may be above the least, as a share of it; 0 where proven."""
        return 0.0 if self.proven else (self.cost - self.bound) / max(self.bound, 1.0)


def best_order(
    mosaic: Mosaic, likeness: Likeness, shapes: Likeness | None = None, costs: Costs | None = None
) -> Order:
    """The cheapest order found of a whole block, and among equals the easiest to follow.

    `likeness` tells which units are alike, cloth and all; what has the same shape (`shapes`) is
    sewn in the same order.
    """
    costs = costs or Costs()
    shapes = shapes or likeness
    teller = Teller(mosaic, likeness, shapes)
    search = Search(mosaic, likeness, shapes, teller)
    tree, bound = search.solve(mosaic.whole)
    if mosaic.whole.bit_count() <= MOST_TRIED:
        tree = teller.best(tree)
    methods = tuple(sorted(search.methods)) or ("straight lines",)
    partials = partial_seams(mosaic, tree, costs.partial)
    return _measured(mosaic, likeness, tree, bound, methods, costs, partials)


def with_tree(order: Order, tree: Tree) -> Order:
    """Another tree of joins for the same block, with its own sums beside the same bound, and no
    partial seams."""
    bound = order.bound
    return _measured(order.mosaic, order.likeness, tree, bound, order.methods, order.costs, ())


def drawn_anew(order: Order, mosaic: Mosaic) -> Order:
    """The same tree of joins for a block that differs in nothing but the seams sewn by hand, with the partial seams
    that those allow."""
    partials = partial_seams(mosaic, order.tree, order.costs.partial)
    looks = Likeness(order.likeness.looks)  # what the search found alike is not kept
    return _measured(mosaic, looks, order.tree, order.bound, order.methods, order.costs, partials)


def _measured(
    mosaic: Mosaic, likeness: Likeness, tree: Tree, bound: float, methods: tuple[str, ...],
    costs: Costs, partials: tuple[Partial, ...],
) -> Order:  # fmt: skip
    """An order with its sums."""
    made = sums(mosaic, tree)
    closed = choice_of(mosaic, tree).items()
    spared = sum(mosaic.pair(point, *pair).spared for point, pair in closed)
    cost = made.cost + spared - sum(partial.spared for partial in partials)
    proven = cost <= bound + WHOLE
    return Order(
        mosaic,
        likeness,
        tree,
        cost,
        made.turns - len(partials),
        made.set_ins,
        made.rings,
        cost if proven else bound,
        proven,
        methods,
        costs,
        partials,
    )
