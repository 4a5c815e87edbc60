"""Floor 11, a room: what a template may name, one record a page."""
