"""Floor 4, the planner: finds the order in which a block is sewn with the fewest turns."""

from booklet.sewing.planner.costs import Costs
from booklet.sewing.planner.order import Order, with_tree
from booklet.sewing.planner.steps import find_order, steps_of, tree_of_steps

__all__ = ["Costs", "Order", "find_order", "steps_of", "tree_of_steps", "with_tree"]
