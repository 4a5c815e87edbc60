"""Floor 10, a room: templates true to size, laid on pages."""
