"""Floor 2, a room: the kinds of values, how each is read, and how a group is read against its table of keys."""
