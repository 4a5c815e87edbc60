"""Floor 6, a room: what comes after the top: backing, batting, binding and a hanging sleeve."""
