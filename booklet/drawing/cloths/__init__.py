"""Floor 10, a room: pictures of cutting."""
