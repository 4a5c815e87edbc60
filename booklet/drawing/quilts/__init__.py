"""Floor 10, a room: pictures of blocks, of the whole quilt and of its finishing."""
