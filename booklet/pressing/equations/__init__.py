"""Floor 5, a room: what must agree when a block is pressed, as equations, and their solution."""
