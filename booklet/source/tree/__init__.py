"""Floor 2, a room: the text as a tree with positions."""
