"""Floor 0, a room: what records say, what of them is read, and answers kept for it."""
