"""Floor 4, a room: the routes of the thread through the seams sewn by hand."""
