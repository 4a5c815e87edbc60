"""Floor 13, a room: the words of the command line, and what it says."""
