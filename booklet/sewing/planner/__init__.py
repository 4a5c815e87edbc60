"""Floor 4, the planner: finds the order in which a block is sewn with the fewest turns, names it and judges others by it."""

from booklet.sewing.planner.as_steps import find_order, steps_of
from booklet.sewing.planner.best_order import (
    Order,
    drawn_anew,
    order_of,
    with_tree,
    without_partials,
)

__all__ = [
    "Order",
    "drawn_anew",
    "find_order",
    "order_of",
    "steps_of",
    "with_tree",
    "without_partials",
]
