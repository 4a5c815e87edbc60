"""Floor 6, a room: how a top is sewn together and pressed."""
