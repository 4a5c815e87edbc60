"""Floor 11, a room: HTML becomes PDF, right for its reader or its press."""
