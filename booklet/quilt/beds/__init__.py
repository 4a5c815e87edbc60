"""Floor 6, a room: the bed a quilt is made for."""
