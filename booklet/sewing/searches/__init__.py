"""Floor 4, a room: the searches for an order with the fewest turns, and among those for the easiest to follow."""
