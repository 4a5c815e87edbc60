"""Floor 13, a room: the block under the hand: what a touch joins, colours and says."""
