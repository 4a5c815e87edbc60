"""Floor 4, the planner: the whole order of a block. Straight lines first, then what is left over."""

from __future__ import annotations

from booklet.kit.outlines.near import WHOLE
from booklet.kit.records import Record
from booklet.pattern import TurnCosts
from booklet.sewing.mosaic.closing import choice_of
from booklet.sewing.mosaic.likeness import Likeness
from booklet.sewing.mosaic.mosaic import Mosaic
from booklet.sewing.mosaic.trees import Tree, sums
from booklet.sewing.planner.spared_turns import SparedTurn, with_spared_turns
from booklet.sewing.searches.effort import Effort
from booklet.sewing.searches.searching import MOST_TRIED, Search


class Order(Record, kw_only=True):
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
    rings: int
    bound: float
    proven: bool
    methods: tuple[str, ...]
    costs: TurnCosts
    partials: tuple[SparedTurn, ...]

    @property
    def gap(self) -> float:
        """How far the cost may be above the least, as a share of it; 0 where proven."""
        return 0.0 if self.proven else (self.cost - self.bound) / max(self.bound, 1.0)


def best_order(
    mosaic: Mosaic, likeness: Likeness, shapes: Likeness | None = None, costs: TurnCosts | None = None,
    first_told: bool = False,
) -> Order:  # fmt: skip
    """The cheapest order found of a whole block, and among equals the easiest to follow, or the `first_told`.

    `likeness` tells which units are alike, cloth and all; what has the same shape (`shapes`) is
    sewn in the same order.
    """
    costs = costs or TurnCosts()
    shapes = shapes or likeness
    effort = Effort(mosaic, likeness, shapes)
    search = Search(mosaic=mosaic, likeness=likeness, shapes=shapes, effort=effort)
    tree, bound = search.solve(mosaic.whole)
    if not first_told and mosaic.whole.bit_count() <= MOST_TRIED:
        tree = effort.best(tree)
    methods = tuple(sorted(search.methods)) or ("straight lines",)
    tree, partials = with_spared_turns(mosaic, tree, costs.partial)
    return _measured(mosaic, likeness, tree, bound, methods, costs, partials)


def without_partials(order: Order) -> Order:
    """The same tree of joins with a turn in place of every partial seam."""
    return _measured(
        order.mosaic, order.likeness, order.tree, order.bound, order.methods, order.costs, ()
    )


def drawn_anew(order: Order, mosaic: Mosaic) -> Order:
    """The same tree of joins for a block that differs in nothing but the seams sewn by hand, with the partial seams
    that those allow."""
    tree, partials = with_spared_turns(mosaic, order.tree, order.costs.partial)
    looks = Likeness(order.likeness.looks)  # its own: likenesses grow as they are asked
    return _measured(mosaic, looks, tree, order.bound, order.methods, order.costs, partials)


def order_of(mosaic: Mosaic, likeness: Likeness, tree: Tree, costs: TurnCosts) -> Order:
    """A tree of joins as an order, nothing being known of others."""
    tree, partials = with_spared_turns(mosaic, tree, costs.partial)
    return _measured(mosaic, likeness, tree, 0.0, (), costs, partials)


def with_tree(order: Order, tree: Tree) -> Order:
    """Another tree of joins for the same block, with the partial seams that it allows."""
    tree, partials = with_spared_turns(order.mosaic, tree, order.costs.partial)
    looks = Likeness(order.likeness.looks)
    return _measured(order.mosaic, looks, tree, order.bound, order.methods, order.costs, partials)


def _measured(
    mosaic: Mosaic, likeness: Likeness, tree: Tree, bound: float, methods: tuple[str, ...],
    costs: TurnCosts, partials: tuple[SparedTurn, ...],
) -> Order:  # fmt: skip
    """An order with its sums."""
    made = sums(mosaic, tree)
    closed = choice_of(mosaic, tree).items()
    spared = sum(mosaic.pair(point, *pair).spared for point, pair in closed)
    cost = made.cost + spared - sum(partial.spared for partial in partials)
    proven = cost <= bound + WHOLE
    return Order(
        mosaic=mosaic,
        likeness=likeness,
        tree=tree,
        cost=cost,
        turns=made.turns - len(partials),
        rings=made.rings,
        bound=cost if proven else bound,
        proven=proven,
        methods=methods,
        costs=costs,
        partials=partials,
    )
