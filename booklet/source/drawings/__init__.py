"""Floor 2, a room: SVG drawings become pieces."""
