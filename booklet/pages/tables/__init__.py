"""Floor 11, a room: the rows of tables and lists, worked out of a plan."""
