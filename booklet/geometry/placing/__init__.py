"""Floor 3, a room: pieces in their places: outlines of shapes, turned, mirrored and laid in a block."""
