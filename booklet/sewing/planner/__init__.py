"""Floor 4, the planner: finds the order in which a block is sewn with the fewest turns."""

from booklet.sewing.planner.costs import Costs
from booklet.sewing.planner.order import Order
from booklet.sewing.planner.steps import find_order, steps_of

__all__ = ["Costs", "Order", "find_order", "steps_of"]
