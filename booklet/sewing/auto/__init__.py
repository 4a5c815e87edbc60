"""Floor 4, a room: steps that the tool finds, and what it would propose."""
