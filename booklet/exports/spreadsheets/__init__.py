"""Floor 11, a room: what to buy and what to cut as tables for other programs."""
