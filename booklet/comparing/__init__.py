"""Floor 12: what changed between two states of a pattern, as whoever owns the earlier booklet sees it."""
