"""Floor 7, a room: the plan of one cloth, from settled strips to what is bought and what is left over."""
