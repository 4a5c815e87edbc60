"""Floor 0: the kit that every floor works with: sums in the plane."""
