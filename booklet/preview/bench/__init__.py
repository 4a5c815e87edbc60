"""Floor 13, a room: the page as it stands now, and what is kept of the states before."""
