"""Floor 11, a room: how a page looks: papers, faces, colours, the cover."""
