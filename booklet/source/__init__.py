"""Floor 2: the source. A folder becomes a Pattern, or every fault in it with its place."""
