"""Floor 13, a room: what goes to and from the browser."""
