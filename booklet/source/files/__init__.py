"""Floor 2, a room: the folder, and what is read from it beside the pattern."""
