"""Floor 9, a room: the step cards of a block: what is sewn, in which frames, and what is said of it."""
