"""Floor 11, a room: templates for machines that cut."""
