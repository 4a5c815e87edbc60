"""Floor 2, a room: sizes, each with its fabrics, its rules and its quilt."""
