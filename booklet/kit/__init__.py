"""Floor 0: the kit that every floor works with: the plane, what is alike, what is near, the trade's usual lengths."""
