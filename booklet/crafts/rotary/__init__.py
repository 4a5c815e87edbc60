"""Floor 1, a room: cutting with ruler and cutter: the sums, and the cuts that forms share."""
