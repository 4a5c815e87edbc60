"""Floor 11, a room: pages as a printing press wants them."""
