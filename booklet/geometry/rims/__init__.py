"""Floor 3, a room: the rim of a lattice: where its frame lies, and the part blocks that fill it."""
