"""Floor 11, a room: an edition cut at its parts: for e-readers, and as a site."""
