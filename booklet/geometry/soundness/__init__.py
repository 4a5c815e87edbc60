"""Floor 3, a room: whether the pieces of a block cover it exactly once, and the slip behind it where they do not."""
