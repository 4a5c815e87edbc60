"""Floor 3, a room: what a sound block is made of: patches with letters, seams and their marks, shapes applied."""
