"""Floor 10, a room: pictures of pressing, from the back."""
