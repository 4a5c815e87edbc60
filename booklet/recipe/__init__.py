"""Floor 12: the recipe: a folder becomes booklets; what is written, and what changed since."""
