"""Floor 10, a room: how marks become ink: fills, hatches, pens, and SVG."""
