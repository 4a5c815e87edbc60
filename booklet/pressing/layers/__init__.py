"""Floor 5, a room: layers of cloth, counted by folding."""
