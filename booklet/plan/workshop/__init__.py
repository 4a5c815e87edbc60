"""Floor 9, a room: a time to sew: sittings, the day of a class, its kits and samples."""
