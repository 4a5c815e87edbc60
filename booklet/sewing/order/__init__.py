"""Floor 4, a room: declared steps, join by join, with every fault of the order."""
