"""Floor 0, a room: the one plane geometry: points, closed outlines, path data, how near is the same."""
