"""Floor 4, the planner: finds the order in which a block is sewn with the fewest turns, names it and judges others by it."""

from booklet.sewing.planner.as_steps import find_order as find_order, steps_of as steps_of
from booklet.sewing.planner.best_order import (
    Order as Order,
    drawn_anew as drawn_anew,
    order_of as order_of,
    with_tree as with_tree,
    without_partials as without_partials,
)
