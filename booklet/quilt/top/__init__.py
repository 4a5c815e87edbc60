"""Floor 6, a room: the top before it is sewn: blocks in their set, sashes, side triangles and borders."""
