"""Floor 0, a room: the run itself: what is being worked out, being stopped, names fetched later."""
