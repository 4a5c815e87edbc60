"""Floor 2, a room: blocks, their patches and pieces, and the steps of sewing."""
