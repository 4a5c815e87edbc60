"""Floor 7, a room: how patches are cut, with a ruler or by a template, and whether they fit when sewn."""
