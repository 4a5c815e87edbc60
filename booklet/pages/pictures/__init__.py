"""Floor 11, a room: the pictures of a size: drawn when asked for, numbered, placed."""
