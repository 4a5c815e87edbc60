"""Floor 7, a room: the work on every cloth of a size, gathered from blocks and from the parts of the quilt."""
