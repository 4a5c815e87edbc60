"""Floor 4, a room: an order that is touched step by step: what a step would do, what is alike, how to go on."""
