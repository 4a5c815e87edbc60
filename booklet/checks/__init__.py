"""Floor 8: checks. The rules with their pages, and the only door to a CheckedPattern."""
