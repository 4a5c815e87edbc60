"""Floor 9, a room: the top in cards and tables: its joins, its rows on point."""
