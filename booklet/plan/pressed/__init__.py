"""Floor 9, a room: what is said of pressing: on the cards, in tables, where blocks join."""
