"""Floor 9, a room: cuts and joins of strips in a cutter's words."""
