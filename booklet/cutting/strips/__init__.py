"""Floor 7, a room: the search for the shortest plan in strips, and the bound that proves it."""
