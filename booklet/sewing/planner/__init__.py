"""Floor 4, the planner: finds the order in which a block is sewn with the fewest turns."""

from booklet.sewing.planner.costs import Costs
from booklet.sewing.planner.mosaic import mosaic_of
from booklet.sewing.planner.order import Order, drawn_anew, with_tree
from booklet.sewing.planner.steps import find_order, steps_of, tree_of_steps

__all__ = [
    "Costs",
    "Order",
    "drawn_anew",
    "find_order",
    "mosaic_of",
    "steps_of",
    "tree_of_steps",
    "with_tree",
]
