"""Floor 4, a room: a block as a plain drawing of faces, edges and points, what is alike in it, and what joins mean."""
