"""Floor 5, a room: what clashes still, and the ways out."""
